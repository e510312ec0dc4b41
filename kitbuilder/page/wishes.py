"""What the screen asks for, as a request: every rule is the program's own."""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import partial
from itertools import islice
from typing import Any

from kitbuilder.design import load as designs
from kitbuilder.design.load import Paper
from kitbuilder.errors import RefusedError, Said
from kitbuilder.formats.textfile import parse_toml
from kitbuilder.frozen import frozen
from kitbuilder.kit.card_records import CardWishes, Pupil
from kitbuilder.kit.course.plan_words import plan_sums
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.packing.grid import OUTLINE, largest_unit
from kitbuilder.layout.printable import Page
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.course.schedule import Task
from kitbuilder.page.answers_shown import next_pupils, read_marks
from kitbuilder.page.read_back import kept, out_of, taken_out
from kitbuilder.page.readings import Typed, Wished, number, point_of, rows, whole_number, words_name
from kitbuilder.page.refusal import RefusedRowsError
from kitbuilder.page.table.pasted import MOST_TOLD, read_pupils
from kitbuilder.press.printer import Printer
from kitbuilder.press.printing import (
    MOST_KERF,
    Press,
    Printing,
    fitted_paper,
    paper_name,
    press_for,
)
from kitbuilder.request.file import first_wishes
from kitbuilder.request.pupils import of_kind
from kitbuilder.request.request import (
    DEFAULT_PARTS,
    MOST_PIECES,
    Request,
    card_wish,
    cut_wish,
    mat_wish,
    read_parts,
    read_sum,
)
from kitbuilder.request.weeks import not_asked, plan_wish, tasks_of

CHOICES = {"none": 2, "ones": 2, "tens": 3, "both": 3, "across-zero": 3}
"""The kinds of sums that may be chosen, each with the places of its wholes."""

MOST_CHOSEN = 40
"""Sums that are chosen at once on the screen."""


@frozen
class AskedFor:
    """What was asked for: the request, and whether its sums are the ready-made kit's.

    Where packs of whole numbers and of decimals stand apart, ``apart`` says which these are.
    ``notes`` tell what was passed over. ``pupils`` are all that stand in a table of packs, ``out``
    the names taken out of it.
    """

    request: Request
    ready_made: bool = False
    apart: str = ""
    notes: Sequence[Said] = ()
    pupils: Sequence[Pupil] = ()
    out: Sequence[str] = ()


def printer_of(wishes: Wished) -> Printer | None:
    """Return the printer whose profile the wishes hold, if they do."""
    text = str(wishes.get("printer") or "")
    if not text:
        return None
    return designs.built(Printer, parse_toml(text, "printer.toml"), "printer.toml")


def cutter(more: Mapping[str, Any]) -> str:
    """Return the files for a cutter and its kerf, as the command line has them."""
    kerf = number(more.get("kerf"), "kerf")
    if kerf and not 0 <= kerf <= MOST_KERF:
        raise RefusedError("option.range", option="kerf", given=kerf, least=0, most=MOST_KERF)
    return ",".join(
        (*(kind for kind in ("svg", "dxf") if more.get(kind)), *([f"{kerf:g}"] if kerf else ()))
    )


_SIDES = re.compile(r"\d+([.,]\d+)?\s*[x×]\s*\d+([.,]\d+)?", re.ASCII)
"""Width and height without their measure."""


def paper_wish(wishes: Wished) -> str | None:
    """Return the paper wished for: a name or a size; the screen has no place for a path."""
    typed = str(wishes.get("paper") or "").strip()
    if _SIDES.fullmatch(typed):
        size = "".join(typed.split()).replace(",", ".")
        repair = Said("repair.paper", paper=f"{size}mm")
        raise RefusedError("screen.paper-size", field="paper", given=typed, repair=repair)
    if typed.lower().endswith(".toml"):
        known = designs.names("paper")
        raise RefusedError("paper.unknown", field="paper", given=typed, known=known)
    return typed or None


