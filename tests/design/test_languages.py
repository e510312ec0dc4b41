"""Every language builds whole kits, nothing overflowing, and a words file is checked by name."""

import json
import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from itertools import product
from pathlib import Path
from typing import cast

import pytest
from click.testing import CliRunner
from grids import each, some
from pdf_lines import page_texts
from ready_made import ready_made

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.kit.card_records import KINDS
from kitbuilder.kit.course.plan_words import plan_sums
from kitbuilder.kit.records import CutWish, EstimateWish
from kitbuilder.layout.estimate import estimate
from kitbuilder.layout.model import SheetKind
from kitbuilder.layout.pages.print_run import run_sheets
from kitbuilder.number import Sum
from kitbuilder.number.course.course_outline import Span
from kitbuilder.number.course.schedule import PlanWish, plan
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, fitted_paper


@pytest.mark.parametrize(
    ("words", "paper", "says"),
    [
        ("en-US", "letter", "Regroup 1 ten as 10 ones."),
        ("es", "a4", "Canjear 1 decena por 10 unidades."),
        ("es", "letter", "¿Bastan las unidades?"),
    ],
)
def test_a_kit_in_each_language(words: str, paper: str, says: str, tmp_path: Path) -> None:
    args = ["kit", "--words", words, "--paper", paper, "--out", str(tmp_path)]
    assert CliRunner().invoke(main, args).exit_code == 0
    text = " ".join(" ".join(page_texts(tmp_path / "kit.pdf")).split())  # lines wrap
    assert says.lower() in text.lower()
    assert "exchange" not in text.lower()  # the word in England; regroup in the United States
    record = json.loads((tmp_path / "kit.json").read_text())
    assert record["language"] == words
    # "Print only this page" comes before the check of its size, which must stand on it
    assert [sheet["kind"] for sheet in record["sheets"]].count("cover") == 1


@pytest.mark.parametrize(
    ("paper", "words"), some(product(("a4", "letter", "a5"), designs.names("words")), 2)
)
def test_no_title_on_the_cover_is_cut_short(paper: str, words: str, tmp_path: Path) -> None:
    # A cover's rows are longest where pieces and cards are printed on both sides.
    args = ["kit", "--words", words, "--paper", paper, "--backs", "short-edge", "--sturdy", "backs"]
    args += ["--kinds", ",".join(KINDS), "--only", "pieces,cards", "71-48"]
    assert CliRunner().invoke(main, [*args, "--out", str(tmp_path)]).exit_code == 0
    assert not any("…" in text for text in page_texts(tmp_path / "kit.pdf"))


def test_american_words_bring_letter_paper(tmp_path: Path) -> None:
    args = ["kit", "--pieces", "0,0,3", "--words", "en-US", "--out", str(tmp_path)]
    assert CliRunner().invoke(main, args).exit_code == 0
    record = json.loads((tmp_path / "kit.json").read_text())
    assert record["paper"]["name"] == "Letter"


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('nothing = "nada"', 'nothing = "nada"\nextra = "x"', "holds 'list.extra'"),
        ('nothing = "nada"', "", "lacks 'list.nothing'"),
        ('build = "Formar {whole}."', 'build = "Formar."', r"lacks \{whole\} in 'task.build'"),
        ('build = "Formar {whole}."', 'build = "{whole}{x}"', r"has \{x\} in 'task.build'"),
        ('"Poner {whole}.", ', "", "has 2 lines in 'fact.hint'; there must be 3"),
        # inches stand beside centimetres only
        ('build = "Formar {whole}."', 'build = "{whole}{inches}"', r"has \{inches\} in 'task.b"),
        # what stands in one line is not filled in another of the list
        ('"Formar {rest}.", ', '"Formar {part} y {rest}.", ', r"\{part\} in line 2 of"),
        ('["Formar {part}.", ', '["Formar.", ', r"lacks \{part\} in line 1 of 'addition.lines'"),
        ('bank_card = "', 'bank_card = ["a"]\nx = "', "'cover.x', which is never said"),
        (
            'nothing = "nada"',
            'nothing = ["nada"]',
            "has 'list.nothing' in another form; give words",
        ),
        ('"aquí encaja una tarjeta bancaria"', '""', "says nothing in 'cover.bank_card'"),
        ('= "aquí encaja', '= "aquí {encaja', "brace that belongs to no slot in 'cover.bank_"),
        ('= "aquí encaja', '= "aquí \U00012000', "has '\U00012000' in 'cover.bank_card'"),
    ],
)
def test_a_words_file_is_checked_by_name(old: str, new: str, says: str, tmp_path: Path) -> None:
    text = (Path(designs.__file__).parents[2] / "designs/words/es.toml").read_text("utf-8")
    assert old in text
    file = tmp_path / "mine.toml"
    file.write_text(text.replace(old, new, 1), "utf-8")
    with pytest.raises(RefusedError, match=says):
        designs.words(str(file))


