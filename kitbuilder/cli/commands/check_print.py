"""``kitbuilder check-print``: a check sheet, or a saved printer."""

from pathlib import Path

import click
from click.core import ParameterSource

from kitbuilder.cli.options import MM, new_file, printed, printing_options
from kitbuilder.cli.voice import tell
from kitbuilder.errors import RefusedError, Said
from kitbuilder.press.printing import Printing, fitted, paper_name


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
    from kitbuilder.output.calibration import measured_printer, save_printer

    if save_as is None:
        if any(m is not None for m in (measured_across, measured_down, crop, back_shift)):
            raise RefusedError("printer.save-as", option="save-as")
        _write(printing, out)
        return
    if printing["printer"] is not None:
        raise RefusedError("printer.corrected-already", option="printer")
    if measured_across is None or measured_down is None:
        raise RefusedError("printer.both-bars", option="measured-across", other="measured-down")
    source = click.get_current_context().get_parameter_source
    for name in ("out", "look"):
        if source(name) is not ParameterSource.DEFAULT:
            raise RefusedError("printer.no-sheet", option="save-as", other=name)
    bars = measured_across, measured_down
    printer = measured_printer(save_as, fitted(printing), bars, crop, back_shift)
    saved = save_printer(printer)
    tell(
        Said("told.printer-replaced", path=saved.path)
        if saved.replaced
        else Said("told.printer-saved", path=saved.path)
    )
    across, down = (share * 100 for share in (printer.across, printer.down))
    tell(Said("told.printer", across=across, down=down, option="printer", name=printer.name))


def _write(printing: Printing, out: Path) -> None:
    from kitbuilder.output.calibration import write_check_sheet

    new_file(out, "out")
    write_check_sheet(*printed(printing), out)
    tell(Said("told.check-sheet", path=out, paper=paper_name(printing)))
    if printing["printer"] is not None:
        tell(Said("told.check-corrected", printer=printing["printer"], option="printer"))
