"""Placed items drawn as marks."""
