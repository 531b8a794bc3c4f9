"""Decides everything about a workbook as pure data: addresses, texts, formulas, looks, print."""
