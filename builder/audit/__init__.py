"""Meets a workbook as a stranger does: opens it cold, compares, recalculates, reports."""
