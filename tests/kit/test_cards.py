"""Cards as an independent reader of the PDF sees them: what each one says, front and back."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2 as pdfium
import pytest
from grids import each
from pdf_lines import MM

from kitbuilder.design import load as designs
from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.kit import phrases
from kitbuilder.kit.card_packs import answer, note
from kitbuilder.kit.card_records import BACKS, Backs, CardWishes, FactPack, Stage, TaskCard
from kitbuilder.layout.cards.deal import CardFace
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.contents import Line, SmallPieces
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.habits import HABITS
from kitbuilder.number.scale import HUNDREDTHS
from kitbuilder.pipeline import Built, build
from kitbuilder.request.request import Request, fitted_paper, read_sum

SUMS = tuple(read_sum(text) for text in ("42-17", "634 - 258", "305 - 148", "207 - 9", "90 - 45"))

Make = Callable[..., tuple[Built, pdfium.PdfDocument]]


@pytest.fixture(scope="module")
def make(tmp_path_factory: pytest.TempPathFactory) -> Make:
    """Build cards, each different request once, and open their PDF."""
    made: dict[Request, tuple[Built, pdfium.PdfDocument]] = {}

    def build_once(wishes: CardWishes, paper: str = "a4", sums: tuple[Sum, ...] = SUMS) -> object:
        request = Request(sums, fitted_paper(paper), parts=("cards",), cards=wishes, name="cards")
        if request not in made:
            built = build(request, tmp_path_factory.mktemp("cards"))
            made[request] = (built, pdfium.PdfDocument(built.written.files[0]))
        return made[request]

    return build_once  # type: ignore[return-value]


def said(document: pdfium.PdfDocument, page: int, rect: Rect) -> str:
    """Return the words inside ``rect`` (mm from the top left), runs of white space as one."""
    height = document[page].get_height()
    text = (
        document[page]
        .get_textpage()
        .get_text_bounded(
            rect.x / MM, height - rect.bottom / MM, rect.right / MM, height - rect.y / MM
        )
    )
    return " ".join(text.split())


def placed(built: Built, what: str) -> list[tuple[int, Item, CardFace]]:
    """Return page index, item and content of every card side called ``what``."""
    return [
        (page, item, item.content)
        for page, sheet in enumerate(built.laid.sheets)
        for item in sheet.items
        if item.what == what and isinstance(item.content, CardFace)
    ]


@pytest.mark.parametrize(
    ("stage", "paper"), each(("pieces", "both", "written"), ("a4", "letter", "a3"))
)
def test_each_front_asks_its_sum_and_never_tells(make: Make, stage: Stage, paper: str) -> None:
    built, document = make(CardWishes(stage=stage, kinds=("tasks",)), paper)
    fronts = placed(built, "task_card")
    assert [f.card.sum for _, _, f in fronts if isinstance(f.card, TaskCard)] == list(SUMS)
    for (page, item, _), sum_ in zip(fronts, SUMS, strict=True):
        text = said(document, page, item.rect)
        heads = ["H", "T", "O"][-sum_.places :]
        if stage == "written":
            # whole and part, digit by digit, below the headings; the sign before the part
            digits = [*str(sum_.whole), *str(sum_.part), "−"]
            blanks = ["check", "+", "="] if "check" in text else []  # where there is room
            assert sorted(text.split()) == sorted([*heads, *digits, *blanks])
            continue
        swap, check = "Exchange if you must.", "Push together to check."
        if stage == "both":  # beside columns there is room for few words
            swap, check = "Exchange.", "Push together."
        asked = (
            f"{sum_.whole} − {sum_.part} Build {sum_.whole}. Take out {sum_.part}. "
            f"{swap} What is left? {check}"
        )
        empty = sorted([*heads, "−"]) if stage == "both" else []
        assert text.startswith(asked)
        assert sorted(text.removeprefix(asked).replace(" ", "")) == empty


SEEN = 110
"""Squares of a unit that a picture of a thousand covers: its top, and ten for the layers."""


@pytest.mark.parametrize(
    ("stage", "backs"),
    each(("pieces", "both", "written"), ("long-edge", "short-edge", "fold")),
)
def test_each_back_tells_its_sum(make: Make, stage: Stage, backs: Backs) -> None:
    sums = (*SUMS, Sum(4021, 1356)) if stage == "written" else SUMS
    built, document = make(CardWishes(stage=stage, backs=backs, kinds=("tasks",)), sums=sums)
    found = placed(built, "task_card_back")
    assert len(found) == len(sums)
    for page, item, face in found:
        assert isinstance(face.card, TaskCard)
        whole, part = face.card.sum.whole, face.card.sum.part
        text = said(document, page, item.rect)
        assert f"taken out {part}" in text
        assert f"left {whole - part}" in text
        assert f"{whole - part} + {part} = {whole}" in text
        # both parts lie there as pieces; of a folded thousand its top and its edges are seen
        assert values(face.face) == [n // 1000 * SEEN + n % 1000 for n in (part, whole - part)]


def values(items: tuple[Item, ...]) -> list[int]:
    """Return the numbers that the pictures of pieces show, from the top down."""
    found: dict[float, int] = {}
    for item in items:
        if isinstance(item.content, SmallPieces):
            area = sum(r.width * r.height for r in item.content.rects)
            row = round(item.rect.y, 3)
            found[row] = found.get(row, 0) + round(area / item.content.unit**2)
    return list(found.values())


def test_every_card_of_a_pack_has_one_size_and_one_ink_area(make: Make) -> None:
    for backs in BACKS:
        built, _ = make(CardWishes(stage="both", backs=backs, kinds=("tasks",)))
        sides = [*placed(built, "task_card"), *placed(built, "task_card_back")]
        sizes = {(round(i.rect.width, 3), round(i.rect.height, 3)) for _, i, _ in sides}
        inks = {(round(f.ink.width, 3), round(f.ink.height, 3)) for _, _, f in sides}
        assert sizes == {(148.5, 98.5)}, "half of half an A4 above its foot"
        assert len(inks) == 1


@pytest.mark.parametrize("name", designs.names("looks"))
def test_what_a_child_reads_has_an_x_height_of_5_mm(name: str) -> None:
    # Wilkins et al. 2009, J. Res. Reading 32:402-412 (read): 7 to 9 year olds read it faster
    style = Style(designs.paper("a4"), look=designs.look(name))
    task = _task(Sum(634, 258), "both")
    lines = [p.content for p in CardFace(task, Rect(0, 0, 250, 190), style).face]
    sizes = [part.size for part in lines if isinstance(part, Line)]
    assert len(sizes) > 8
    assert all(metrics.x_height(size) >= 5 for size in sizes)


def _task(sum_: Sum, stage: Stage) -> TaskCard:
    from kitbuilder.kit.card_packs import task_card
    from kitbuilder.kit.card_records import Task

    return task_card(Task(sum_, stage), CardWishes(backs="fold"), designs.words())


def test_the_adults_sheet_works_each_sum(make: Make) -> None:
    built, document = make(CardWishes(kinds=("tasks",)))
    boxes = [
        (page, item.rect)
        for page, sheet in enumerate(built.laid.sheets)
        for item in sheet.items
        if item.what == "answer"
    ]
    assert len(boxes) == len(SUMS)
    for (page, rect), sum_ in zip(boxes, SUMS, strict=True):
        whole, part = sum_.whole, sum_.part
        text = said(document, page, rect)
        assert f"{whole} − {part}" in text
        assert f"left {whole - part}" in text
        assert f"taken out {part}" in text
        # smaller from larger comes first wherever a column is short: the gap in every column
        columns = zip(f"{whole:03}", f"{part:03}", strict=True)
        turned = int("".join(str(abs(int(a) - int(b))) for a, b in columns))
        assert str(turned) in text.split()
        assert "smaller from larger" in text
        assert 1 <= text.count("“") <= 3


def test_wrong_answers_stand_only_on_the_adults_sheet(make: Make) -> None:
    built, document = make(CardWishes(kinds=("tasks",), backs="short-edge"))
    words = designs.words()
    for what in ("task_card", "task_card_back"):
        for page, item, face in placed(built, what):
            assert isinstance(face.card, TaskCard)
            text = said(document, page, item.rect)
            for wrong in answer(face.card.sum, words).wrong:
                assert wrong.asks not in text
                assert str(wrong.answer) not in text.split()


@pytest.mark.parametrize("language", designs.names("words"))
def test_every_foreseen_habit_has_a_name_and_a_question_that_tells_nothing(language: str) -> None:
    words = designs.words(language)
    told = [words(f"place.{place}") for place in ("ones", "tens", "hundreds")]
    names = [words(f"mistake.{habit.key}.name") for habit in HABITS]
    assert len(set(names)) == len(names), "two mistakes, two names"
    for habit in HABITS:
        asked = words(f"mistake.{habit.key}.asks", whole="")
        assert asked.endswith(("?", "."))
        assert not any(c.isdigit() for c in asked)
        assert not any(place in asked for place in told)


@pytest.mark.parametrize(("pack", "count"), [("crossing-ten", 36), ("ten-and-crossing", 45)])
def test_small_facts_on_cards_with_true_ten_frames(make: Make, pack: FactPack, count: int) -> None:
    # 36 facts with whole 11 to 18, 45 with whole 10 to 18; part and rest of one digit (computed)
    built, document = make(CardWishes(kinds=("facts",), facts=pack, backs="long-edge"), sums=())
    fronts, backs = placed(built, "fact_card"), placed(built, "fact_card_back")
    least = 19 - 9 if pack == "ten-and-crossing" else 11
    facts = [(w, p) for w in range(least, 19) for p in range(1, 10) if 1 <= w - p <= 9]
    assert len(facts) == len(fronts) == len(backs) == count
    for (page, item, _), (whole, part) in zip(fronts, facts, strict=True):
        assert said(document, page, item.rect).startswith(f"{whole} − {part} ")
    for (page, item, _), (whole, part) in zip(backs, facts, strict=True):
        fact = f"{whole} − {part} = {whole - part}"
        first = whole - 10
        steps = f"{whole} − {first} = 10 10 − {part - first} = {whole - part} {fact}"
        assert said(document, page, item.rect) == (steps if first else fact)
    frame = next(p for p in fronts[0][2].face if p.what == "frames")
    assert isinstance(frame.content, SmallPieces)
    cells = frame.content.rects
    assert len(cells) == 20
    for ten in (cells[:10], cells[10:]):
        # a true ten-frame stands: two ones of 10 mm across, five down
        across = max(c.right for c in ten) - min(c.x for c in ten)
        down = max(c.bottom for c in ten) - min(c.y for c in ten)
        assert (across, down) == pytest.approx((20, 50))


def test_a_wrong_answer_names_two_mistakes_that_give_it() -> None:
    wrong = answer(Sum(300, 147, HUNDREDTHS), designs.words("en-GB").counting(2)).wrong[0]
    assert wrong.name == "the lone digit brought down"
    assert wrong.names == "the lone digit brought down; also: smaller from larger"


def test_cards_that_a_child_could_not_read_are_refused(tmp_path: Path) -> None:
    from kitbuilder.errors import RefusedError

    request = Request(SUMS, fitted_paper("a4", 60), parts=("cards",), cards=CardWishes())
    with pytest.raises(RefusedError, match=r"too small for|do(es)? not fit"):
        build(request, tmp_path / "out")
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("sum_", "key"),
    [
        (Sum(40, 0), "answers.part_zero_note"),
        (Sum(71, 71), "answers.part_whole_note"),
        (Sum(78, 25), "answers.no_exchange_note"),
        (Sum(71, 70), "answers.no_exchange_note"),  # 1 and 0: neither part is empty
        (Sum(143, 28), "answers.alike_note"),  # both give 125
        (Sum(321, 64), None),  # 1 ten is short of 6 by 5, yet the two give 343 and 367
        (Sum(71, 48), None),
        (Sum(40, 1), None),  # a part of 1 still exchanges
        (Sum(40, 39), None),  # and so does a rest of 1
    ],
    ids=str,
)
def test_a_sum_that_teaches_little_is_noted(sum_: Sum, key: str | None) -> None:
    words = designs.words()
    assert note(sum_) == key
    told = answer(sum_, words)
    assert told.note == (words(key, answer=125) if key else "")
    if not key:
        assert told.exchanges[0].startswith("1 ten")


@pytest.mark.parametrize(
    "wrong", [{"stage": "x"}, {"backs": "x"}, {"facts": "x"}, {"kinds": ("x",)}, {"kinds": ()}]
)
def test_wishes_for_cards_are_checked_when_they_are_made(wrong: dict[str, Any]) -> None:
    (field,) = wrong
    with pytest.raises(ValueError, match=rf"CardWishes\.{field} is"):
        CardWishes(**wrong)


def test_a_list_is_said_with_commas_and_one_and() -> None:
    words = designs.words()
    said = [phrases.joined(words, ["a", "b", "c", "d"][:n]) for n in range(5)]
    assert said == [words("list.nothing"), "a", "a and b", "a, b and c", "a, b, c and d"]
