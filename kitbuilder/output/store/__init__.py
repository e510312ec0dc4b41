"""Files in a folder: each one whole, and nobody else's touched."""
