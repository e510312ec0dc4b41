"""Cards for sums of one's own fill what is left of a sheet of task cards."""

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.kit.card_packs import blank_card
from kitbuilder.kit.card_records import STAGES, CardWishes, Stage, Task
from kitbuilder.layout.cards.fronts import front
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.contents import Dots
from kitbuilder.number import Sum
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import fitted_paper
from kitbuilder.request.request import Request


def dealt(count: int, **wishes: object) -> list[list[str]]:
    """Return what stands on each sheet of task cards for ``count`` sums on A4."""
    sums = tuple(Sum(400 + n, 158) for n in range(count))
    cards = CardWishes(kinds=("tasks",), **wishes)  # type: ignore[arg-type]
    request = Request(sums, fitted_paper("a4"), parts=("cards",), cards=cards)
    sheets = laid_out(held(request), request).sheets
    held_ = [s for s in sheets if s.kind == "task_cards" and not s.flip]
    return [[i.what for i in s.items if i.what.endswith("card")] for s in held_]


@pytest.mark.parametrize(("sums", "blank"), [(1, 3), (2, 2), (3, 1), (4, 0), (5, 3)])
def test_a_sheet_of_task_cards_is_filled(sums: int, blank: int) -> None:
    sheets = dealt(sums)
    held_ = [what for sheet in sheets for what in sheet]
    assert all(len(sheet) == 4 for sheet in sheets)  # four near A6 on A4
    assert held_ == ["task_card"] * sums + ["blank_card"] * blank


def test_a_folded_sheet_is_filled_in_pairs() -> None:
    assert dealt(1, backs="fold") == [["task_card", "blank_card"]]


@pytest.mark.parametrize("stage", STAGES)
def test_a_blank_card_has_places_to_write_and_no_digit(stage: Stage) -> None:
    words = designs.words("es")
    style = Style(fitted_paper("a4"), words, designs.look("plain"))
    card = blank_card([Task(Sum(43, 17), stage)], CardWishes(), words)
    face = front(card, Rect(0, 0, 138, 90), style)
    assert face
    said = "".join(getattr(item.content, "text", "") for item in face)
    assert not any(letter.isdigit() for letter in said)
    assert {"answer_place", "columns"} & {item.what for item in face}
    assert not [item for item in face if isinstance(item.content, Dots)]  # nobody knows how hard


@pytest.mark.parametrize("stage", ["both", "written"])
def test_a_blank_card_of_columns_alone_is_headed_and_says_what_it_is_for(stage: Stage) -> None:
    # four columns had no headings, and a card with no room for all words was left out
    words = designs.words()
    style = Style(fitted_paper("a4"), words, designs.look("spare"))
    card = blank_card([Task(Sum(4053, 1278), stage)], CardWishes(headings=True), words)
    face = front(card, Rect(0, 0, 138, 90), style)
    assert face
    said = " ".join(getattr(item.content, "text", "") for item in face)
    assert (
        words("free_card.dealt") in said
        and "edge" not in said
        and words("column.thousands") in said
    )
