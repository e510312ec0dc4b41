"""The command line: a person's words into a request, results into plain words."""

import sys
from contextlib import suppress
from itertools import zip_longest
from typing import Any

import click

from kitbuilder import __version__
from kitbuilder.cli.commands.cards import cards
from kitbuilder.cli.commands.check_print import check_print
from kitbuilder.cli.commands.choose import choose
from kitbuilder.cli.commands.design import design
from kitbuilder.cli.commands.kit import kit
from kitbuilder.cli.commands.marks import marks
from kitbuilder.cli.commands.page import page
from kitbuilder.cli.commands.plan import plan
from kitbuilder.cli.commands.show import show
from kitbuilder.cli.commands.sizes import sizes
from kitbuilder.cli.plain import fit_terminal, leave_terminal
from kitbuilder.cli.trace import last_line, written_trace
from kitbuilder.cli.usage import usage_said
from kitbuilder.cli.voice import spoken
from kitbuilder.design.saying import say
from kitbuilder.errors import RefusedError, Said, reason, status_of


class Commands(click.Group):
    """The commands; what is refused is said in one sentence, with exit status 2."""

    def main(self, *args: Any, **extra: Any) -> Any:  # noqa: ANN401  (as click declares it)
        """Run the command line and end the process with its status."""
        extra["standalone_mode"] = False
        fit_terminal()
        tongue = spoken([str(a) for a in extra.get("args") or (args and args[0]) or sys.argv[1:]])
        try:
            if sys.stdout is None:  # as Python has it where the shell closed it
                raise RefusedError("output.closed")
            status = super().main(*args, **extra, obj=tongue)
        except RefusedError as error:
            status = _refused(error.whole, tongue)
        except click.UsageError as error:
            status = _refused(usage_said(error), tongue)
        except OSError as error:  # such as a disk that is full behind standard output
            status = _refused(Said("output.unwritable", reason=reason(error)), tongue)
        except MemoryError:
            status = _refused(Said("output.no-memory"), tongue)
        except click.Abort as stopped:
            status = status_of(stopped.__cause__)
            _tell(Said("told.stopped"), tongue)
        except Exception as error:
            status = _unforeseen(error, tongue)
        leave_terminal()
        sys.exit(status if isinstance(status, int) else 0)

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Refuse an option that was given nothing, as by a shell's variable that is not set."""
        for option, value in zip_longest(args, args[1:], fillvalue="-"):
            if option.startswith("--") and (not value.strip() or option.endswith("=")):
                name = option.rstrip("=").removeprefix("--")[:40]
                raise RefusedError("option.nothing", option=name)
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


def _tell(said: Said, tongue: str) -> None:
    with suppress(OSError):  # the terminal may be gone, or the disk behind it full
        click.echo(say(said, tongue), err=True)


def _refused(said: Said, tongue: str) -> int:
    """Say why nothing was done and return the status for it."""
    _tell(said, tongue)
    return 2


def _unforeseen(error: Exception, tongue: str) -> int:
    """Say that there is a fault in the program, and where its trace was put; return the status."""
    what = type(error).__name__
    try:
        trace = written_trace(error)
    except OSError:
        _tell(Said("output.fault", what=what, line=last_line(error)), tongue)
    else:
        _tell(Said("output.fault-traced", what=what, path=trace), tongue)
    return 1


@click.group(cls=Commands)
@click.version_option(__version__, message="kitbuilder %(version)s")
def main() -> None:
    """Print base-ten pieces, mats and cards at true size, for column subtraction by hand."""


for command in (
    kit,
    cards,
    choose,
    plan,
    show,
    marks,
    page,
    sizes,
    design,
    check_print,
):
    main.add_command(command)
