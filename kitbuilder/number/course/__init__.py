"""Which sum on which day at which stage, with which small facts."""
