"""What is told to be printed on both sides is printed so: nothing stands behind anything else."""

import re

import pytest
from grids import each, pairs

from kitbuilder.design import load as designs
from kitbuilder.kit.card_records import Backs, CardWishes, Kind, Pupil, Task
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cards.deal import CardFace
from kitbuilder.layout.cover.print_lists import by_edge, edges
from kitbuilder.layout.model import Rect, Sheet, SheetKind
from kitbuilder.layout.pages.print_run import _piles as run_piles
from kitbuilder.layout.parts.contents import Line
from kitbuilder.number import Sum
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press
from kitbuilder.request.request import Part, Request, read_sum

TOLD = {
    "en-GB": ("type ", {"Print on both sides, long": "long-edge", "sides, short": "short-edge"}),
    "es": ("en «Páginas», ", {"por el lado largo": "long-edge", "por el lado corto": "short-edge"}),
}
"""What stands before the pages to type, and what tells the edge to turn the paper over on."""

SUMS = ((71, 48), (305, 148), (634, 258), (43, 17), (52, 27), (42, 15), (84, 29), (62, 35))

KINDS: tuple[tuple[Kind, ...], ...] = (
    ("tasks", "stories"),
    ("tasks", "facts", "exchange"),
    ("tasks", "stories", "additions", "facts", "arrows", "digits", "record", "exchange", "sheet"),
)


PARTS: tuple[Part, ...] = ("pieces", "mats", "cards")
"""The parts of a kit that have backs, and mats and answers, which have none."""


def packs() -> tuple[Pupil, ...]:
    """Return pupils with one to eight sums each, so that packs end on full and other sheets."""
    tasks = [Task(Sum(whole, part), "both") for whole, part in SUMS]
    return tuple(Pupil(f"Pupil {count}", tuple(tasks[:count])) for count in (3, 8, 1, 4))


def packed(cards: CardWishes, paper: str = "a4") -> tuple[Sheet, ...]:
    """Return the sheets of the packs above."""
    request = Request((), designs.paper(paper), parts=("cards",), cards=cards, pupils=packs())
    return laid_out(held(request), request).sheets


def told(sheets: tuple[Sheet, ...], words: str) -> list[tuple[list[int], str]]:
    """Return the jobs that the cover tells of: the pages to type, and the edge or nothing."""
    before, edges_told = TOLD[words]
    cover = (item for sheet in sheets if sheet.kind is SheetKind.COVER for item in sheet.items)
    said = " | ".join(item.content.text for item in cover if isinstance(item.content, Line))
    jobs: list[tuple[list[int], str]] = []
    for one in re.split(rf"{before}(?=\d)", said)[1:]:
        typed, after = one.split(" | ", 1)
        runs = re.findall(r"(\d+)(?:–(\d+))?", typed)
        pages = [n for first, last in runs for n in range(int(first), int(last or first) + 1)]
        after = after.replace(" | ", " ")
        jobs.append((pages, next((edge for say, edge in edges_told.items() if say in after), "")))
    return jobs


def mirrored(rect: Rect, sheet: Sheet, edge: str) -> Rect:
    """Return where ``rect`` of a back is seen from the front of its sheet."""
    if (edge == "long-edge") == (sheet.height > sheet.width):
        return Rect(sheet.width - rect.right, rect.y, rect.width, rect.height)
    return Rect(rect.x, sheet.height - rect.bottom, rect.width, rect.height)


def check_leaf(front: Sheet, back: Sheet, edge: str) -> int:
    """Check the two sides of one sheet as it is printed; return how many backs lie right."""
    assert front.flip is None, "a back is printed on a front"
    assert back.flip == edge or (back.flip and not back.items), "a front is printed on a back"
    assert front.section == back.section
    fronts = [(i.content.card, i.rect) for i in front.items if isinstance(i.content, CardFace)]
    behind = [item for item in back.items if isinstance(item.content, CardFace)]
    assert bool(back.items) == bool(behind) or front.kind is SheetKind.PIECES
    for item in behind:
        assert isinstance(item.content, CardFace)
        assert item.content.is_back
        seen = mirrored(item.rect, back, edge)
        assert any(card is item.content.card and rect.holds(seen, 0.01) for card, rect in fronts)
    return len(behind)


