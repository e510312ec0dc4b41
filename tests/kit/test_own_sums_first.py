"""The first week of thousands and of decimals: it opens with the family's own sums."""

import pytest

from kitbuilder.design.load import words as words_of
from kitbuilder.kit.course.plan_words import plan_sums
from kitbuilder.kit.lesson.script import Taught
from kitbuilder.kit.records import Kit, Lesson
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.course.schedule import varied
from kitbuilder.number.stock import stock, stock_within
from kitbuilder.pipeline import held
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.request import Request, read_sum
from kitbuilder.request.weeks import plan_wish, tasks_of


def kit(*typed: str, within: int | None = None) -> Kit:
    press = Press(words=words_of("en-GB"))
    sums = tuple(map(read_sum, typed))
    return held(Request(sums, fitted_paper("a4"), within=within, press=press))


def asked(found: Kit) -> list[Sum]:
    return [one.sum for week in found.course.weeks for day in week.days for one in day.sums]


def lesson_said(lesson: Lesson) -> str:
    return lesson.title if isinstance(lesson, Taught) else ""


@pytest.mark.parametrize("limit", [10_000, 5000, 1500, 1001])
def test_a_kit_for_sums_with_thousands_teaches_one(limit: int) -> None:
    found = kit(within=limit)
    opened = [*asked(found), *found.first]
    assert all(sum_.whole >= 1000 for sum_ in opened)
    assert all(sum_.whole % 1000 < sum_.part % 1000 for sum_ in opened)  # a thousand is opened
    assert opened[0].whole < limit
    assert any(str(opened[0]) in lesson_said(lesson) for lesson in found.guide)
    assert found.course.worksheets[0].asked[0].sum.places == 4
    assert found.course.road is not None
    openings = {row.kind: row.opening for row in found.course.road.rows}
    assert limit == 1001 or openings["thousands"] == opened[0]  # 1000 has zeros: others do
    assert found.pieces == stock_within(limit)


def test_a_kit_below_a_thousand_still_opens_with_its_first_lesson() -> None:
    found = kit(within=1000)
    assert asked(found)[0] == Sum(43, 17)
    taught = [lesson_said(lesson) for lesson in found.guide]  # hundreds are opened too
    assert any("431 − 257" in title for title in taught)
    assert not any("431" in lesson_said(lesson) for lesson in kit(within=300).guide)


@pytest.mark.parametrize(
    "typed",
    [
        ("3 - 1.47", "5.01 - 0.33"),
        ("5000 - 2345", "4003 - 1758"),
        ("5.3 - 2.7", "6.4 - 3.8"),
        tuple(f"{whole} - 1758" for whole in range(3000, 13_000, 1000) if whole < 10_000),
    ],
)
def test_the_week_opens_with_all_own_sums_of_the_kind_of_the_first(typed: tuple[str, ...]) -> None:
    found = kit(*typed)
    given, week = list(found.sums), asked(found)
    assert week[: len(given)] == given
    wholes = [sum_.whole for sum_ in week[len(given) :]]
    assert len({*wholes}) >= len(wholes) - 1  # not one whole again and again
    (page,) = found.course.weeks
    assert [said.count("·") for _, said in page.on] == [0, 0, 0]  # one count, not one a kind
    facts = [day.facts.count("−") for day in page.days]
    assert max(facts) <= 15


def test_sums_that_exchange_nothing_stay_out_of_the_week() -> None:
    assert asked(kit("5.4 - 2.1", "3 - 1.47"))[0] == read_sum("3 - 1.47")


def test_the_week_writes_a_family_s_sum_as_it_was_typed() -> None:
    found = kit("3 - 1.47", "6.00 - 3.41")
    assert [str(sum_) for sum_ in asked(found)[:2]] == ["3 − 1.47", "6.00 − 3.41"]


def test_a_few_more_pieces_but_no_thousand_and_never_more_than_any_sum_needs() -> None:
    least = stock([Sum(4003, 1758)])
    assert varied(least) == Pieces(ones=16, tens=10, hundreds=10, thousands=4)
    full = stock_within(10_000)
    assert varied(full) == full
    assert varied(Pieces(ones=40)).ones == 40  # spares asked for are kept


def test_sums_of_three_places_have_the_week_they_had() -> None:
    found = kit("305 - 148", "254 - 38")
    assert asked(found)[0] == Sum(305, 148)
    assert Sum(254, 38) not in asked(found)


def test_a_lesson_of_tenths_has_a_week_of_tenths_beside_sums_of_hundredths() -> None:
    week = asked(kit("5.3 - 2.7", "9.05 - 0.48"))
    assert all(sum_.short().scale.decimals == 1 for sum_ in week)


def test_weeks_across_a_zero_point_to_the_lessons_on_what_they_ask_next_in_writing() -> None:
    sums = (Sum(502, 287),)
    tasks = tasks_of(plan_wish(sums, weeks=3), sums)
    request = Request(
        plan_sums(tasks), fitted_paper("a4"), plan=tasks, press=Press(words=words_of("en-GB"))
    )
    weeks = held(request).course.weeks
    assert weeks[1].lessons == ("More kinds of sums",)
    assert not weeks[2].lessons  # every kind has come by then
