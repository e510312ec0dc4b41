"""Pages of sums to write: their grid, the sums on it, and the keys on the same places."""
