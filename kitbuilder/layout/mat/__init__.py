"""Mats, their joins, and the checker that replays every step on them."""
