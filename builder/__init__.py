"""Builds the hold-up, wash and rinse workbook of a maple sap concentrator, and audits it."""

__version__ = "0.2.0"
