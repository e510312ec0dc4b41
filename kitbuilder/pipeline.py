"""The whole pipeline: a request into a finished kit, one room after the other.

What few requests need is imported where it is asked for: that is a third of a kit's time.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from kitbuilder.design.load import Paper
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.kit_contents import KitWish, contents
from kitbuilder.kit.records import Kit
from kitbuilder.layout.assemble import LaidOut, lay_out
from kitbuilder.layout.cards.exchange_cards import exchange_sheets
from kitbuilder.layout.estimate import Estimate, estimate
from kitbuilder.layout.mat.join_notes import with_joins
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.pieces.making import Making
from kitbuilder.layout.pieces.piece_sheets import check_unit
from kitbuilder.layout.pieces.thousand_unit import for_thousands
from kitbuilder.layout.small_paper import on_small_paper
from kitbuilder.number import Sum
from kitbuilder.number.course.schedule import THOUSANDS_LESSONS
from kitbuilder.output.answer_table import ANSWERS_NAME, answer_table
from kitbuilder.output.files import Bound, File, Piling, apart, bind
from kitbuilder.output.most_at_once import Work, check_work
from kitbuilder.output.record import pack_record, record
from kitbuilder.output.store.earlier import earlier
from kitbuilder.output.store.folder import Written, in_folder, write
from kitbuilder.output.watch import Watch, unwatched
from kitbuilder.press.printing import Press
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request

if TYPE_CHECKING:
    from kitbuilder.kit.class_marks import ClassMarks
    from kitbuilder.layout.unit_costs import UnitCost

LARGE = 20.0
"""From this unit on, in mm, an exchange card is left out where it does not fit the paper."""

THOUSAND = 1000
"""The least number of four places."""

EXCHANGE = ("exchange",)

HELD = 100
"""Pages of a class set whose drawings are held from the print run until they are written."""


@frozen
class Built:
    """A finished kit: what it holds, how it is laid out, what it takes, and what was written.

    ``inked`` is the covered part of each page in per cent, where it was asked for.
    """

    kit: Kit
    laid: LaidOut
    takes: Estimate
    written: Written
    inked: tuple[float, ...] = ()


@frozen
class Prepared:
    """A request that was laid out and not yet drawn.

    ``takes`` leaves the ink out, where nothing is drawn yet. ``drawings`` are there where a print
    run had to know the ink of all pages.
    """

    request: Request
    kit: Kit
    laid: LaidOut
    takes: Estimate
    drawings: tuple[Drawing, ...] = ()

    @property
    def paper(self) -> Paper:
        """The paper with the unit that everything is laid out at."""
        return paper_of(self.request)


@frozen
class Made:
    """The files of a kit, yielded as they are made: to be taken once, in order.

    What else there is can be asked for when all files are taken.
    """

    prepared: Prepared
    bound: Bound
    files: Iterable[File]

    @property
    def record(self) -> str:
        """The name of the kit's record."""
        return f"{self.prepared.request.name}.json"

    @property
    def takes(self) -> Estimate:
        """What printing and cutting everything takes."""
        return _takes(self.prepared.laid, self.bound.inks, self.prepared.request)

    def told(self, marks: Mapping[str, str]) -> str:
        """Return the kit's record; ``marks`` are the SHA-256 of each file by name.

        What pupils' packs hold goes into their PDFs alone.
        """
        kit, laid, request = self.prepared.kit, self.prepared.laid, self.prepared.request
        if request.pupils:
            return pack_record(request.press.words, marks)
        style = request.press.style(self.prepared.paper)
        return record(kit, laid, style, marks, self.bound, self.takes)


def build(request: Request, folder: Path, watch: Watch = unwatched) -> Built:
    """Build what ``request`` asks for and write it into ``folder``.

    A table of answers that was filled in there is kept.
    """
    prepared = prepare(request)
    made = make(prepared, watch)
    with in_folder(folder):
        filled_in = earlier(folder, made.record).changed(ANSWERS_NAME)
    files = (file for file in made.files if not (filled_in and file[0] == ANSWERS_NAME))
    private = bool(request.pupils)
    written = write(folder, files, (made.record, made.told), private=private)
    inked = tuple(made.bound.inked)
    return Built(prepared.kit, prepared.laid, made.takes, written, inked)