def printing(wishes: Wished) -> Printing:
    """Return how the pages are wished for, the printer left aside."""
    more = wishes.get("more", {})
    return {
        "paper": paper_wish(wishes),
        "margin": number(more.get("margin"), "margin"),
        "unit": number(more.get("unit"), "unit"),
        "look": more.get("look") or None,
        "words": words_name(wishes),
        "sturdy": more.get("sturdy") or None,
        "cutter": cutter(more),
    }


def asked(wishes: Wished) -> AskedFor:
    """Return the request for one of the jobs that print a kit.

    Raises ``RefusedRowsError`` with everything that cannot be met.
    """
    typed = Typed()
    job = wishes["job"]
    nothing: Printing = {}
    how = typed.read("more", lambda: printing(wishes), nothing)
    own = typed.read("printer", lambda: printer_of(wishes), None)
    paper = typed.read(
        "paper",
        lambda: _paper(how, own, wishes),
        designs.paper("a4"),
    )
    press = typed.read("more", lambda: replace(press_for(how), printer=own), Press())
    usual = Request((), paper, press=press)
    make = JOBS.get(job, _kit)
    request, ready_made = make(usual, wishes, typed)
    typed.done()
    out = taken_out(typed.pupils, out_of(wishes))
    return AskedFor(request, ready_made, typed.apart, typed.notes, kept(typed.pupils, out), out)


def _paper(how: Printing, own: Printer | None, wishes: Wished) -> Paper:
    """Return the paper; a unit or margin out of range is refused by its field's own name."""
    try:
        return fitted_paper(paper_name(how), how.get("margin"), how.get("unit"), own)
    except RefusedError as error:
        if error.code != "value.range" or error.field not in ("unit", "margin"):
            raise
        given, least, most = (error.slots[name] for name in ("given", "least", "most"))
        if error.field == "unit":
            page = Page.upright(fitted_paper(paper_name(how)))
            sums = () if wishes.get("plan") else rows(wishes)
            few = any(sums) and all(len(whole) < 3 for _, whole, _ in sums)
            most = largest_unit(page, OUTLINE["tens" if few else "hundreds"])
        raise RefusedError(
            "option.range", option=error.field, given=given, least=least, most=most
        ) from None


def about_children(wishes: Wished) -> bool:
    """Say whether pages about the children are wished for, and not their next packs."""
    return wishes.get("print") == "pages"


def checked_sum(whole: str, part: str, point: str) -> Sum:
    """Return one sum of a kit, refused by the same rules as the whole kit."""
    sum_ = read_sum(f"{whole} - {part}", point)
    Request((sum_,), designs.paper("a4"))
    return sum_


def chosen(wishes: Wished) -> tuple[Sum, ...]:
    """Return the sums chosen by the program: so many of one kind, others for another seed."""
    from kitbuilder.number.choice.pick import TooFewError, choose
    from kitbuilder.number.choice.pool import Wish

    wish = wishes["choose"]
    kind, count = str(wish.get("kind")), whole_number(wish.get("count"), "count")
    seed = whole_number(wish.get("seed"), "seed") or 0
    if kind not in CHOICES:
        raise RefusedError("option.choice", option="kind", given=kind, known=tuple(CHOICES))
    if count is None:
        raise RefusedError("screen.empty", option="count")
    if not 1 <= count <= MOST_CHOSEN:
        raise RefusedError("option.range", option="count", given=count, least=1, most=MOST_CHOSEN)
    try:
        return choose(Wish(CHOICES[kind], (kind,)), count, abs(seed))
    except TooFewError as error:
        raise RefusedError(
            "choose.too-few", option="count", given=count, count=error.available
        ) from None


