"""Drawings as a PDF file."""
