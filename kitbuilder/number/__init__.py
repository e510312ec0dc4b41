"""Sums: their steps, their written columns and the pieces they need."""

from kitbuilder.number.sums import PLACES, Pieces, Sum, digits

__all__ = ["PLACES", "Pieces", "Sum", "digits"]
