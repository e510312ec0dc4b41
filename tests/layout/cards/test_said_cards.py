"""Story and addition cards: bars as long as their numbers, nothing on top of anything."""

import pytest
from guards import faint_words, ink, small_type, words_apart, words_inside

from kitbuilder.design import load as designs
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.kit.card_packs import kit_pack
from kitbuilder.kit.card_records import CardWishes, StoryCard
from kitbuilder.layout.cards.fronts import front
from kitbuilder.layout.cards.packs import pack_sheets
from kitbuilder.layout.model import Item, Rect, SheetKind
from kitbuilder.layout.parts.contents import Arrow, Line, SmallPieces
from kitbuilder.number import Sum
from kitbuilder.press.printing import Press, fitted_paper

SUMS = (Sum(43, 17), Sum(254, 38), Sum(431, 257), Sum(634, 9), Sum(305, 298), Sum(62, 55))
INK = Rect(5, 5, 138, 92)


@pytest.mark.parametrize(
    ("paper", "words", "look"),
    [
        ("a4", "en-GB", "plain"),
        ("letter", "es", "spare"),
        ("a5", "es", "plain"),
        ("letter", "en-US", "bold"),
        ("a4", "es", "outline"),
    ],
)
def test_cards_in_words_are_read_at_a_glance(paper: str, words: str, look: str) -> None:
    press = Press(look=designs.look(look), words=designs.words(words))
    fitted, wish = fitted_paper(paper), CardWishes(kinds=("stories", "additions"))
    packs = (kit_pack(SUMS, wish, press.words),)
    sheets = [
        s
        for s in pack_sheets(packs, wish, press.style(fitted), 0.0)
        if s.kind == SheetKind.STORY_CARDS
    ]
    assert sheets
    for drawing in draw_pages(sheets, fitted, press):
        assert words_apart(drawing) == [] and words_inside(drawing) == []
        assert small_type(drawing) == [] and faint_words(drawing) == []
        assert ink(drawing) < 0.1


def test_a_few_of_thousands_have_a_bar_to_see() -> None:
    sums = tuple(Sum(whole, part) for whole in (9021, 8230, 7340) for part in (2, whole - 2))
    press, wish = Press(), CardWishes(kinds=("stories",))
    fitted = fitted_paper("a4")
    pack = kit_pack(sums, wish, press.words)
    sheets = list(pack_sheets((pack,), wish, press.style(fitted), 0.0))
    for drawing in draw_pages(sheets, fitted, press):
        assert words_apart(drawing) == [] and words_inside(drawing) == []


@pytest.mark.parametrize("number", range(len(SUMS)))
def test_a_bar_is_as_long_as_its_number(number: int) -> None:
    press = Press()
    pack = kit_pack(SUMS, CardWishes(kinds=("stories",)), press.words)
    card = pack.said[number]
    assert isinstance(card, StoryCard)
    face = front(card, INK, press.style(fitted_paper("a4")))
    assert face is not None
    bars = [item.rect for item in face if item.what == "bar"]
    dashed = [item.rect for item in face if isinstance(item.content, SmallPieces)]
    sum_ = card.sum
    known = {
        "take": (sum_.part, sum_.rest),
        "missing": (sum_.whole, sum_.rest, sum_.part),
        "difference": (sum_.whole, sum_.part),
    }[card.kind]
    shown = [rect.width for rect in (*bars, *dashed)]
    assert [round(w * sum(known) / sum(shown)) for w in shown] == list(known)
    assert bool(dashed) is (card.kind != "difference")
    assert any(isinstance(item.content, Arrow) for item in face) is (card.kind != "missing")
    assert _digits(face, bars, sum_, card.kind)
    assert all(INK.holds(item.rect, 0.01) for item in face)


def _digits(face: tuple[Item, ...], bars: list[Rect], sum_: Sum, kind: str) -> bool:
    """Whether the numbers that are known stand by the bars, and no other."""
    top = min(rect.y for rect in bars) - 8
    said = {
        item.content.text
        for item in face
        if isinstance(item.content, Line)
        and item.rect.y > top
        and (item.content.text.isdigit() or item.content.text == "?")
    }
    rest = sum_.rest if kind == "missing" else sum_.part
    return said == {str(sum_.whole), str(rest), "?"}
