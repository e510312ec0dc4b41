"""Turns what a lesson needs: sums into the contents of a kit."""
