"""The mats of a kit: subtraction mat, addition mat, exchange board."""

from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.mat_needs import MatWish, filling_sums, mat_needs, mat_places
from kitbuilder.kit.records import Kit
from kitbuilder.layout.mat.exchange_board import board_sheets
from kitbuilder.layout.mat.mat_plan import MatPlan, plan_mat
from kitbuilder.layout.mat.mat_text import mat_text
from kitbuilder.layout.mat.page_foot import footed
from kitbuilder.layout.mat.tiling import page_of
from kitbuilder.layout.mat.verify_mat import check_mat, check_sheets
from kitbuilder.layout.model import Sheet
from kitbuilder.number.sums import Sum


@frozen
class MatSet:
    """The mats of a kit: a plan for each, and every sheet in printing order."""

    plans: tuple[MatPlan, ...]
    sheets: tuple[Sheet, ...]


def kit_mats(kit: Kit, style: Style) -> MatSet:
    """Return the kit's mats; a smaller one for the first week comes first, where that will do."""
    if not kit.mats:
        return MatSet((), ())
    early, last = mat_places(kit.sums, kit.first, kit.limit)
    if early == last:
        return mat_set((*kit.sums, *kit.first), kit.limit, kit.mats, style)
    kinds = tuple(kind for kind in kit.mats.kinds if kind == "subtract")
    first = mat_set(kit.first, None, replace(kit.mats, kinds=kinds), style)
    whole = mat_set(kit.sums, kit.limit, kit.mats, style)
    later = tuple(replace(sheet, later=True) for sheet in whole.sheets)
    return MatSet((*first.plans, *whole.plans), (*first.sheets, *later))


def mat_set(sums: tuple[Sum, ...], limit: int | None, wish: MatWish, style: Style) -> MatSet:
    """Return the mats that hold ``sums`` and, with ``limit``, every sum of wholes below it.

    Every mat is checked with the sums that fill its zones most. Empty without sums and limit.
    Raises ``RefusedError`` where a mat does not fit the paper.
    """
    every = (*sums, *(filling_sums(limit) if limit else ()))
    if not every:
        return MatSet((), ())
    places = max(s.places for s in every)
    plans = []
    for kind in ("subtract", "add"):
        if kind in wish.kinds:
            arrangement = wish.arrangement if kind == "subtract" else "add"
            needs = mat_needs(every, arrangement)
            text = mat_text(arrangement, places, wish.headings, style)
            plan = plan_mat(needs, text, style)
            fullest = tuple(dict.fromkeys(h.moment.sum_ for h in needs.holdings if h.moment))
            check_mat(plan.mat, fullest)
            check_sheets(plan.mat, page_of(style.paper, plan.mat.turned), plan.sheets)
            plans.append(plan)
    sheets = [sheet for plan in plans for sheet in plan.sheets]
    if "exchange" in wish.kinds:
        sheets += board_sheets(places, wish.headings, style)
    return MatSet(tuple(plans), tuple(footed(sheet, style) for sheet in sheets))
