"""Turns the words after ``kitbuilder check-print`` into a check sheet or a saved printer."""

from pathlib import Path

import click
from click.core import ParameterSource

from kitbuilder.cli.options import MM, new_file, printing_options
from kitbuilder.cli.plain import plain
from kitbuilder.errors import RefusedError
from kitbuilder.press.printing import Printing


@click.command("check-print")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    default="check.pdf",
    show_default=True,
    help="PDF to write.",
)
@click.option("--measured-across", type=MM, metavar="MM", help="Printed length of the bar across.")
@click.option("--measured-down", type=MM, metavar="MM", help="Printed length of the bar down.")
@click.option(
    "--crop",
    type=MM,
    nargs=4,
    metavar="TOP RIGHT BOTTOM LEFT",
    help="Smallest number printed at each side.",
)
@click.option(
    "--back-shift", type=MM, nargs=2, metavar="RIGHT DOWN", help="Where the back's cross lies."
)
@click.option("--save-as", metavar="NAME", help="Save the measured printer under this name.")
@printing_options("paper", "printer", "look", "words")
def check_print(
    out: Path,
    measured_across: float | None,
    measured_down: float | None,
    crop: tuple[float, float, float, float] | None,
    back_shift: tuple[float, float] | None,
    save_as: str | None,
    printing: Printing,
) -> None:
    """Print a sheet that measures a printer, or save what was measured on it.

    Without measurements it writes the sheet. With them it saves the printer; any command that
    prints then takes --printer NAME and comes out true.
    """
    from kitbuilder.press.calibration import save_printer, write_check_sheet

    if save_as is None:
        if any(m is not None for m in (measured_across, measured_down, crop, back_shift)):
            raise RefusedError("To keep what was measured, add --save-as NAME, such as kitchen.")
        new_file(out, "--out")
        write_check_sheet(printing.paper_name, printing.fitted(), printing.press(), out)
        click.echo(f"Wrote {plain(str(out))}. Print it at actual size, both pages on one sheet.")
        if printing.printer is not None:
            click.echo(
                f"It is corrected for {plain(printing.printer)}, so it shows what the "
                "correction leaves; to measure the printer, print one without --printer."
            )
        return
    if printing.printer is not None:
        raise RefusedError(
            "A sheet printed with --printer is corrected already; measure one printed without it."
        )
    if measured_across is None or measured_down is None:
        raise RefusedError(
            "To save a printer, give both bars: --measured-across MM --measured-down MM."
        )
    source = click.get_current_context().get_parameter_source
    for name in ("out", "look", "words"):
        if source(name) is not ParameterSource.DEFAULT:
            raise RefusedError(
                f"--save-as saves a printer and prints no sheet; leave out --{name}."
            )
    saved = save_printer(
        save_as, printing.fitted(), (measured_across, measured_down), crop, back_shift
    )
    click.echo(
        f"{'Replaced' if saved.replaced else 'Saved'} {plain(str(saved.path))}: it prints "
        f"{saved.printer.across:.1%} across and {saved.printer.down:.1%} down. "
        f"Print with --printer {saved.printer.name}."
    )
