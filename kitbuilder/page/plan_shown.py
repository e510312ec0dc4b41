"""What a kit takes and where its pages lie, as the screen shows it before anything is drawn."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from kitbuilder.design import load as designs
from kitbuilder.kit import phrases
from kitbuilder.kit.bank import Bank
from kitbuilder.kit.card_packs import built
from kitbuilder.kit.mat_needs import fullest
from kitbuilder.layout.estimate import printed_now
from kitbuilder.layout.glue import glue
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.pieces.thousand_unit import small_for_thousands
from kitbuilder.number import Sum
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.stock import stock
from kitbuilder.pipeline import Prepared

EACH_SHOWN = 24
"""Pages up to which each has a picture of its own; of longer kits runs of like pages have one."""


MOST_SHOWN = 24
"""Sums that stand on the screen side by side; of more, the few that need the most."""


def kit_plan(prepared: Prepared, language: str) -> dict[str, Any]:
    """Return the plan of a kit: counts, what is needed, and its pages in groups.

    Counts are those of the cover, which leaves out what is printed only ``later``; those of a
    class set are those of its print run, which leaves out nothing.
    """
    request, laid, takes = prepared.request, prepared.laid, prepared.takes
    pupils, later = request.pupils, dict.fromkeys(("card", "paper"), 0)
    if request.cutting.kits == 1:
        takes = printed_now(laid.sheets, request.cutting.layers)
        for sheet in laid.sheets:
            later[sheet.stock] += sheet.copies if sheet.later and sheet.flip is None else 0
    return {
        "kits": request.cutting.kits,
        "card": takes.card,
        "paper": takes.paper,
        "minutes": takes.whole_minutes,
        "later": later,
        "ten_mm": 10 * prepared.paper.unit_mm,
        "thousand": bool(prepared.kit.pieces.thousands) and small_for_thousands(prepared.paper),
        "thousand_of": _only_large(prepared.kit.sums),
        "needs": list(_needs(prepared)),
        **pages_plan(laid.sheets, listed=request.cutting.kits == 1),
        "builds": _builds(prepared, language),
        "dates": list(_dates(prepared)),
        "returns": any(task.phase == "return" for task in request.plan),
        "pupils": len(pupils),
        "tasks": sum(len(pupil.tasks) for pupil in pupils),
        "plain": sum(not pattern(task.sum).receives for pupil in pupils for task in pupil.tasks),
    }


def _only_large(sums: Sequence[Sum]) -> str:
    """Return the one of several ``sums`` that alone has a thousand; else nothing."""
    large = [sum_ for sum_ in sums if sum_.whole >= 1000]
    return str(large[0]) if len(large) == 1 < len(sums) else ""


def _dates(prepared: Prepared) -> Iterator[str]:
    """Yield the dates of the first week of practice, where it begins on one."""
    tasks = prepared.request.plan
    yield from dict.fromkeys(t.when.isoformat() for t in tasks if t.week == 1 and t.when)


def _builds(prepared: Prepared, language: str) -> dict[str, Any] | None:
    """Return what is built with the cards for pupils; some may be only written, as they would
    bring thousands."""
    pupils = prepared.request.pupils
    tasks = [task for pupil in pupils for task in pupil.tasks]
    sums = built(tasks)
    written = any(task.sum.with_pieces and task.sum not in sums for task in tasks)
    return builds_plan(sums, len(pupils), language, written=written)


def builds_plan(
    sums: Sequence[Sum], children: int, language: str, *, written: bool = False
) -> dict[str, Any] | None:
    """Return for how many children, and which sums, pieces are made that the pages do not bring.

    Of many ``sums`` those are told that need as much as all together; ``pieces`` says how much
    that is, ``written`` whether further sums are only written.
    """
    if not sums:
        return None
    words = designs.words(language)
    words = words.decimal if sums[0].scale.decimals else words
    return {
        "sums": [str(s).split(" − ") for s in (fullest(sums) if len(sums) > MOST_SHOWN else sums)],
        "pieces": phrases.pieces(words, stock(sums)),
        "children": children,
        "written": written,
    }


def pages_plan(sheets: Sequence[Sheet], *, listed: bool) -> dict[str, Any]:
    """Return where the pages of ``sheets`` lie: groups, and the pages to turn to first.

    ``check_page`` is the one with the frame for a bank card, ``ruler_page`` the first with a ten
    at true size. What is printed later stands apart where it is ``listed`` so.
    """
    return {
        "pages": len(sheets),
        "check_page": _first(sheets, SheetKind.COVER),
        "cutting_pages": [n for n, s in enumerate(sheets, 1) if s.kind is SheetKind.CUTTING],
        "begin_page": _begin(sheets),
        "ruler_page": _first(sheets, SheetKind.MINI) or _first(sheets, SheetKind.PIECES),
        "two_sided": list(_two_sided(sheets)),
        "groups": list(groups(sheets, listed=listed)),
    }


def _two_sided(sheets: Sequence[Sheet]) -> Iterator[int]:
    """Yield the pages that share a sheet: a front and the back that follows it."""
    for page, sheet in enumerate(sheets, 1):
        if sheet.flip is not None:
            yield from (page - 1, page)


def groups(sheets: Sequence[Sheet], *, listed: bool) -> Iterator[dict[str, Any]]:
    """Yield the pages that one picture stands for: a page, or in long kits a run of like pages."""
    single = len(sheets) <= EACH_SHOWN
    numbered = list(enumerate(sheets, 1))
    for _, run in groupby(numbered, lambda one: one[0] if single else _alike(one[1])):
        found = list(run)
        sheet = found[0][1]
        yield {
            "from": found[0][0],
            "to": found[-1][0],
            "name_code": f"title.{sheet.kind.value}",
            "week": sheet.week,
            "child": _child(sheet) if len(found) == 1 else "",
            "stock": sheet.stock,
            "copies": sheet.copies,
            "later": listed and sheet.later,
            "turned": sheet.width > sheet.height,
            "width": sheet.width,
            "height": sheet.height,
        }


def _alike(sheet: Sheet) -> tuple[object, ...]:
    of_child = bool(_child(sheet))
    return sheet.kind, sheet.week, sheet.stock, sheet.copies, sheet.later, sheet.width, of_child


def _child(sheet: Sheet) -> str:
    """Return whom a page about answers is for; nothing where it is about the class."""
    return sheet.section if sheet.kind is SheetKind.MARKS else ""


def _begin(sheets: Sequence[Sheet]) -> int | None:
    """Return the page where the first sum begins: its lesson, else what stands in for it."""
    kinds = (SheetKind.LESSON, SheetKind.GUIDE, SheetKind.MINI)
    return next((page for page in (_first(sheets, kind) for kind in kinds) if page), None)


def _first(sheets: Sequence[Sheet], kind: SheetKind) -> int | None:
    return next((page for page, sheet in enumerate(sheets, 1) if sheet.kind == kind), None)


def _needs(prepared: Prepared) -> Iterator[dict[str, Any]]:
    """Yield what the adult needs besides card and paper, as a cover says: codes with counts."""
    request, kit, laid = prepared.request, prepared.kit, prepared.laid
    if request.press.kerf_mm:
        yield {"code": "machine", "count": 1}
    elif prepared.takes.cuts:
        yield {"code": "cutter" if request.cutting.layers > 1 else "scissors", "count": 1}
    if not request.extra.value:
        yield {"code": "pencil", "count": 1}
    if held := glue(laid.sheets):
        yield {"code": held, "count": 1}
    if request.cutting.kits > 1:
        yield {"code": "bags", "count": request.cutting.kits}
        if Bank.of(kit.pieces, request.cutting).at_once:
            yield {"code": "box", "count": 1}
    elif kit.pieces.value and not request.mini:
        yield {"code": "envelopes", "count": sum(count > 0 for count in kit.pieces.counts)}
        if not request.extra.value:
            yield {"code": "bowl", "count": 1}
