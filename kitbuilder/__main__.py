"""Turns ``python -m kitbuilder`` into the command line."""

from kitbuilder.cli import main

main(prog_name="kitbuilder")
