"""The script of a lesson: one order of moves, marks after hands, short lines, fair questions."""

import re
from itertools import pairwise

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.load import Words
from kitbuilder.kit.guide import guide
from kitbuilder.kit.lesson.script import Beside, LessonStep, Taught, script, taught
from kitbuilder.kit.lesson.strips import Strips, strips
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.number import Sum
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.course.schedule import LESSONS
from kitbuilder.number.steps import Act, steps
from kitbuilder.number.written import columns, columns_after

WORDS = designs.words()
SUMS = (*LESSONS, Sum(634, 258), Sum(470, 209), Sum(4003, 1758), Sum(8524, 3857))


def cues(sum_: Sum) -> list[tuple[str, ...]]:
    return [step.cues for step in script(sum_, WORDS)]


def test_the_moves_of_each_kind_are_in_the_order_of_the_course() -> None:
    hand = ("hand", "fetch")
    start = [("build", "guess"), ("look",), hand]
    end = [("push",), ("back",)]
    # One exchange of two places, ones then tens; of three, what is taken out is one step.
    assert cues(Sum(43, 17)) == [*start, ("take",), ("take",), ("read",), *end]
    assert cues(Sum(254, 38)) == [*start, ("take", "take"), ("read",), *end]
    # Two exchanges: the ones are taken out before the tens are looked at.
    both = [("take", "look"), hand, ("take", "take", "read"), ("push",), ("back", "back")]
    assert cues(Sum(431, 257)) == [*start, *both]
    # Across a zero both exchanges come first: a hundred is opened, then a ten.
    zero = [hand, ("take", "take", "take"), ("read",), ("push",), ("back", "back")]
    assert cues(Sum(305, 148)) == [*start, *zero]


@pytest.mark.parametrize("language", designs.names("words"))
def test_across_a_zero_it_is_asked_where_ten_come_from_before_it_is_told(language: str) -> None:
    words = designs.words(language)
    where = words("script.zero_asks", place=words("place.ones"))
    for sum_ in (Sum(305, 148), Sum(4003, 1758)):
        steps = script(sum_, words)
        asked = [[one.asks for one in step.asked] for step in steps]
        at = next(k for k, asks in enumerate(asked) if where in asks)
        assert steps[at].cues == ("look",) and steps[at + 1].cues == ("hand", "fetch")
        assert asked[at + 1] == [words("script.still", whole=sum_.whole)]
        assert where not in asked[at + 1]
    # In four places the zero may be met in a later column: 5023 − 1341 has no hundreds for tens.
    later = script(Sum(5023, 1341), words)
    tens = words("script.zero_asks", place=words("place.tens"))
    assert any("look" in step.cues and tens in [a.asks for a in step.asked] for step in later)


@pytest.mark.parametrize("language", designs.names("words"))
def test_once_a_part_is_out_it_is_still_the_whole_in_all(language: str) -> None:
    words = designs.words(language)
    said = [a.asks for step in script(Sum(431, 257), words) for a in step.asked]
    alone, in_all = (words(f"script.{key}", whole=431) for key in ("still", "still_in_all"))
    assert said.index(alone) < said.index(in_all)  # seven ones lie in the part by then


@pytest.mark.parametrize("sum_", SUMS, ids=str)
def test_lesson_strips_and_writing_show_one_order_in_every_language(sum_: Sum) -> None:
    lesson = cues(sum_)
    for language in designs.names("words"):
        words = designs.words(language)
        assert [step.cues for step in script(sum_, words)] == lesson
        moves = [c for c in lesson if {"fetch", "take"} & set(c)]
        more = strips([(sum_, ""), (Sum(43, 17), "")], words)
        assert isinstance(more, Strips)
        strip = more.strips[0]
        several = len(pattern(sum_).short) > 1  # shown from building to the check
        every = [("build",), *(c for c in lesson[1:-2] if c != ("look",)), ("push", *lesson[-1])]
        assert [step.cues for step in strip.steps] == (every if several else moves)
        assert len(writing([sum_], words).moves) == len(moves) + 1  # and the sum itself


@pytest.mark.parametrize("sum_", SUMS, ids=str)
def test_no_mark_comes_before_its_hand(sum_: Sum) -> None:
    done, after = steps(sum_), columns_after(sum_, steps(sum_))
    told = script(sum_, WORDS)
    assert [step.done for step in told] == sorted(step.done for step in told)
    made = 0
    for step in told:
        now = after[step.done - 1]
        # Each exchange done writes two marks, and an answer stands only where was taken out.
        acts = done[: step.done]
        exchanged = sum(one.act is Act.EXCHANGE for one in acts)
        assert sum(len(column.marks) for column in now) == 2 * exchanged
        if not any(one.act is Act.TAKE for one in acts):
            assert all(column.answer is None for column in now)
        if "fetch" in step.cues:
            made += 1
            assert exchanged == made
    moves = writing([sum_], WORDS).moves
    assert moves[-1].columns == tuple(
        replaced if now.answer is not None else now
        for now, replaced in zip(moves[-1].columns, columns(sum_), strict=True)
    )
    assert all(move.before == before.columns for before, move in pairwise(moves))


