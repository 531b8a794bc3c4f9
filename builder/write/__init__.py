"""Writes a plan as an .xlsx file; decides nothing."""
