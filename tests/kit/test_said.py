"""What is said with a child: short lines, and questions that give nothing away."""

import re
from collections.abc import Iterable
from itertools import product

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.load import Words
from kitbuilder.kit.advice import wrong_page
from kitbuilder.kit.lesson.script import script
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.course.schedule import LESSONS
from kitbuilder.number.mistakes.decimal import OF_DECIMALS, POINT
from kitbuilder.number.mistakes.foreseen import shown
from kitbuilder.number.mistakes.habits import ALL_HABITS
from kitbuilder.number.mistakes.one_out import IN_ANY_SUM
from kitbuilder.number.mistakes.why import ORDER, SLIP, why
from kitbuilder.number.steps import Act, steps

MOST_WORDS = 12

KEYS = (*(habit.key for habit in ALL_HABITS), SLIP, ORDER)


def sentences(text: str) -> list[str]:
    return [part for part in re.split(r"(?<=[.?!:])\s+", text) if part]


def too_long(text: str) -> list[str]:
    """Return the sentences of ``text`` that have too many words to be said in one breath."""
    return [part for part in sentences(text) if len(part.split()) > MOST_WORDS]


def betrays(question: str, sum_: Sum, words: Words) -> list[str]:
    """Return what ``question`` gives away: places, and numbers but the whole."""
    names = {words(f"{table}.{place}") for table in ("place", "single") for place in PLACES[:4]}
    said = re.findall(r"[^\W\d_]+|\d+", question.lower())
    return [word for word in said if word in names or (word.isdigit() and word != str(sum_.whole))]


@pytest.mark.parametrize("language", designs.names("words"))
def test_no_line_of_a_lesson_is_longer_than_twelve_words(language: str) -> None:
    words = designs.words(language)
    for sum_ in LESSONS:
        for step in script(sum_, words):
            for text in (step.title, *(t for a in step.asked for t in (a.asks, a.says))):
                assert too_long(text) == []


def wordless(keys: Iterable[str], words: Words) -> list[str]:
    """Return what the words lack of the mistakes ``keys``, and the file where it belongs."""
    due = [
        said
        for key in keys
        for said in (f"mistake.{key}.name", f"mistake.{key}.asks", f"mistakes.{key}.happened")
    ]
    file = f"designs/words/{words.language}.toml"
    return [f"{file} lacks {said}" for said in due if said not in words.entries]


def test_every_mistake_has_its_words() -> None:
    """The other languages are held to en-GB when they are read."""
    every = (*KEYS, *IN_ANY_SUM, *OF_DECIMALS, POINT)
    assert wordless(every, designs.words("en-GB")) == []
    assert wordless(["turned", "new-one"], designs.words("en-GB")) == [
        "designs/words/en-GB.toml lacks mistake.new-one.name",
        "designs/words/en-GB.toml lacks mistake.new-one.asks",
        "designs/words/en-GB.toml lacks mistakes.new-one.happened",
    ]


@pytest.mark.parametrize("language", designs.names("words"))
def test_no_question_on_a_mistake_names_a_place_a_digit_or_an_answer(language: str) -> None:
    words = designs.words(language)
    for key, sum_ in product(KEYS, LESSONS):
        asked = words(f"mistake.{key}.asks", whole=sum_.whole)
        assert betrays(asked, sum_, words) == [] and too_long(asked) == []
    for mistake in wrong_page(LESSONS, words).mistakes:
        assert betrays(mistake.asks, mistake.sum, words) == []
        assert str(mistake.sum.rest) not in mistake.asks


def test_what_gives_away_is_found() -> None:
    words = designs.words()
    sum_ = Sum(43, 17)
    assert betrays("Why 26 and not 34 tens?", sum_, words) == ["26", "34", "tens"]
    assert betrays("Is it still 43 after each move?", sum_, words) == []
    assert too_long("One two three four five six seven eight nine ten eleven twelve thirteen.")


@pytest.mark.parametrize("language", designs.names("words"))
def test_mistakes_that_give_one_answer_are_told_together(language: str) -> None:
    """Every habit that gives an answer is told with each other one that gives it."""
    words = designs.words(language)
    pairs = set()
    for sum_ in (Sum(42, 17), Sum(253, 38), Sum(305, 148), Sum(140, 26), Sum(403, 218)):
        for _, answer in shown(sum_.whole, sum_.part):
            causes = [c for c in why(sum_, answer) if c.key not in (SLIP, ORDER)]
            named = {key for cause in causes for key in cause.keys}
            for cause in causes:
                assert {*cause.keys, *cause.twins} == named, (sum_, answer)
                pairs |= {tuple(sorted((cause.key, twin))) for twin in cause.twins}
    assert ("not-lowered", "turned") in pairs  # 42 - 17 and 253 - 38 are short by five
    for first, last in pairs:
        assert words(f"mistake.{first}.name") != words(f"mistake.{last}.name")


@pytest.mark.parametrize("sum_", LESSONS, ids=str)
def test_no_mark_is_written_before_its_hand(sum_: Sum) -> None:
    """A step of the lesson ends with as many acts done as its moves tell, and never goes back."""
    done = [step for step in steps(sum_) if step.act is not Act.CHECK]
    reached = [step.done for step in script(sum_, designs.words())]
    assert reached == sorted(reached) and reached[-1] == len(done)
    before = 0
    for step in script(sum_, designs.words()):
        acts = [act.act for act in done[before : step.done]]
        hands = {Act.EXCHANGE: "fetch", Act.TAKE: "take", Act.EXCHANGE_BACK: "back"}
        for act in acts:
            assert act not in hands or hands[act] in step.cues, (step.title, act)
        before = step.done
