"""Prints kits of base-ten pieces, mats and cards for column subtraction by hand."""

__version__ = "0.1.0"
