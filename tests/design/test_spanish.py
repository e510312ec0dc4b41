"""Spanish says one thing by one name, and speaks to a child as to a child."""

import re

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.saying import say
from kitbuilder.errors import Said
from kitbuilder.kit import phrases
from kitbuilder.kit.lesson.script import script
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.number import Sum
from kitbuilder.request.request import read_sum

OTHER_NAMES = {
    "words": r"\bcuentas\b|\b(?:una|la|esta|otra) cuenta\b|\bjuegos?\b|\bquit|hoja de trabajo"
    r"|clase que falló|(?:esa|esta|cada) clase\b|partes? largas?|Escribir;|Respuestas$",
    "said": r"\bcuentas?\b|\bjuegos?\b|hoja de registro|clases? de (?:restas|diseño)",
    "page": r"\bcuentas?\b|\bjuegos?\b|\bdeseos?\b|¿De qué clase",
}


def told(kind: str) -> dict[str, str]:
    """Return every Spanish sentence of a kind of file, a list's lines joined."""
    entries = designs.entries(kind, "es")
    return {k: v if isinstance(v, str) else "\n".join(v) for k, v in entries.items()}


@pytest.mark.parametrize("kind", OTHER_NAMES)
def test_one_thing_has_one_name(kind: str) -> None:
    other = re.compile(OTHER_NAMES[kind], re.I)
    assert [(k, text) for k, text in told(kind).items() if other.search(text)] == []


def test_a_child_is_spoken_to_as_a_child() -> None:
    asked = [text for key, text in told("words").items() if key.endswith((".asks", "_asks"))]
    assert [a for a in asked if re.search(r"\b(?:Contar|Leer|[Aa]brirlo|se escribió)\b", a)] == []


def test_nobody_asks_himself() -> None:
    assert [t for t in told("words").values() if re.search("sin pedirl|no está decidido", t)] == []


@pytest.mark.parametrize("sum_", [Sum(4002, 1768), Sum(4002, 1268), Sum(402, 168)])
def test_what_is_exchanged_first_has_its_own_article(sum_: Sum) -> None:
    said = " ".join(a.says for step in script(sum_, designs.words("es")) for a in step.asked)
    assert ("canjear un millar" if sum_.whole > 999 else "canjear una centena") in said


def test_decimals_in_a_row_are_kept_apart_by_semicolons() -> None:
    sums = ["3 − 1,47", "2,02 − 0,73", "1 − 0,5"]
    assert phrases.in_row(sums[:2]) == "3 − 1,47; 2,02 − 0,73"
    assert phrases.joined(designs.words("es"), sums) == "3 − 1,47; 2,02 − 0,73 y 1 − 0,5"
    assert phrases.joined(designs.words("es"), ["a", "b", "c"]) == "a, b y c"
    assert "3 − 1,47; 2,02 − 0,73 y" in say(
        Said("kit.no-story", option="only", sums=tuple(sums)), "es"
    )


def test_digits_that_are_written_are_no_number_with_a_comma() -> None:
    words = designs.words("es").decimal
    sum_ = read_sum("6,2 - 3,47", ",").on(words.scale)
    titles = [move.title for move in writing((sum_,), words).moves]
    assert any("Escribir 7; luego 2." in title for title in titles), titles


def test_sizes_have_the_comma_of_the_language() -> None:
    runs = (["--words", "es"], ["--words", "es", "2,02-0,73"])
    for told in (CliRunner().invoke(main, ["sizes", *run]).output for run in runs):
        assert re.search(r"\d,\d", told) and not re.search(r"\d\.\d", told)
