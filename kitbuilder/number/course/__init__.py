"""Which sum and which small facts on which day."""
