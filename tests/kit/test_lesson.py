"""The guide's lesson: what is numbered, looked at, named and drawn, reckoned by hand."""

import pytest

from kitbuilder.design import load as designs
from kitbuilder.kit.guide import guide
from kitbuilder.kit.lesson.script import Beside, Taught, taught
from kitbuilder.kit.lesson.writing import Writing, writing
from kitbuilder.number import Pieces, Sum

WORDS = designs.words()
NOTHING = Pieces()


def test_the_lesson_is_the_first_sums() -> None:
    stages = guide((Sum(71, 48), Sum(634, 258)), WORDS)
    title = WORDS("guide_pages.first", sum=Sum(71, 48))
    alone = taught(Sum(71, 48), title, WORDS)
    assert stages[0] == alone
    assert stages[1] == writing((Sum(71, 48), Sum(634, 258)), WORDS)


def test_the_first_lesson_says_where_the_exchange_card_lies() -> None:
    sums = (Sum(43, 17), Sum(305, 148))
    leads = [s.lead for s in guide(sums, WORDS, beside=Beside(cards=True)) if isinstance(s, Taught)]
    said = WORDS("guide_pages.bank_card")
    assert "bank" in said and said in leads[0] and said not in leads[1]
    plain = (Sum(48, 25), Sum(43, 17))
    for without in (guide(sums, WORDS)[0], guide(plain, WORDS, beside=Beside(cards=True))[0]):
        assert isinstance(without, Taught) and said not in without.lead


@pytest.mark.parametrize("language", designs.names("words"))
def test_after_a_later_lesson_the_page_with_more_such_sums_is_named(language: str) -> None:
    words = designs.words(language)
    said = words("guide_pages.end_later")
    assert words("road.title") in said
    assert not any(wrong in said for wrong in ("Tomorrow", "Mañana", "the plan", "week", "semana"))
    begins = words("plan.before")
    assert "has gone well" not in begins and "haya ido bien" not in begins


def test_a_weeks_guide_names_what_lies_there() -> None:
    sums = (Sum(43, 17), Sum(305, 148))
    weekly = guide(sums, WORDS, beside=Beside(week=True))
    ends = [stage.end for stage in weekly if isinstance(stage, Taught)]
    assert ends == [WORDS("guide_pages.end_week"), WORDS("guide_pages.end_later")]
    asked = guide(sums, WORDS, beside=Beside(week=True, asked=(Sum(403, 126),)))[-1]
    assert isinstance(asked, Taught) and asked.end == WORDS("guide_pages.end_asked")
    told = [s.now_told for g in (weekly, guide(sums, WORDS)) for s in g if isinstance(s, Writing)]
    assert "worksheet" in told[0] and "worksheet" not in told[1] and "another sum" in told[1]


def test_a_kit_for_every_sum_below_a_limit_asks_for_no_sum_for_these_pieces() -> None:
    for every in (True, False):
        pages = guide((Sum(43, 17),), WORDS, beside=Beside(every=every))
        (told,) = [page.now_told for page in pages if isinstance(page, Writing)]
        assert ("these pieces" in told) is not every