def said(step: LessonStep) -> list[str]:
    return [step.title, *(asked.asks for asked in step.asked), *(a.says for a in step.asked)]


@pytest.mark.parametrize("language", designs.names("words"))
@pytest.mark.parametrize("sum_", SUMS, ids=str)
def test_no_line_has_more_than_twelve_words(language: str, sum_: Sum) -> None:
    for step in script(sum_, designs.words(language)):
        for line in (*said(step), *re.split(r"(?<=[.:?])\s", step.told)):
            for sentence in re.split(r"(?<=[.?!])\s", line):
                assert len(re.findall(r"\w+", sentence)) <= 12, sentence


@pytest.mark.parametrize("language", designs.names("words"))
@pytest.mark.parametrize("sum_", SUMS, ids=str)
def test_every_step_asks_and_no_question_gives_an_answer(language: str, sum_: Sum) -> None:
    for step in script(sum_, designs.words(language)):
        assert step.asked
        for asked in step.asked:
            assert asked.asks.endswith("?")
            assert str(sum_.rest) not in asked.asks


def test_what_stays_is_written_and_a_leading_zero_is_not() -> None:
    # 375 − 366 = 9: nine under the ones, nothing under the tens or hundreds, of which 0 stay.
    titles = [move.title for move in writing([Sum(375, 366)], WORDS).moves]
    assert titles[-1] == WORDS("write.take", count=366, digits="9")
    # 305 − 148, ones first.
    assert writing([Sum(305, 148)], WORDS).moves[-1].title.endswith("Write 7, then 5, then 1.")


@pytest.mark.parametrize(
    ("whole", "part", "digits"),
    [
        (254, 38, "6, then 1, then 2"),
        (30, 4, "6, then 2"),
        (453, 107, "6, then 4, then 3"),
        (1003, 5, "8, then 9, then 9"),
    ],
)
def test_the_answer_is_written_to_its_end_where_nothing_comes_out(
    whole: int, part: int, digits: str
) -> None:
    last = writing([Sum(whole, part)], WORDS).moves[-1]
    assert last.title.endswith(f"Write {digits}.")
    answer = "".join(str(column.answer) for column in last.columns if column.answer is not None)
    assert int(answer[::-1]) == whole - part


@pytest.mark.parametrize("language", designs.names("words"))
def test_a_lesson_uses_what_lies_beside_it_and_nothing_else(language: str) -> None:
    words = designs.words(language)
    card = "tarjeta" if language.startswith("es") else "card"
    box = "casilla" if language.startswith("es") else "box"
    for sum_ in LESSONS:
        told = [step.told for step in script(sum_, words, "two", Beside(cards=True, mat=True))]
        assert any(card in text.lower() for text in told), told
        assert sum(box in text for text in told) == 1
        plain = [step.told for step in script(sum_, words)]
        assert not any(card in text.lower() or box in text for text in plain)


@pytest.mark.parametrize("language", designs.names("words"))
def test_more_kinds_of_sums_use_the_cards_of_the_first_lesson(language: str) -> None:
    words = designs.words(language)
    titled = [(LESSONS[1], "")]
    card = words("title.exchange_cards").lower()[:-1].split("s de ")[0]
    assert card in strips(titled, words, "two", Beside(cards=True)).lead.lower()
    assert card not in strips(titled, words).lead.lower()
    sums = LESSONS[:3]
    _, *more = (p for p in guide(sums, words, "two", Beside(cards=True)) if isinstance(p, Taught))
    assert [card in lesson.lead.lower() for lesson in more] == [True]


@pytest.mark.parametrize("language", designs.names("words"))
def test_the_lesson_and_the_week_end_a_day_alike(language: str) -> None:
    words = designs.words(language)
    with_week = taught(LESSONS[0], "", words, beside=Beside(week=True)).end
    stop = words("week.stop_practice").split(".")[0]
    assert stop in with_week and "15" not in with_week
    assert with_week != taught(LESSONS[0], "", words).end


