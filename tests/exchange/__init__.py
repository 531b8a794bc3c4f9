"""Machine files, examples, results and written files."""
