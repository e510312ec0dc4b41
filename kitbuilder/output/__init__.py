"""Drawings written as files."""
