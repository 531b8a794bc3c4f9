"""Plays the story of a season through a reference or a workbook, and compares what it tells."""
