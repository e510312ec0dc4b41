"""What the terminal is told, in plain text."""
