"""Machine files in, results and files out: what passes between people and the program."""
