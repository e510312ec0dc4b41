"""Turns placed items into marks."""
