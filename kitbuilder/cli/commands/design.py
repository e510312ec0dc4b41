"""``kitbuilder design``: a shipped design written into a file, to start from."""

from pathlib import Path

import click

from kitbuilder.cli.options import new_file, words_option
from kitbuilder.cli.voice import tell
from kitbuilder.errors import RefusedError, Said

KINDS = ("paper", "looks", "words", "kits")
"""Designs that a command takes from a file: --paper, --look, --words and a request file."""


@click.command()
@click.argument("kind", metavar="KIND")
@click.argument("name", metavar="NAME")
@click.option("--out", type=click.Path(path_type=Path), required=True, help="File to write.")
@words_option
def design(kind: str, name: str, out: Path, words: object) -> None:
    """Write a shipped design into a file, to be changed and used as your own.

    KIND is paper, looks, words or kits; NAME is the design, such as es. Give the file's path
    to --paper, --look or --words; a request (kits) goes to: kitbuilder kit FILE.
    """
    from kitbuilder.design import load as designs
    from kitbuilder.output.store.folder import write_new

    if kind not in KINDS:
        raise RefusedError("design.kind", given=kind, known=KINDS)
    if name not in designs.names(kind):
        raise RefusedError("design.name", given=name, kind=kind, known=designs.names(kind))
    path = new_file(out, "out")
    if path.suffix != ".toml" or path.exists():
        raise RefusedError("design.new-file", option="out", given=path)
    data = (designs.folder() / kind / f"{name}.toml").read_bytes()
    write_new(path, data, "out")
    tell(Said("told.design", path=path))
