"""Sums in words: every story, with any sum that suits it, is plain and right."""

import re
from random import Random

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.kit.card_packs import kit_pack
from kitbuilder.kit.card_records import CardWishes
from kitbuilder.kit.stories import RANGES, STORY_KINDS, fitting, stories, story
from kitbuilder.layout.cards.answer_boxes import MIDDLE, SMALL, AnswerBox, answer_boxes
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.parts.written_columns import Ruling, added, solved_addition
from kitbuilder.number import Sum
from kitbuilder.number.written import small_ones

GRAMMAR = {
    "en": {
        "take": r"The [a-z ]+ has W [a-z]+\. Of these, P are [a-z ]+\. How many are left\?",
        "missing": r"The [a-z ]+ had W [a-z]+\. Some were ([a-z ]+); R are left\. "
        r"How many were \1\?",
        "difference": r"The ([a-z ]+) has W [a-z]+; the [a-z ]+ has P\. "
        r"How many more does the \1 have\?",
    },
    "es": {
        "take": r"En (?:el|la) [a-z ]+ hay W ([a-zñ]+)\. Se [a-zí]+n P\. ¿Cuánt(?:o|a)s quedan\?",
        "missing": r"En (?:el|la) [a-zó ]+ había W ([a-zñ]+)\. Se ([a-z]+) algun(o|a)s; quedan R\. "
        r"¿Cuánt\3s se \2\?",
        "difference": r"En ((?:el|la) [a-zó ]+) hay W ([a-zñ]+); en (?:el|la) [a-z ]+, P\. "
        r"¿Cuánt(?:o|a)s \2 más hay en \1\?",
    },
}
"""The form of each kind in each language, with W, P and R for whole, part and rest."""

FEMININE = ("semillas", "sillas", "cartas", "manzanas")


def sums(about: str) -> list[Sum]:
    random, (low, high) = Random(about), RANGES[about]
    found: list[Sum] = []
    while len(found) < 60:
        whole = random.randint(low, high)
        part = random.randint(2, whole - 2)
        found.append(Sum(whole, part))
    return found


@pytest.mark.parametrize("language", designs.names("words"))
def test_twenty_four_stories_with_sixty_sums_each(language: str) -> None:
    words = designs.words(language)
    forms = GRAMMAR[language[:2]]
    seen = set()
    for about in RANGES:
        for kind in STORY_KINDS:
            for sum_ in sums(about):
                made = story(sum_, kind, about, words)
                held = {"W": sum_.whole, "P": sum_.part, "R": sum_.rest}
                form = forms[kind]
                for letter, number in held.items():
                    form = re.sub(rf"\b{letter}\b", str(number), form)
                assert re.fullmatch(form.replace("[a-z ]", "[a-zó ]"), made.text), made.text
                # The unknown is not told, and what is told leads to it alone.
                told = [int(n) for n in re.findall(r"\d+", made.text)]
                assert made.answer not in told or made.answer in (sum_.part, sum_.rest)
                assert sorted([*told, made.answer]) == sorted(held.values())
                assert made.written.count("□") == 1
            seen.add(re.sub(r"\d+", "#", made.text))
            if language.startswith("es"):
                things = re.findall(r"\d+ (\w+s)\b", made.text)[0]
                asked = "Cuántas" if things in FEMININE else "Cuántos"
                assert asked in made.text, made.text
    assert len(seen) == 24


def test_only_numbers_that_fit_are_told() -> None:
    assert fitting(Sum(634, 258)) == (
        "books", "seeds", "buttons", "tiles", "letters", "eggs", "apples",
    )  # fmt: skip
    assert "chairs" in fitting(Sum(43, 17)) and "tiles" not in fitting(Sum(43, 17))
    assert fitting(Sum(43, 42)) == fitting(Sum(43, 1)) == ()  # one is no plural
    with pytest.raises(ValueError, match="does not fit chairs"):
        story(Sum(634, 258), "take", "chairs", designs.words())