def test_decimals_are_written_as_the_language_does() -> None:
    said = [phrases.number(designs.words(name), 9.5) for name in ("en-GB", "es")]
    assert said == ["9.5", "9,5"]
    assert phrases.number(designs.words("es"), 1234.5, 2) == "1234,50"


@pytest.mark.parametrize(
    ("words", "paper"), [("en-GB", "a4"), ("es", "letter")]
)  # the words trial draws class sets and kits for tonight on both papers in every language
def test_class_sets_and_mini_kits_fit_in_every_language(words: str, paper: str) -> None:
    """Draw every page: drawing fails where words leave the page or run into each other."""
    press, fitted = Press(words=designs.words(words)), fitted_paper(paper)
    plan_ = plan(PlanWish(Span(2, 5, date(2027, 1, 11)))).tasks
    sums, many = first_wishes().sums, CutWish(15, spares=5)
    full = EstimateWish(4.5, 200, 0.12)
    for request in (
        Request(sums, fitted, press=press, cutting=many, estimate=full),
        Request(plan_sums(plan_), fitted, press=press, plan=plan_, parts=("guide",)),
        Request((Sum(98, 89),), fitted, press=press, mini=True),
    ):
        kit = held(request)
        laid = laid_out(kit, request)
        takes = estimate(laid.sheets, [900.0] * len(laid.sheets), 1, full)
        run = run_sheets(kit, laid.sheets, laid.cutting, many, takes, press.style(fitted))
        list(draw_pages((*run, *laid.sheets), fitted, press))
        if request.mini:
            assert len(laid.sheets) <= 4


@pytest.mark.parametrize(("words", "paper"), each(designs.names("words"), ("letter", "a4")))
def test_no_page_of_the_guide_runs_over(words: str, paper: str) -> None:
    """A page each: when to write, and when an answer is wrong."""
    assert [sheet.kind for sheet in ready_made(paper, words)].count(SheetKind.GUIDE) == 2


@pytest.mark.parametrize("kind", ["words", "said", "page"])
def test_american_english_holds_only_what_differs(kind: str) -> None:
    own, british = (
        tomllib.loads((designs.folder() / kind / f"{name}.toml").read_text("utf-8"))
        for name in ("en-US", "en-GB")
    )
    assert own["over"] == "en-GB"
    assert _shared(own, british) == []


def _shared(own: Mapping[str, object], model: Mapping[str, object]) -> list[str]:
    """Return the keys of ``own`` that say what ``model`` says."""
    found: list[str] = []
    for key, said in own.items():
        usual = model.get(key)
        if isinstance(said, dict) and isinstance(usual, dict):
            found += _shared(said, usual)
        elif said == usual:
            found.append(key)
    return found


MATERIAL = re.compile(
    r"^card [·:]|\b(?:of|load|no|on|thin) card\b(?! \d)|\bcard (?:first|of)\b", re.I
)
"""Card to print on, not a card."""


def test_american_english_says_problem_and_cardstock() -> None:
    british, american = (designs.entries("words", name) for name in ("en-GB", "en-US"))
    for said, seen in ((british, True), (american, False)):
        told = [re.sub(r"\{\w*\}", "", text) for entry in said.values() for text in spoken(entry)]
        for pattern in (re.compile(r"\bsums?\b", re.I), MATERIAL):
            assert any(map(pattern.search, told)) is seen, [t for t in told if pattern.search(t)]


def spoken(entry: object) -> Iterator[str]:
    """Yield the sentences of an entry."""
    yield from (entry,) if isinstance(entry, str) else map(str, cast(Iterable[object], entry))


@pytest.mark.parametrize("name", designs.names("words"))
def test_what_adults_read_is_said_in_plain_words(name: str) -> None:
    hard = re.compile(
        r"\bone out\b|off by one|its own way|not settled|falla por uno", re.IGNORECASE
    )
    said = (designs.folder() / "words" / f"{name}.toml").read_text("utf-8")
    assert hard.findall(said) == []
