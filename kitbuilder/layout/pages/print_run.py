"""Turns a class set's sheets into its first page: what to print how often, and what it takes."""

from collections.abc import Sequence
from itertools import groupby

from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.kit import phrases
from kitbuilder.kit.records import CutWish, Kit, Say
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.cutting.map_pages import counted
from kitbuilder.layout.estimate import Estimate
from kitbuilder.layout.model import Rect, Sheet, SheetKind
from kitbuilder.layout.page import Page
from kitbuilder.layout.text.flow import ADULT_INSET, Figure, flow
from kitbuilder.layout.text.page_refs import guide_page
from kitbuilder.layout.text.table import table


def run_sheets(
    kit: Kit,
    sheets: Sequence[Sheet],
    plan: CutPlan | None,
    cutting: CutWish,
    takes: Estimate,
    style: Style,
) -> tuple[Sheet, ...]:
    """Return the print run of a kit whose other pages are ``sheets``; one page as a rule.

    ``takes`` is the estimate of the other pages; the run counts its own among what to print.
    """
    page = Page.upright(style.paper)
    area = page.inside.inset(ADULT_INSET)
    pages = 1
    for _ in range(4):  # page numbers depend on how many pages come before
        whole = takes.with_paper(pages)
        blocks = _blocks(kit, sheets, pages, plan, cutting, whole, style, area)
        placed = flow(blocks, area, style.look)
        if len(placed) == pages:
            break
        pages = len(placed)
    return tuple(
        Sheet(SheetKind.PRINT_RUN, number, "paper", page.width, page.height, items)
        for number, items in enumerate(placed, 1)
    )


def estimate_lines(takes: Estimate, words: Words) -> tuple[str, ...]:
    """Return what printing and cutting takes, a sentence a line."""
    said = [words("run.sheets", card=takes.card, paper=takes.paper)]
    if takes.cuts:  # none where a machine cuts
        pace = phrases.number(words, takes.wish.cuts_per_minute)
        time = phrases.minutes(words, takes.minutes)
        said.append(words("run.cuts", cuts=takes.cuts, minutes=time, pace=pace))
    percent = phrases.number(words, takes.ink_per_cent, 1)
    said.append(words("run.ink", area=round(takes.ink_mm2 / 100), percent=percent))
    if takes.card_grams is not None and takes.wish.grammage is not None:
        grammage = phrases.number(words, takes.wish.grammage)
        said.append(words("run.weight", grams=round(takes.card_grams), grammage=grammage))
    if takes.cost is not None and takes.wish.per_sheet is not None:
        price = phrases.number(words, takes.wish.per_sheet)
        said.append(words("run.cost", cost=phrases.number(words, takes.cost, 2), price=price))
    return tuple(said)


def _blocks(
    kit: Kit,
    sheets: Sequence[Sheet],
    before: int,
    plan: CutPlan | None,
    cutting: CutWish,
    takes: Estimate,
    style: Style,
    area: Rect,
) -> list[Say | Figure]:
    how = [
        style.words("run.kits", kits=cutting.kits, pieces=phrases.pieces(style.words, kit.pieces))
    ]
    if plan and any(count.count for count in plan.spares):
        how.append(style.words("run.spares", pieces=counted(plan.spares, style.words)))
    how += style.words.lines("run.how", page=before + 1)
    guide = guide_page(sheets, before)
    return [
        Say("title", style.words("title.print_run")),
        *(Say("step", line, "–") for line in how),
        _table(sheets, before, style, area),
        *([Say("body", style.words("cover.then", page=guide))] if guide else []),
        Say("heading", style.words("run.takes")),
        *(Say("step", line, "–") for line in estimate_lines(takes, style.words)),
    ]


def _table(sheets: Sequence[Sheet], before: int, style: Style, area: Rect) -> Figure:
    keys = ("page", "what", "copies", "paper", "sides")
    rows = [tuple(style.words(f"run.column_{key}") for key in keys)]
    numbered = list(enumerate(sheets, before + 1))
    for (title, copies), same in groupby(numbered, key=lambda n: (n[1].kind, n[1].copies)):
        group = list(same)
        first, last = group[0][0], group[-1][0]
        pages = str(first) if first == last else f"{first}–{last}"
        sheet = group[0][1]
        flips = {flip for _, s in group if (flip := s.flip)}
        sides = f"run.sides_{flips.pop()}" if flips else "run.sides_one"
        stock = style.words(f"cover.stock_{sheet.stock}")
        rows.append((pages, style.words(f"title.{title}"), str(copies), stock, style.words(sides)))
    return table(rows, area.width, style.look.type_mm.adult)
