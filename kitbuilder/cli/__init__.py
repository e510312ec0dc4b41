"""Turns a person's words into a request, and results into plain words."""

import sys
from itertools import zip_longest
from typing import Any

import click

from kitbuilder import __version__
from kitbuilder.cli.commands.cards import cards
from kitbuilder.cli.commands.check_print import check_print
from kitbuilder.cli.commands.choose import choose
from kitbuilder.cli.commands.design import design
from kitbuilder.cli.commands.kit import kit
from kitbuilder.cli.commands.mats import mats
from kitbuilder.cli.commands.papers import papers
from kitbuilder.cli.commands.pieces import pieces
from kitbuilder.cli.commands.plan import plan
from kitbuilder.cli.commands.show import show
from kitbuilder.cli.commands.units import units
from kitbuilder.cli.plain import fit_terminal, plain
from kitbuilder.errors import STOPPED, RefusedError


class Commands(click.Group):
    """The commands; what is refused is said in one sentence, with exit status 2."""

    def main(self, *args: Any, **extra: Any) -> Any:  # noqa: ANN401  (as click declares it)
        """Run the command line and end the process with its status."""
        extra["standalone_mode"] = False
        fit_terminal()
        try:
            if sys.stdout is None:  # as Python has it where the shell closed it
                raise RefusedError("Standard output is closed; leave it open, or give it a file.")
            status = super().main(*args, **extra)
        except RefusedError as error:
            status = _refused(str(error))
        except click.UsageError as error:
            status = _refused(_sentence(error))
        except OSError as error:  # such as a disk that is full behind standard output
            reason = (error.strerror or "no room").lower()
            status = _refused(f"What is to be said cannot be written ({reason}); make room for it.")
        except MemoryError:
            status = _refused("There is not enough memory for this; ask for less at a time.")
        except click.Abort:
            click.echo(STOPPED, err=True)
            status = 130
        sys.exit(status if isinstance(status, int) else 0)

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Refuse an option that was given nothing, as by a shell's variable that is not set."""
        for option, value in zip_longest(args, args[1:], fillvalue="-"):
            if option.startswith("--") and (not value.strip() or option.endswith("=")):
                name = option.rstrip("=")[:40]
                raise RefusedError(f"{name} was given nothing; give it a value, or leave it out.")
        return super().parse_args(ctx, args)

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401  (as click declares it)
        """Run the command named; a fault that names none belongs to it."""
        try:
            return super().invoke(ctx)
        except click.UsageError as error:
            named = self.commands.get(ctx.invoked_subcommand or "")
            if error.ctx is None and named:
                error.ctx = click.Context(named, ctx, ctx.invoked_subcommand)
            raise


def _refused(sentence: str) -> int:
    """Say why nothing was done and return the status for it."""
    click.echo(plain(sentence), err=True)
    return 2


def _sentence(error: click.UsageError) -> str:
    """Return what was typed wrong, what may have been meant, and where to read on."""
    path = error.ctx.command_path if error.ctx else "kitbuilder"
    likely = getattr(error, "possibilities", None)
    said = error.message if likely else error.format_message()
    said = said.replace("\n", " ").rstrip(".")[:200]
    if isinstance(error, click.exceptions.NoArgsIsHelpError):
        said = "No command was given"
    if likely:
        said += f"; perhaps {likely[0]} is meant"
    return f"{said}; see what is allowed with: {path} --help."


@click.group(cls=Commands)
@click.version_option(__version__, message="kitbuilder %(version)s")
def main() -> None:
    """Print base-ten pieces, mats and cards at true size, for column subtraction by hand."""


for command in (
    kit,
    pieces,
    cards,
    mats,
    choose,
    plan,
    show,
    papers,
    design,
    check_print,
    units,
):
    main.add_command(command)
