"""Blocks on pages: what height is spare is shared, at the foot, too."""

from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block, paged
from kitbuilder.layout.parts.contents import Panel


def block(high: float) -> Block:
    return Block((Item("panel", Rect(0, 0, 50, high), Panel()),), 50, high)


def test_a_page_with_little_on_it_keeps_clear_of_its_foot() -> None:
    ((first, last),) = paged([block(40), block(80)], Rect(0, 0, 50, 160), 2.0)
    assert last.rect.y - first.rect.bottom > 15
    assert 160 - last.rect.bottom > 15


def test_a_full_page_is_filled_down_to_its_foot() -> None:
    ((_, last),) = paged([block(70), block(80)], Rect(0, 0, 50, 160), 2.0)
    assert abs(last.rect.bottom - 160) < 0.01
