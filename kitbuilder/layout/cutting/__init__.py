"""Cuts in order, for scissors and for a guillotine, and the checker that replays them."""
