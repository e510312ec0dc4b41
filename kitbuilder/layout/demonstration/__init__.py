"""A demonstration on sheets: large pieces, names for a mat of tape, and how it is laid out."""
