"""Ways of arrows over a picture of the mat: what they keep clear of, and the clearest of many."""
