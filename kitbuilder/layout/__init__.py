"""A kit's contents laid on sheets of a paper: items placed, cuts in order."""