def sums_of(wishes: Wished, typed: Typed) -> tuple[tuple[Sum, ...], bool]:
    """Return the sums typed or chosen, and whether the ready-made ones stand in for none."""
    if wishes.get("choose"):
        return typed.read("choose", lambda: chosen(wishes), ()), False
    point = point_of(wishes)
    read: list[Sum | None] = [
        typed.read("sums", partial(checked_sum, whole, part, point), None, row)
        for row, whole, part in rows(wishes)
    ]
    sums = tuple(sum_ for sum_ in read if sum_ is not None)
    return (sums, False) if read else (first_wishes().sums, True)


def _kit(usual: Request, wishes: Wished, typed: Typed) -> tuple[Request, bool]:
    sums, ready_made = sums_of(wishes, typed)
    return _with_more(usual, sums, wishes, typed), ready_made


def _weeks(usual: Request, wishes: Wished, typed: Typed) -> tuple[Request, bool]:
    sums, ready_made = sums_of(wishes, typed)
    tasks = _tasks(wishes, typed, () if ready_made else sums)
    request = _with_more(usual, plan_sums(tasks), wishes, typed)
    return replace(request, plan=tasks), False


def _tasks(wishes: Wished, typed: Typed, sums: tuple[Sum, ...] = ()) -> tuple[Task, ...]:
    """Return what is practised in the weeks wished for, opened by ``sums``."""
    asked_for = wishes.get("plan", {})

    def count(name: str) -> int:
        value = whole_number(asked_for.get(name), name)
        if value is None:
            raise RefusedError("screen.empty", option=name)
        return value

    weeks, days = (typed.read(name, partial(count, name), 1) for name in ("weeks", "days"))
    start = str(asked_for.get("start") or "") or None
    try:
        wishing = partial(plan_wish, weeks=weeks, days=days, start=start)
        tasks = tasks_of(wishing(sums), sums)
    except RefusedError as error:
        typed.refusals.append(_in_row(error, wishes).at(field="start"))
        return ()
    left = [*not_asked(wishing, sums, tasks)]
    if wishes.get("choose") and left:
        left = [_fewer_chosen(left, len(sums))]
    typed.refusals += [_in_row(error, wishes) for error in left]
    return tasks


def _fewer_chosen(left: Sequence[RefusedError], count: int) -> RefusedError:
    """Return the refusal of ``count`` chosen sums, some ``left`` out: no row holds one of them."""
    if left[0].code == "plan.no-exchange":
        return RefusedError("screen.weeks-plain", field="kind")
    return RefusedError("screen.weeks-fewer", field="count", held=count - len(left), count=count)


def opening(sums: tuple[Sum, ...]) -> tuple[Sum, ...]:
    """Return those of ``sums`` that open weeks: none where they are the ready-made kit's."""
    return () if sums == first_wishes().sums else sums


_TOO_LONG = ("sum.five-places", "sum.no-thousand")
"""Refusals of numbers that are too long: a kit for tonight has one limit of its own."""


def _tonight(usual: Request, wishes: Wished, typed: Typed) -> tuple[Request, bool]:
    sums, ready_made = sums_of(wishes, typed)
    made = typed.read("sums", lambda: replace(usual, sums=sums[:1], mini=bool(sums)), usual)
    small = RefusedError("screen.tonight-thousandths", field="sums", row=1)
    own = {
        **dict.fromkeys(_TOO_LONG, RefusedError("screen.tonight", field="sums", row=1)),
        "decimals.thousandths": small,
        "sum.thousandths": RefusedError("screen.tonight-marks", field="sums", row=1),
    }
    typed.refusals = [own.get(error.code, error) for error in typed.refusals]
    return made, ready_made


