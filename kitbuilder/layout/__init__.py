"""Turns a kit's contents and a paper profile into sheets: items placed, cuts in order."""
