"""Returned books become tables and a fleet sheet."""
