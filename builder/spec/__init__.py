"""Reads the specs: TOML files become frozen records, or problems with file and line."""