def _class(usual: Request, wishes: Wished, typed: Typed) -> tuple[Request, bool]:
    of_class = wishes.get("class", {})
    spares = typed.read(
        "spares", lambda: number(wishes.get("more", {}).get("spares"), "spares"), None
    )

    def cutting() -> CutWish:
        children = whole_number(of_class.get("children"), "children")
        share = whole_number(of_class.get("share"), "share")
        layers = whole_number(of_class.get("layers"), "layers")
        if children is None:
            raise RefusedError("screen.no-children")
        layers = 1 if layers is None else layers
        home = bool(of_class.get("home"))
        return cut_wish(children, share, layers=layers, spares=spares or 0.0, home=home)

    request, ready_made = _kit(usual, wishes, typed)
    if wishes.get("plan"):
        request = _with_weeks(request, wishes, typed)
    return replace(request, cutting=typed.read("children", cutting, CutWish())), ready_made


def _with_weeks(request: Request, wishes: Wished, typed: Typed) -> Request:
    """Return ``request`` with weeks that its sums open; they are printed whatever else is."""
    tasks = _tasks(wishes, typed, opening(request.sums))
    parts = request.parts
    if parts != DEFAULT_PARTS:
        parts = read_parts((*parts, "week"))

    def made() -> Request:
        return replace(request, sums=plan_sums(tasks) or request.sums, plan=tasks, parts=parts)

    return typed.read("sums", made, request)


def _packs(usual: Request, wishes: Wished, typed: Typed) -> tuple[Request, bool]:
    text = str(wishes.get("pupils") or "")
    stage = typed.read("stage", lambda: _cards("tasks", wishes).stage, usual.cards.stage)
    point = point_of(wishes)

    def found() -> tuple[Pupil, ...]:
        typed.pupils = read_pupils(text, stage, point, typed.notes)
        return kept(typed.pupils, out_of(wishes))

    return _packed(usual, wishes, typed, "pupils", found)


def _wrong(usual: Request, wishes: Wished, typed: Typed) -> tuple[Request, bool]:
    text, words = str(wishes.get("answers") or ""), usual.press.words

    def found() -> tuple[Pupil, ...]:
        marks = read_marks(text, words.language, out_of(wishes))
        return () if about_children(wishes) else next_pupils(marks, words)

    return _packed(usual, wishes, typed, "answers", found)


def _packed(
    usual: Request,
    wishes: Wished,
    typed: Typed,
    name: str,
    read: Callable[[], tuple[Pupil, ...]],
) -> tuple[Request, bool]:
    """Return the request for packs of the pupils that ``read`` finds in the field ``name``."""
    found: tuple[Pupil, ...] = ()
    try:
        found = read()
    except RefusedRowsError as rows_:
        typed.refusals += rows_.refusals
        found = rows_.others
    except RefusedError as error:
        typed.refusals.append(error.at(field=name))
    cards = typed.read(
        "more",
        lambda: _cards("tasks", wishes),
        usual.cards,
    )
    each = bool(wishes.get("each"))

    def made(pupils: tuple[Pupil, ...]) -> Request:
        try:
            return replace(
                usual, parts=("cards",), cards=cards, pupils=pupils, name="cards", each=each
            )
        except RefusedError as error:
            error.field = name  # the sums stand in the table
            raise

    request = typed.read(name, lambda: _apart(found, made, wishes, typed), usual)
    if typed.refusals and typed.refusals[-1].code == "decimals.too-large":  # and perhaps others
        typed.refusals[-1:] = islice(_too_large(found, made), MOST_TOLD)
    return request, False


_MIXED = ("decimals.pupils", "decimals.beside-thousandths")


def _apart(
    found: tuple[Pupil, ...],
    made: Callable[[tuple[Pupil, ...]], Request],
    wishes: Wished,
    typed: Typed,
) -> Request:
    """Return the packs of all; those of one kind where whole numbers are too large for decimals.

    Then ``typed`` is told of which, and the others must do, too.
    """
    whole, parts = of_kind(found, decimals=False), of_kind(found, decimals=True)
    try:
        return made(found)
    except RefusedError as error:
        if error.code not in _MIXED or not whole:
            raise
    packs = {"whole": made(whole), "decimals": made(parts)}
    typed.apart = "decimals" if wishes.get("kind") == "decimals" else "whole"
    return packs[typed.apart]


