"""Turns the look for rings of garbage down: it made the run of all tests a tenth longer."""

import gc

gc.set_threshold(100_000, 20, 20)
