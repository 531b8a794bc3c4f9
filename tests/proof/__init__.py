"""The proof: engines against each other, coverage, mutants, lint and properties of the file."""