def test_kinds_and_contents_come_in_turn() -> None:
    made = stories((Sum(43, 17), Sum(52, 24), Sum(61, 34), Sum(43, 42)), designs.words())
    assert [one.kind for one in made] == list(STORY_KINDS)
    assert made[1].written == "52 − □ = 28" and made[1].answer == 24
    assert len({one.text.split()[1] for one in made}) == 3


@pytest.mark.parametrize("language", designs.names("words"))
def test_the_key_ticks_what_each_story_asks(language: str) -> None:
    words = designs.words(language)
    sums = (Sum(43, 17), Sum(52, 24), Sum(61, 34))
    pack = kit_pack(sums, CardWishes(kinds=("stories",)), words)
    style = Style(designs.paper("a4"), words, designs.look("plain"))
    boxes = answer_boxes(pack.answers, 90, style, SMALL)
    for told, answer, box in zip(stories(sums, words), pack.answers, boxes, strict=True):
        content = box.items[0].content
        assert isinstance(content, AnswerBox)
        face = content.face
        said = [(i.rect, i.content.text) for i in face if isinstance(i.content, Line)]
        assert words(f"stories.{told.kind}") in dict(said).values()
        assert answer.written == told.written
        assert sum(item.what == "digit_box" for item in face) == 1  # the box of what is asked
        tick = next(i.rect for i in face if getattr(i.content, "name", "") == "right")
        middle = tick.y + tick.height / 2
        beside = [
            text
            for rect, text in said
            if rect.y < middle < rect.bottom and 0 <= tick.x - rect.right < 3
        ]
        assert beside == [str(told.answer)]


@pytest.mark.parametrize("language", designs.names("words"))
def test_the_key_of_a_large_story_stays_in_its_box(language: str) -> None:
    words = designs.words(language)
    sums = Sum(843, 265), Sum(732, 464), Sum(634, 258)
    pack = kit_pack(sums, CardWishes(kinds=("stories",)), words)
    style = Style(designs.paper("a4"), words, designs.look("plain"))
    for box in answer_boxes(pack.answers, 87.5, style, MIDDLE[0]):
        content = box.items[0].content
        assert isinstance(content, AnswerBox)
        edge = content.width - 1.0  # clear of the frame
        outside = [i for i in content.face if i.what != "frame" and i.rect.right > edge]
        assert outside == []


def test_the_key_of_an_addition_shows_the_sum_it_adds_up_to() -> None:
    pack = kit_pack((Sum(43, 17),), CardWishes(kinds=("additions",)), designs.words())
    (answer,) = pack.answers
    assert answer.written == "17 + 26 = 43" and not answer.asked
    assert answer.added and answer.exchanges == ("10 ones for 1 ten",)
    assert [number for _, number in answer.parts] == [17, 26]


@pytest.mark.parametrize(("language", "below"), [("en-GB", True), ("en-US", False), ("es", False)])
def test_the_key_of_an_addition_writes_the_small_one_where_it_is_usual(
    language: str, below: bool
) -> None:
    """148 + 157: ten ones make a ten, ten tens a hundred, so two small ones in all."""
    sum_ = Sum(305, 148)
    style = Style(designs.paper("a4"), designs.words(language), designs.look("plain"))
    assert small_ones(sum_) == (False, True, True)
    for block in (added(sum_, 9.0, style), solved_addition(sum_, Ruling(), 12.0, style)):
        lines = [item for item in block.items if isinstance(item.content, Line)]
        small = min(item.rect.height for item in lines)
        ones = [item for item in lines if item.rect.height == small]
        others = [item.rect.y for item in lines if item not in ones]
        assert [item.content.text for item in ones if isinstance(item.content, Line)] == ["1", "1"]
        for item in ones:
            assert item.rect.y > max(others) if below else item.rect.y < min(others)


def test_a_kit_with_tasks_and_additions_answers_both() -> None:
    pack = kit_pack((Sum(43, 17),), CardWishes(kinds=("tasks", "additions")), designs.words())
    assert [answer.added for answer in pack.answers] == [False, True]
