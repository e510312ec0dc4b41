"""Turns a shipped design into a file of one's own to start from."""

from pathlib import Path

import click

from kitbuilder.cli.options import new_file
from kitbuilder.cli.plain import plain
from kitbuilder.errors import RefusedError

KINDS = ("paper", "looks", "words", "kits")
"""Designs that a command takes from a file: --paper, --look, --words and a request file."""


@click.command()
@click.argument("kind", metavar="KIND")
@click.argument("name", metavar="NAME")
@click.option("--out", type=click.Path(path_type=Path), required=True, help="File to write.")
def design(kind: str, name: str, out: Path) -> None:
    """Write a shipped design into a file, to be changed and used as your own.

    KIND is paper, looks, words or kits; NAME is the design, such as es. Give the file's path
    to --paper, --look or --words; a request (kits) goes to: kitbuilder kit FILE.
    """
    from kitbuilder.design import load as designs
    from kitbuilder.output.folder import write_new

    if kind not in KINDS:
        raise RefusedError(f"{kind[:40]!r} is no kind of design; choose from {', '.join(KINDS)}.")
    if name not in designs.names(kind):
        known = ", ".join(designs.names(kind))
        raise RefusedError(f"There is no design {name[:40]!r} in {kind}; choose from {known}.")
    path = new_file(out, "--out")
    if path.suffix != ".toml" or path.exists():
        raise RefusedError(
            f"--out was {str(path)[:200]!r}; give the name of a new file that ends in .toml."
        )
    data = (designs.folder() / kind / f"{name}.toml").read_bytes()
    write_new(path, data, "--out")
    click.echo(plain(f"Wrote {path}; change it, and give its path."))
