"""The script: moves in one order, every mark after its hand, short lines in three languages."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitbuilder.design import load as designs
from kitbuilder.kit.course.script_words import turn
from kitbuilder.number import Sum
from kitbuilder.number.course.rungs import rung_of
from kitbuilder.number.course.schedule import LESSONS
from kitbuilder.number.course.script import Cue, Mark, Move, script
from kitbuilder.number.course.stages import STAGES
from kitbuilder.number.written import columns

SUMS = st.builds(
    lambda whole, share: Sum(whole, 1 + share * (whole - 1) // 1000),
    st.integers(20, 9999),
    st.integers(0, 1000),
).filter(lambda s: s.part < s.whole)


def test_across_a_zero_move_by_move() -> None:
    # The example of the course, 305 − 148, numbered there from 1 to 12.
    said = [(m.cue.value, m.place, m.mark) for m in script(Sum(305, 148))]
    assert said == [
        ("build", None, None),
        ("guess", None, None),
        ("look", 0, None),
        ("where", 0, None),
        ("hand", 2, Mark(2, 2, 3)),
        ("fetch", 1, Mark(1, 10, 0)),
        ("hand", 1, Mark(1, 9, 10)),
        ("fetch", 0, Mark(0, 15, 5)),
        ("trace", 1, None),
        ("take", 0, Mark(0, 7)),
        ("take", 1, Mark(1, 5)),
        ("take", 2, Mark(2, 1)),
        ("read", None, None),
        ("push", None, None),
        ("back", 0, None),
        ("back", 1, None),
        ("add", None, None),
    ]
    pushed = next(m for m in script(Sum(305, 148)) if m.cue is Cue.PUSH)
    assert pushed.table.whole.counts[:3] == (15, 9, 2)


@given(SUMS)
def test_no_mark_comes_before_its_hand(sum_: Sum) -> None:
    marked: dict[int, list[int]] = {}
    held = list(script(sum_)[0].table.whole.counts)
    for move in script(sum_):
        if move.mark:
            # The mark tells what lies there once the hand is gone: a count, before and after.
            assert move.place == move.mark.place
            now = move.table.whole.counts[move.mark.place]
            assert move.mark.written == now
            if move.mark.struck is not None:
                assert move.mark.struck == held[move.mark.place] != now
                marked.setdefault(move.mark.place, []).append(now)
        held = list(move.table.whole.counts)
        assert (
            move.cue in (Cue.PUSH, Cue.BACK)
            or move.table.together.value == sum_.whole
            or (move.cue is Cue.HAND)
        )
    # All marks together are those of the written method, worked another way.
    assert {k: tuple(v) for k, v in marked.items()} == {
        k: column.marks for k, column in enumerate(columns(sum_)) if column.marks
    }


def test_stages_keep_one_order() -> None:
    for lesson in LESSONS:
        whole = [m.cue for m in script(lesson)]
        for stage in STAGES:
            here = [m.cue for m in script(lesson, stage)]
            rest = iter(whole)
            assert all(cue in rest for cue in here)  # the same order, with some left out
            assert (Cue.PUSH in here) == (stage in ("pieces", "both"))
            assert (Cue.ADD in here) == (stage != "pieces")
        assert not any(m.mark for m in script(lesson, "pieces"))


def every_turn(language: str) -> list[tuple[Move, Sum, tuple[str, ...]]]:
    words = designs.words(language)
    found: list[tuple[Move, Sum, tuple[str, ...]]] = []
    for sum_ in (*LESSONS, Sum(634, 258), Sum(4003, 1758), Sum(470, 209)):
        for move in script(sum_):
            said = turn(move, sum_, words)
            found.append((move, sum_, (said.hand, said.asks, said.says, said.writes)))
    return found


@pytest.mark.parametrize("language", designs.names("words"))
def test_no_line_has_more_than_twelve_words(language: str) -> None:
    for move, _, lines in every_turn(language):
        hand, asks, says, writes = lines
        for line in (hand, asks, writes, *([says] if move.cue is not Cue.FETCH else [])):
            assert len(re.findall(r"\w+", line)) <= 12, line


@pytest.mark.parametrize("language", designs.names("words"))
def test_every_turn_asks_and_only_moves_are_written(language: str) -> None:
    for move, sum_, (_, asks, _, writes) in every_turn(language):
        assert asks.endswith("?")
        expected = move.mark is not None or move.cue in (Cue.BUILD, Cue.ADD)
        assert bool(writes) == expected, (move.cue, sum_)
        assert str(sum_.rest) not in asks  # a question gives no answer


def test_lessons_are_one_of_each_kind() -> None:
    assert [rung.key for rung in map(rung_of, LESSONS) if rung] == [
        "two", "ones", "both", "across-zero",
    ]  # fmt: skip
