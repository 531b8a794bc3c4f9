"""A roster becomes a folder of books, a manifest and messages."""
