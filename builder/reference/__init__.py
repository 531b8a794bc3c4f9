"""Independent reference calculations for the concentrator workbook."""
