"""Measurements of speed and memory, as ratios within one run; nothing here is part of the tests."""