def prepare(request: Request) -> Prepared:
    """Return what ``request`` asks for, laid out: all that is known before it is drawn."""
    kit = held(request)
    with on_small_paper("kit", request.press.style(paper_of(request))):
        laid, drawings = laid_out(kit, request), list[Drawing]()
    if all(sheet.kind is SheetKind.COVER for sheet in laid.sheets):
        raise RefusedError("kit.empty", option="only", field="sums")
    press = request.press
    work = Work(press.svg, press.dxf, press.dpi, press.ink, request.each, bool(request.piles))
    check_work(laid.sheets, work)
    inks = [0.0] * len(laid.sheets)
    if request.cutting.kits > 1:
        laid, inks, drawings = _with_run(kit, laid, request)
    return Prepared(request, kit, laid, _takes(laid, inks, request), tuple(drawings))


def make(prepared: Prepared, watch: Watch = unwatched) -> Made:
    """Draw what was prepared and return its files; nothing is written."""
    request, sheets = prepared.request, prepared.laid.sheets
    drawings: Iterable[Drawing] = prepared.drawings
    drawings = drawings or draw_pages(sheets, prepared.paper, request.press)
    piled = Piling(request.piles, request.cutting.kits) if request.piles else None
    bound = bind(drawings, sheets, request.name, request.press, piled, watch)
    each = apart(_own(prepared, watch), prepared.paper, request.press) if request.each else ()
    empty = answer_table(prepared.kit.packs)
    table = ((ANSWERS_NAME, empty.encode()),) if empty else ()
    return Made(prepared, bound, chain(bound.files, each, table))


def _own(prepared: Prepared, watch: Watch) -> Iterable[tuple[str, tuple[Sheet, ...]]]:
    """Return each pupil's name and own sheets, laid out as they are drawn."""
    from kitbuilder.layout.pages.own_sheets import own_sheets

    request, kit = prepared.request, prepared.kit
    style = request.press.style(prepared.paper)
    own = own_sheets(kit, prepared.laid.sheets, style, request.cutting)
    return watch(own, len(kit.packs), "packs")


def paper_of(request: Request) -> Paper:
    """Return the paper, where nobody asked for a unit with one at which thousands fit it."""
    if request.has_thousands and not request.press.unit_asked:
        return for_thousands(request.paper)
    return request.paper


def held(request: Request) -> Kit:
    """Return what the kit that ``request`` asks for holds."""
    words = request.press.words
    if request.mini:
        from kitbuilder.kit.tonight import mini_contents

        return mini_contents(request.sums[0], request.mats, request.cards, words)
    wish = KitWish(
        sums=request.sums,
        parts=request.printed,
        examples=_examples(request),
        limit=request.within,
        extra=request.extra,
        mats=request.mats,
        cards=request.cards,
        pupils=request.pupils,
        plan=request.plan,
        kits=request.cutting.kits,
        home=request.cutting.home,
    )
    kit = contents(wish, words)
    if _too_large(kit, request):
        others = tuple(kind for kind in request.cards.kinds if kind != "exchange")
        kit = contents(replace(wish, cards=replace(request.cards, kinds=others)), words)
    return replace(kit, metre=request.metre)


def _examples(request: Request) -> tuple[Sum, ...]:
    """Return the sums taught where none was given: the ready-made ones below the wished limit.

    Where thousands were wished for, it is one with thousands.
    """
    limit = request.within or 0
    if limit > THOUSAND:
        return (next(sum_ for sum_ in THOUSANDS_LESSONS if sum_.whole < limit),)
    first, *others = first_wishes().sums
    return (first, *(sum_ for sum_ in others if sum_.whole < limit))