@pytest.mark.parametrize("sum_", (*SUMS, Sum(5, 3)), ids=str)
def test_a_child_is_asked_whether_there_are_enough_and_is_not_told(sum_: Sum) -> None:
    looking = [step for step in script(sum_, WORDS) if step.cues == ("look",)]
    assert looking or sum_ == Sum(5, 3)  # nothing is exchanged in it
    for step in looking:
        assert step.asked and step.told == ""


@pytest.mark.parametrize("sum_", [s for s in SUMS if s.places < 4], ids=str)
@pytest.mark.parametrize("words", designs.names("words"))
def test_the_answer_that_it_is_still_the_whole_holds_all_of_it(sum_: Sum, words: str) -> None:
    said = designs.words(words)
    still = {said(f"script.{key}", whole=sum_.whole) for key in ("still", "still_in_all")}
    answers = [
        asked.says
        for step in script(sum_, said)
        if "fetch" in step.cues
        for asked in step.asked
        if asked.asks in still
    ]
    assert answers
    for answer in answers:
        assert answer.startswith(("Yes", "Sí"))
        assert sum(map(int, re.findall(r"\d+", answer))) == sum_.whole


def test_who_draws_hundreds_later_is_told_their_square() -> None:
    assert "square" not in writing((Sum(43, 17), Sum(71, 48)), WORDS).draw_told
    assert "A square is a hundred." in writing((Sum(43, 17), Sum(305, 148)), WORDS).draw_told
    assert "A square is a hundred." in writing((Sum(43, 17),), WORDS, places=3).draw_told


def test_what_is_left_moves_to_its_zone_before_it_is_read_or_leaves_it() -> None:
    sums = (Sum(254, 38), Sum(328, 174), Sum(43, 17))
    more = strips([(sum_, "") for sum_ in sums], WORDS, "three")
    assert isinstance(more, Strips)
    lessons = [(*strip.steps, strip.check) for strip in more.strips]
    late = guide((Sum(43, 17), Sum(431, 257), Sum(305, 148)), WORDS, "three")[-1]
    assert isinstance(late, Taught) and late.closes  # the check is told in words alone
    lessons.append(late.steps)
    for lesson in lessons:
        held: tuple[int, ...] = ()
        for step in filter(None, lesson):
            rest = next(zone.piles for zone in step.scene.zones if zone.role == "rest")
            assert not any(pile.gone for pile in rest) or held == tuple(p.gone for p in rest)
            held = tuple(pile.here + pile.new for pile in rest)
            assert any(held) == ("read" in step.cues)


@pytest.mark.parametrize("sum_", [Sum(634, 258), Sum(71, 48), Sum(300, 148)], ids=str)
def test_the_last_written_move_ends_with_pushing_together(sum_: Sum) -> None:
    moves = writing([sum_], WORDS).moves
    told = [move.told for move in moves]
    last = f"Push together, exchange back: is it {sum_.whole} again?"
    assert told == [""] * (len(moves) - 1) + [last]


@pytest.mark.parametrize("arrangement", ["three", "beside"])
def test_what_is_left_lies_in_its_zone_before_it_is_pushed_together(
    arrangement: Arrangement,
) -> None:
    # 634 − 258 = 376, ones first; its row on the page was empty to the very end.
    *others, last = writing([Sum(634, 258)], WORDS, arrangement).moves
    assert last.parted and not any(move.parted for move in others)
    counts = {z.role: [pile.count for pile in z.piles] for z in last.parted.scene.zones}
    assert counts == {"part": [8, 5, 2], "rest": [6, 7, 3]}


def part_counts(sum_: Sum, words: Words = WORDS) -> list[list[int | None]]:
    """Return the numbers under the part, ones first, in each step until both parts are read."""
    told = script(sum_, words)
    end = next(n for n, step in enumerate(told) if "push" in step.cues)
    zones = (zone for step in told[:end] for zone in step.scene.zones if zone.role == "part")
    return [[pile.count for pile in zone.piles] for zone in zones]


def test_the_number_under_a_part_is_that_of_the_pieces_that_lie_there() -> None:
    none = [None] * 3
    # 431 − 257: while 7 ones, then 5 tens, are only wanted, nobody reads that they are there.
    assert part_counts(Sum(431, 257)) == [
        none,
        none,
        none,
        [7, None, None],
        [7, None, None],
        [7, 5, 2],
    ]
    # 500 − 207: the 0 of 207 is read once the hundreds are out, and none before a first digit.
    assert part_counts(Sum(500, 207))[-2:] == [[7, 0, 2]] * 2
    # 3.2 − 1.47: 7 hundredths alone are 0.07, while the tenths are wanted too.
    decimal = WORDS.decimal
    found = part_counts(Sum(320, 147, decimal.scale), decimal)
    assert found == [none, none, none, [7, 0, 0], [7, 0, 0], [7, 4, 1]]
