"""Turns a sum into its steps, its written columns and the pieces it needs."""

from kitbuilder.number.sums import PLACES, Pieces, Sum, digits

__all__ = ["PLACES", "Pieces", "Sum", "digits"]