def _too_large(kit: Kit, request: Request) -> bool:
    """Say whether pieces as large as a demonstration's have no room on an exchange card."""
    paper = paper_of(request)
    if not kit.exchange_cards or paper.unit_mm < LARGE or request.cards.kinds == EXCHANGE:
        return False
    try:
        check_unit(kit.pieces, paper)
    except RefusedError:  # the cards name a smaller unit, which does for pieces too
        return False
    try:
        exchange_sheets(kit.exchange_cards, request.press.style(paper))
    except RefusedError:
        return True
    return False


def laid_out(kit: Kit, request: Request) -> LaidOut:
    """Return ``kit`` on sheets, as ``request`` asks for it to be made."""
    press, style = request.press, request.press.style(paper_of(request))
    if request.mini:
        from kitbuilder.layout.mini.mini_sheets import mini_sheets

        return mini_sheets(kit, style)
    cutting = replace(request.cutting, piled=request.piles is not None)
    laid = lay_out(kit, cutting, style, _making(press))
    # a class set's pages are counted from its print run, which is made of them
    return laid if cutting.kits > 1 else replace(laid, sheets=with_joins(laid.sheets, style))


def _with_run(
    kit: Kit, laid: LaidOut, request: Request
) -> tuple[LaidOut, list[float], list[Drawing]]:
    """Put a class set's print run in front, and return it with the ink and drawings of all sheets.

    The run tells the ink of all other pages where it is asked for; their numbers count on from its
    own. Many drawings are not held, but made again when they are written.
    """
    from kitbuilder.layout.pages.print_run import run_sheets

    press, paper, cutting = request.press, paper_of(request), request.cutting
    style = press.style(paper)

    def printed(inks: Sequence[float]) -> tuple[Sheet, ...]:
        takes = _takes(laid, inks, request)
        if not press.ink:
            takes = replace(takes, ink_mm2=0.0, ink_per_cent=0.0)
        with on_small_paper(SheetKind.PRINT_RUN, style):
            return run_sheets(kit, laid.sheets, laid.cutting, cutting, takes, style)

    inks = [0.0] * len(laid.sheets)
    run, before, body = printed(inks), 0, list[Drawing]()
    while len(run) != before:
        before, body, inks = len(run), [], []
        for drawing in draw_pages(with_joins(laid.sheets, style, before), paper, press, before):
            inks.append(drawing.ink_mm2)
            body += [drawing] if len(laid.sheets) <= HELD else []
        if press.ink:
            run = printed(inks)
    front = list(draw_pages(run, paper, press))
    drawings = [*front, *body] if body else []
    inks = [*(drawing.ink_mm2 for drawing in front), *inks]
    joined = with_joins(laid.sheets, style, len(run))
    return replace(laid, sheets=(*run, *joined)), inks, drawings


def _takes(laid: LaidOut, inks: Sequence[float], request: Request) -> Estimate:
    layers = request.cutting.layers
    return estimate(laid.sheets, inks, layers, request.estimate)


def compare_units(request: Request) -> "tuple[UnitCost, ...]":
    """Return what the kit that ``request`` asks for would take at units of 5 to 15 mm."""
    from kitbuilder.layout.unit_costs import unit_costs

    press = request.press
    return unit_costs(held(request), press.style(request.paper), _making(press))


def _making(press: Press) -> Making:
    file = "svg" if press.svg else "dxf" if press.dxf else ""
    return Making(press.sturdy, press.kerf_mm, press.slack_mm, file)


def mark(
    marks: "ClassMarks", paper: Paper, press: Press, folder: Path, watch: Watch = unwatched
) -> Written:
    """Write the pages of a class's answers and their record into ``folder``."""
    from kitbuilder.layout.pages.marks_pages import marks_sheets
    from kitbuilder.output.marks_record import marks_record

    sheets = marks_sheets(marks, press.style(paper))
    drawings = draw_pages(sheets, paper, press)
    bound = bind(drawings, sheets, "marks", press, None, watch)

    def told(files: Mapping[str, str]) -> str:
        return marks_record(marks, files)

    return write(folder, bound.files, ("marks.json", told), private=True)
