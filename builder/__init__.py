"""Builds the hold-up, wash and rinse workbook of a maple sap concentrator, and audits it."""

from importlib.metadata import version

__version__ = version("rinsebook")
