"""What the program says: a sentence for every code in every language, each slot filled."""

import re
from pathlib import Path

import pytest
import sentences
from sentences import Use, all_uses, faults, slots_of, uses

from kitbuilder.design import load as designs
from kitbuilder.design.saying import DECIMALS, LANGUAGES, language_of, say
from kitbuilder.design.saying import sentences as known
from kitbuilder.errors import RefusedError, Said

HELPERS = {"number.point", "list.and", "list.or"}

BRITISH = re.compile(r"colour|metre|grey\b|per cent\b|centre", re.IGNORECASE)


def without_slots(language: str, code: str) -> str:
    return re.sub(r"\{[^}]*\}", "", known(language)[code])


def helpers() -> set[str]:
    return HELPERS | {code for code in known("en-GB") if code.startswith("count.")}


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_code_has_its_sentence_and_every_sentence_is_said(language: str) -> None:
    assert faults(known(language), all_uses(), helpers()) == []


def test_a_code_without_its_sentence_is_found() -> None:
    used = tuple(uses('RefusedError("a.b", sum=1)\nSaid("a.c", option="x", field="y")', "f.py"))
    assert used == (
        Use("f.py:1", "a.b", frozenset({"sum"})),
        Use("f.py:2", "a.c", frozenset({"option"})),
    )
    table = {"a.b": "{sum:typed} {more}", "a.d": "never"}
    assert faults(table, used, set()) == [
        "f.py:1: a.b is given ['sum'] and its sentence has ['more', 'sum']",
        "f.py:2: a.c has no sentence",
        "a.d is never said",
    ]


@pytest.mark.parametrize("source", ['RefusedError(f"no {x}")', "Said(code)", 'Said("a", **x)'])
def test_a_code_that_cannot_be_read_is_found(source: str) -> None:
    with pytest.raises(ValueError, match=r"f\.py:1: "):
        list(uses(source, "f.py"))


@pytest.mark.parametrize("language", LANGUAGES)
def test_forms_of_slots_are_known_and_the_same_in_every_language(language: str) -> None:
    form = re.compile(r"\{([a-z_]+):([a-z-]+)\}")
    for code, sentence in known(language).items():
        for _, name in form.findall(sentence):
            right = {"typed", "option", "and", "or", "also", *DECIMALS}
            assert name in right or f"count.{name}-one" in known(language), code
        assert slots_of(sentence) == slots_of(known("en-GB")[code])


def test_americans_read_american() -> None:
    british = {code for code in known("en-GB") if BRITISH.search(without_slots("en-GB", code))}
    assert british
    assert [code for code in british if BRITISH.search(without_slots("en-US", code))] == []


@pytest.mark.parametrize(
    ("tag", "language"),
    [
        ("es-MX", "es-MX"),
        ("es-US", "es-MX"),
        ("es-AR", "es"),
        ("en-us", "en-US"),
        ("en-IN", "en-GB"),
        ("cy", "en-GB"),
    ],
)
def test_a_language_is_answered_in_the_nearest(tag: str, language: str) -> None:
    assert language_of(tag) == language


CELLS = (
    r"coma entre|comas entre|o punto y coma|pieces\.|answers\.none|sin punto ni coma"
    "|comas, los tableros|,19,18"
)
"""Commas between cells or numbers of any language, in sentences or by their keys."""


@pytest.mark.parametrize("kind", ["words", "said", "page"])
def test_spanish_with_a_point_says_no_comma_of_decimals(kind: str) -> None:
    told = {f"{key} {said}" for key, said in designs.entries(kind, "es-MX").items()}
    held = {one for one in told if re.search(r"\d,\d|\bcoma\b", one)}
    assert {one for one in held if not re.search(CELLS, one)} == set()


def test_slots_are_said_as_the_sentence_asks() -> None:
    choice = Said(
        "option.choice", option="mat", given="\x1b[31m" + "x" * 99, known=("two", "three")
    )
    quoted = "'\\x1b[31m" + "x" * 32 + "...'"
    assert say(choice) == f"--mat was {quoted}; choose from two, three."
    assert say(choice, name=lambda _: "The mat").startswith("The mat was ")
    assert say(Said("told.pages", count=1, card=0, paper=1)).startswith("1 page: 0 on card")
    assert say(Said("press.kerf", option="kerf", given=2.5, most=2.0), "es").startswith(
        "--cutter era 2,5 mm; dé de 0 a 2 mm"
    )
    cost = Said("told.cost", cost=0.8, each=0.05)
    assert say(cost) == "The sheets cost 0.80 at 0.05 each."
    assert say(cost, "es") == "Las hojas cuestan 0,80, a 0,05 cada una."
    wrote = Said("told.wrote", files=("a", "b", Path("/" + "c" * 300)))
    assert say(wrote) == f"Wrote a, b and /{'c' * 39}...{'c' * 70}."
    assert say(Said("told.wrote", files=("only",)), "es") == "Se escribió only."


def test_a_refusal_tells_a_screen_its_field_and_row() -> None:
    error = RefusedError("option.range", option="kits", given=0, least=1, most=9)
    assert (error.field, error.code, error.slots["most"]) == ("kits", "option.range", 9)
    inside = error.at(Path("class.csv"), row=3)
    assert (inside.row, inside.code) == (3, "option.range")
    assert str(inside) == "class.csv, line 3: --kits was 0; choose a number from 1 to 9."
    assert say(inside.whole, "es").startswith("class.csv, línea 3: --kits era 0;")


def test_the_source_is_where_the_codes_are_read() -> None:
    assert (sentences.PACKAGE / "errors.py").is_file()
    assert len(all_uses()) > 200


@pytest.mark.parametrize("code", [c for c, text in known("es").items() if "{where}" in text])
def test_no_spanish_sentence_joins_a_preposition_to_the_article_of_a_place(code: str) -> None:
    # A place says its own article with a capital: "El archivo de palabras es".
    assert not re.search(r"\b([Aa]|[Dd]e) \{where\}", known("es")[code])
