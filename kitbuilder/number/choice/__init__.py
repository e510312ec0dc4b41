"""Which sums: kinds, covers of small facts, difficulty."""
