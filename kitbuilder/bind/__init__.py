"""Turns drawings into files."""
