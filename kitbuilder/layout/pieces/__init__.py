"""Sheets of pieces, with or without kerf, plain, folded or two-sided."""
