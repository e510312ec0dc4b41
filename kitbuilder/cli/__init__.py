"""Turns a person's words into a request, and results into plain words."""

import click


@click.group()
def main() -> None:
    """Build kits of base-ten pieces, mats and cards for column subtraction."""
