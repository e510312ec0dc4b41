"""Turns a request into a finished kit: the whole pipeline, one room after the other."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import chain
from pathlib import Path

from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.drawings import draw_pages
from kitbuilder.kit.contents import contents
from kitbuilder.kit.records import Kit
from kitbuilder.kit.tonight import mini_contents
from kitbuilder.layout.assemble import LaidOut, lay_out
from kitbuilder.layout.estimate import Estimate, estimate
from kitbuilder.layout.mini.mini_sheets import mini_sheets
from kitbuilder.layout.pages.print_run import run_sheets
from kitbuilder.layout.pieces.making import Making
from kitbuilder.layout.units import UnitCost, unit_costs
from kitbuilder.output.files import Bound, apart, bind
from kitbuilder.output.folder import Written, write
from kitbuilder.output.record import pack_record, record
from kitbuilder.output.watch import Watch, unwatched
from kitbuilder.press.printing import Press
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request


@dataclass(frozen=True, slots=True)
class Built:
    """A finished kit: what it holds, how it is laid out, what it takes, and what was written.

    ``inked`` is the covered part of each page in per cent, where it was asked for.
    """

    kit: Kit
    laid: LaidOut
    takes: Estimate
    written: Written
    inked: tuple[float, ...] = ()


def build(request: Request, folder: Path, watch: Watch = unwatched) -> Built:
    """Build what ``request`` asks for and write it into ``folder``."""
    kit = held(request)
    laid = laid_out(kit, request)
    drawings: Iterable[Drawing] = draw_pages(laid.sheets, request.paper, request.press)
    if request.cutting.kits > 1:
        laid, drawings = _with_run(kit, laid, request)
    bound = bind(drawings, laid.sheets, request.name, request.press, request.collated, watch)
    takes = _takes(laid, bound.inks, request)
    each = apart(laid.sheets, request.paper, request.press, watch) if request.each else ()
    told = partial(_told, kit, laid, bound, takes, request)
    written = write(folder, chain(bound.files, each), (f"{request.name}.json", told))
    return Built(kit, laid, takes, written, bound.inked)


def held(request: Request) -> Kit:
    """Return what the kit that ``request`` asks for holds."""
    words = request.press.words
    if request.mini:
        return mini_contents(request.sums[0], request.mats, request.cards, words)
    return contents(
        request.sums,
        request.within,
        request.extra,
        request.mats,
        request.parts,
        first_wishes().sums[0],
        words,
        request.cards,
        request.pupils,
        request.plan,
    )


def laid_out(kit: Kit, request: Request) -> LaidOut:
    """Return ``kit`` on sheets, as ``request`` asks for it to be made."""
    press, paper, words = request.press, request.paper, request.press.words
    if request.mini:
        return mini_sheets(kit, paper, words, press.look)
    return lay_out(kit, request.cutting, paper, words, press.look, _making(press))


def _with_run(kit: Kit, laid: LaidOut, request: Request) -> tuple[LaidOut, list[Drawing]]:
    """Put a class set's print run in front, and return it with the drawings of all sheets.

    The run tells the ink of all other pages, whose numbers count on from its own.
    """
    press, paper, cutting = request.press, request.paper, request.cutting
    run, before, body = laid.sheets[:1], 0, list[Drawing]()
    while len(run) != before:
        before = len(run)
        body = list(draw_pages(laid.sheets, paper, press, before))
        takes = _takes(laid, [drawing.ink_mm2 for drawing in body], request)
        run = run_sheets(
            kit, laid.sheets, laid.cutting, cutting, takes, paper, press.words, press.look
        )
    drawings = [*draw_pages(run, paper, press), *body]
    return replace(laid, sheets=(*run, *laid.sheets)), drawings


def _takes(laid: LaidOut, inks: Sequence[float], request: Request) -> Estimate:
    layers = request.cutting.layers
    return estimate(laid.sheets, inks, laid.cutting, layers, request.estimate)


def _told(
    kit: Kit,
    laid: LaidOut,
    bound: Bound,
    takes: Estimate,
    request: Request,
    marks: Mapping[str, str],
) -> str:
    """Return the record of a kit; what pupils' packs hold goes into their PDFs alone."""
    paper, words = request.paper, request.press.words
    if request.pupils:
        return pack_record(words, marks)
    return record(kit, laid, paper, words, marks, bound.inks, takes, bound.inked)


def compare_units(request: Request) -> tuple[UnitCost, ...]:
    """Return what the kit that ``request`` asks for would take at units of 5 to 15 mm."""
    press = request.press
    return unit_costs(held(request), request.paper, press.words, press.look, _making(press))


def _making(press: Press) -> Making:
    return Making(press.sturdy, press.kerf_mm, press.slack_mm)
