"""Formulas of the specs: their tokens, their order, their units and their blank guards."""
