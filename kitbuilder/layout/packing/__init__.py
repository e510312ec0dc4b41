"""Pieces onto the fewest sheets, by guillotine cuts."""
