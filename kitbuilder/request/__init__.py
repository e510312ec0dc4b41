"""What a person asked for, as checked records."""
