"""Turns subtraction sums into a printed kit of base-ten pieces, mats and cards."""

__version__ = "0.1.0"
