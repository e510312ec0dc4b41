"""A lesson move by move: what is asked, what lies on the mat, what is written."""
