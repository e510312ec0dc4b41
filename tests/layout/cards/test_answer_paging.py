"""Answers on pages: no page holds the closing line alone."""

from kitbuilder.layout.cards.answer_sheets import _paged
from kitbuilder.layout.parts.block import Block


def test_a_closing_line_takes_the_last_answer_with_it() -> None:
    answer, line = Block((), 100.0, 45.0), Block((), 100.0, 6.0)
    assert [len(page) for page in _paged([answer, answer, line], 95.0)] == [1, 2]
    assert [len(page) for page in _paged([answer, answer, line], 102.0)] == [3]
    high = Block((), 100.0, 92.0)
    assert [len(page) for page in _paged([high, line], 95.0)] == [1, 1]