def check_printed(sheets: tuple[Sheet, ...], words: str) -> int:
    """Print ``sheets`` as their cover tells, and return how many backs lie behind their fronts."""
    found, printed = 0, []
    for pages, edge in told(sheets, words):
        job = [sheets[n - 1] for n in pages]
        printed += pages
        if not edge:
            assert not any(sheet.flip for sheet in job)
            continue
        assert len(job) % 2 == 0
        for front, back in zip(job[::2], job[1::2], strict=True):
            found += check_leaf(front, back, edge)
    covers = sum(sheet.kind is SheetKind.COVER for sheet in sheets)
    assert sorted(printed) == list(range(covers + 1, len(sheets) + 1))
    return found


@pytest.mark.parametrize(
    ("kinds", "backs", "paper"), pairs(KINDS, ("long-edge", "short-edge"), ("a4", "a5"))
)
def test_each_answer_is_behind_its_own_sum(
    kinds: tuple[Kind, ...], backs: Backs, paper: str
) -> None:
    each = kinds == KINDS[0]
    cards = CardWishes(kinds=kinds, backs=backs, each=each)
    sheets = packed(cards, paper)
    assert check_printed(sheets, "en-GB") >= sum((3, 8, 1, 4))
    assert all(sheet.flip for sheet in sheets if sheet.stock == "card" and not sheet.items)


@pytest.mark.parametrize(
    ("backs", "paper", "sturdy"),
    pairs(("long-edge", "short-edge"), ("letter", "a4", "a5"), (None, "backs")),
)
def test_a_kit_is_printed_on_both_sides_as_told(backs: Backs, paper: str, sturdy: None) -> None:
    words = "en-GB" if paper == "letter" else "es"
    cards = CardWishes(kinds=KINDS[2], backs=backs)
    press = Press(words=designs.words(words), sturdy=sturdy)
    sums = tuple(Sum(*one) for one in SUMS[:3])
    request = Request(sums, designs.paper(paper), press=press, cards=cards, parts=PARTS)
    assert check_printed(laid_out(held(request), request).sheets, words) >= len(sums)


@pytest.mark.parametrize(("backs", "sturdy"), each(("long-edge", "short-edge"), ("backs", None)))
def test_each_line_of_a_print_run_is_on_one_side_or_on_both(backs: Backs, sturdy: None) -> None:
    cards = CardWishes(kinds=KINDS[2], backs=backs)
    press, cutting = Press(sturdy=sturdy), CutWish(kits=3, home=True)
    sums = tuple(Sum(*one) for one in SUMS[:3])
    paper = designs.paper("a4")
    request = Request(sums, paper, parts=PARTS, press=press, cards=cards, cutting=cutting)
    sheets, found = laid_out(held(request), request).sheets, 0
    for line in run_piles(sheets, 0, cutting):
        pages = [sheets[page - 1] for page in line.pages]
        if line.flip is None:
            assert not any(sheet.flip for sheet in pages)
            continue
        for front, back in zip(pages[::2], pages[1::2], strict=True):
            assert back.items
            found += check_leaf(front, back, line.flip)
    assert found >= len(sums)


def test_cards_of_amounts_are_printed_on_both_sides_as_told() -> None:
    cards = CardWishes(kinds=("tasks", "additions"), backs="long-edge")
    sums = tuple(map(read_sum, ("6.34-2.58", "3.05-1.48", "7.10-4.85")))
    request = Request(sums, designs.paper("letter"), parts=("cards",), cards=cards, money="EUR")
    assert check_printed(laid_out(held(request), request).sheets, "en-GB") >= len(sums)


def test_a_card_without_a_back_of_its_own_is_found() -> None:
    cards = CardWishes(kinds=KINDS[0], backs="long-edge")
    sheets = packed(cards)
    empty = next(n for n, sheet in enumerate(sheets) if sheet.flip and not sheet.items)
    with pytest.raises(AssertionError):
        check_printed((*sheets[:empty], *sheets[empty + 1 :]), "en-GB")


def test_no_file_that_is_printed_on_one_side_has_an_empty_page() -> None:
    for backs in ("separate", "fold"):
        cards = CardWishes(kinds=KINDS[0], backs=backs)
        sheets = packed(cards)
        assert all(sheet.items for sheet in sheets)
        assert by_edge(list(enumerate(edges(sheets), 1))) == ((f"1–{len(sheets)}", None),)