def _too_large(
    found: tuple[Pupil, ...], made: Callable[[tuple[Pupil, ...]], Request]
) -> Iterator[RefusedError]:
    """Yield the refusal of each sum of decimals that no pieces show."""
    for pupil in found:
        for task in pupil.tasks:
            if not task.sum.with_pieces:
                try:
                    made((replace(pupil, tasks=(task,)),))
                except RefusedError as error:
                    yield error


def _lost(usual: Request, wishes: Wished, typed: Typed) -> tuple[Request, bool]:
    held = wishes.get("pieces", {})

    def count(name: str) -> int:
        value = whole_number(held.get(name), name) or 0
        if not 0 <= value <= MOST_PIECES:
            raise RefusedError("option.range", option=name, given=value, least=0, most=MOST_PIECES)
        return value

    counts = [typed.read(name, partial(count, name), 0) for name in ("ones", "tens", "hundreds")]
    if not any(counts) and not typed.refusals:
        typed.refusals.append(RefusedError("pieces.none", field="pieces"))
    return replace(usual, extra=Pieces(*counts), parts=("pieces",)), False


def _cards(kinds: str | None, wishes: Wished) -> CardWishes:
    more, usual = wishes.get("more", {}), CardWishes()
    stage, backs = more.get("stage") or usual.stage, more.get("backs") or usual.backs
    return card_wish(kinds, stage, backs)


def _with_more(request: Request, sums: tuple[Sum, ...], wishes: Wished, typed: Typed) -> Request:
    """Return ``request`` with ``sums`` and further wishes: what to print, mats, cards."""
    more = wishes.get("more", {})
    parts = typed.read(
        "only", lambda: read_parts(more["only"]) if "only" in more else DEFAULT_PARTS, DEFAULT_PARTS
    )
    mats = typed.read(
        "mat",
        lambda: mat_wish(more.get("mat") or "two"),
        request.mats,
    )
    cards = typed.read(
        "stage",
        lambda: _cards(None, wishes),
        request.cards,
    )
    within = typed.read("within", lambda: whole_number(more.get("within"), "within"), None)

    def made(sums: tuple[Sum, ...]) -> Request:
        return replace(request, sums=sums, parts=parts, mats=mats, cards=cards, within=within)

    try:
        return made(sums)
    except RefusedError as error:
        error.field = error.field or "sums"
        refused = error
    alone = refused.code == "decimals.alone" and [*_alone(made, [*_read(wishes)])]
    typed.refusals += alone or [_in_row(refused, wishes)]
    return request


def _in_row(refused: RefusedError, wishes: Wished) -> RefusedError:
    """Return ``refused`` with the row of the sum that it names."""
    sum_ = str(refused.slots.get("sum"))
    refused.row = next((row for row, one in _read(wishes) if str(one) == sum_), None)
    return refused


def _read(wishes: Wished) -> Iterator[tuple[int, Sum]]:
    """Yield the rows of sums that can be read."""
    point = point_of(wishes)
    for row, whole, part in rows(wishes):
        with suppress(RefusedError):
            yield row, read_sum(f"{whole} - {part}", point)


def _alone(
    made: Callable[[tuple[Sum, ...]], Request], read: Sequence[tuple[int, Sum]]
) -> Iterator[RefusedError]:
    """Yield the refusal of each row that does not go with one that has decimals."""
    decimals = [sum_ for _, sum_ in read if sum_.scale.decimals]
    for row, sum_ in read:
        try:
            made((*decimals[:1], sum_))
        except RefusedError as error:
            if error.code == "decimals.alone":
                error.row = row
                yield error


JOBS = {
    "tonight": _tonight,
    "weeks": _weeks,
    "class": _class,
    "packs": _packs,
    "wrong": _wrong,
    "lost": _lost,
}
"""What makes the request of each job but the plain kit."""
