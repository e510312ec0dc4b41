"""Bounded, safe reading of text, CSV and TOML."""
