"""The page: its words are whole in each language, its script holds together, its policy holds."""

import re
from base64 import b64encode
from hashlib import sha256
from importlib.resources import files
from itertools import chain
from typing import Any

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.saying import LANGUAGES, sentences
from kitbuilder.kit.card_records import BACKS, STAGES
from kitbuilder.page.contract import Engine
from kitbuilder.page.packed.pack import lettered
from kitbuilder.page.packed.screen import SCRIPTS, page
from kitbuilder.page.screen_words import screen_words
from kitbuilder.page.wishes import CHOICES
from kitbuilder.request.request import PARTS

ROOM = files("kitbuilder.page") / "screen"
SCRIPT = "\n".join((ROOM / f"{name}.js").read_text("utf-8") for name in (*SCRIPTS, "inner"))
SLOT = re.compile(r"\{([a-z_]+)\}")
CONFUSING = ("vosotros", "prestad", "borrow", "me llevo")


@pytest.mark.parametrize("language", LANGUAGES)
def test_each_language_says_everything_with_the_same_slots(language: str) -> None:
    model, words = screen_words("en-GB"), screen_words(language)
    assert words.keys() == model.keys()
    for key, sentence in words.items():
        assert set(SLOT.findall(sentence)) == set(SLOT.findall(model[key])), key
        assert not any(saying in sentence.lower() for saying in CONFUSING), key


@pytest.mark.parametrize("language", LANGUAGES)
def test_one_word_for_the_tool_and_nobody_is_sent_to_another_maker(language: str) -> None:
    tables = [designs.entries(kind, language).values() for kind in ("words", "page", "said")]
    whole = " ".join(str(said) for said in chain(*tables)).lower()
    tool = "guillotina" if language.startswith("es") else "paper cutter"
    assert tool in whole
    assert not re.search("guillotine|paper trimmer|guillotina de papel|school paper", whole)
    assert not re.search("whoever made|quien hizo", whole)


BRITISH = r"\b(sums?|exchang\w*|pupils?|practis\w*|colour\w*|per cent|mend|of card|on card)\b"


def test_the_screen_speaks_american_english_as_its_pages_do() -> None:
    """Problem, regroup, student, cardstock: as the printed words of the United States have it."""
    words = {key: SLOT.sub("", said) for key, said in screen_words("en-US").items()}
    assert {key for key, said in words.items() if re.search(BRITISH, said, re.IGNORECASE)} == set()
    printed = " ".join(map(str, designs.entries("words", "en-US").values()))
    assert all(word in printed for word in ("problem", "regroup", "cardstock"))


KEPT = re.compile(r"name,sum|sums = |takes exchange|pupil-0001")
"""Heads, keys, kinds and names of files: the same in every language."""


def test_what_is_refused_and_noted_is_said_in_american_english_too() -> None:
    told = {code: KEPT.sub("", said) for code, said in sentences("en-US").items()}
    bare = {code: re.sub(r"\{[^}]*\}", "", said) for code, said in told.items()}
    british = re.compile(rf"{BRITISH}|metres?\b|pupil", re.IGNORECASE)
    assert {code for code, said in bare.items() if british.search(said)} == set()


def test_pages_are_called_on_the_screen_as_they_are_printed() -> None:
    title = "title.exchange_board"
    assert screen_words("en-US")[title] == designs.words("en-US")(title) == "Regrouping board"


def lacking(script: str) -> list[str]:
    """Return the keys that ``script`` says outright and no language has."""
    words = screen_words("en-GB")
    said = re.findall(r"\bsay\(\"([a-z_.]+)\"", script)
    counted = re.findall(r"\bsayCount\(\"([a-z_.]+)\"", script)
    return [key for key in said if key not in words] + [
        key for key in counted if f"{key}.many" not in words
    ]


def test_what_the_script_says_has_words() -> None:
    assert lacking(SCRIPT) == []


def test_a_sentence_without_words_is_found() -> None:
    assert lacking('say("desk.nothing")') == ["desk.nothing"]


def test_every_choice_has_words() -> None:
    words = screen_words("en-GB")
    for topic, choices in (
        ("part", PARTS),
        ("look", designs.names("looks")),
        ("stage", STAGES),
        ("backs", BACKS),
        ("kind", CHOICES),
        ("choose", CHOICES),
    ):
        assert [choice for choice in choices if f"{topic}.{choice}" not in words] == []


def twice(script: str) -> list[str]:
    """Return the names that ``script`` declares at its outermost level more than once."""
    declared = re.compile(r"^(?:async )?(?:function|class|const|let) ([A-Za-z_]\w*)", re.MULTILINE)
    names = declared.findall(script)
    return [name for name in names if names.count(name) > 1]


def test_the_modules_share_one_scope_without_a_clash() -> None:
    assert twice(SCRIPT) == []
    assert twice("const a = 1;\nfunction a() {}\n") == ["a", "a"]


def test_the_policy_names_the_script_and_the_style_by_hash() -> None:
    html, policy = page("", "'none'")
    for tag in ('script type="module"', "style"):
        text = re.search(rf"<{tag}>(.*?)</{tag.split()[0]}>", html, re.DOTALL)
        assert text
        digest = b64encode(sha256(text[1].encode()).digest()).decode()
        assert f"'sha256-{digest}'" in policy
    assert policy.startswith("default-src 'none'")
    assert "unsafe-inline" not in policy
    assert policy in html


def test_nothing_is_stored_or_fetched_from_elsewhere() -> None:
    for word in ("localStorage", "sessionStorage", "indexedDB", "document.cookie", "eval("):
        assert word not in SCRIPT
    assert not re.search(r"https?://(?!www\.w3\.org/)", SCRIPT)


@pytest.mark.parametrize("size", [0, 1, 12, 13, 14, 26, 1000])
def test_letters_hold_every_byte(size: int) -> None:
    data = bytes(n * 89 % 256 for n in range(size))
    text = lettered(data)
    assert not set(text) & set("<>& \n")
    letters = "".join(chr(code) for code in range(33, 127) if chr(code) not in "<>&")
    bits = sum(
        (letters.index(text[at]) + 91 * letters.index(text[at + 1])) << (at // 2 * 13)
        for at in range(0, len(text), 2)
    )
    assert bits.to_bytes(len(text) // 2 * 13 // 8 + 1, "little")[:size] == data
    assert len(text) // 2 * 13 // 8 - size <= 1


TYPED = re.compile(r"--\w|\bkitbuilder \w")
"""What only somebody at a terminal can type."""

TERMINAL = {
    *("usage.see", "told.check-sheet", "answers.telling", "pupil.only-pdf"),
    *("mini.no-class", "mini.no-mat", "choose.larger-below", "plan.no-task", "plan.lacks-column"),
    *("printer.unknown", "printer.none-saved"),
}
"""Sentences that name what is typed, and that no wish of the screen leads to."""


@pytest.mark.parametrize("language", LANGUAGES)
def test_nobody_at_the_screen_is_told_what_to_type_in_a_terminal(language: str) -> None:
    own = screen_words(language)
    assert [key for key, said in own.items() if TYPED.search(said)] == []
    typed = {code for code, said in sentences(language).items() if TYPED.search(said)}
    assert {code for code in typed - TERMINAL if f"refusal.{code}" not in own} == set()


ROWS = {"sums": [["53", "27"]]}
LONG_ROWS = {"sums": [["3045", "1582"]]}


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(
    "wishes",
    [
        {"job": "kit", "paper": "60x90mm", **ROWS},
        {"job": "kit", "paper": "a5", "more": {"unit": "18"}, **ROWS},
        {"job": "kit", "more": {"unit": "100"}, **ROWS},
        {"job": "kit", "more": {"margin": "60", "look": "bold"}, **ROWS},
        {"job": "kit", "more": {"margin": "3.333"}, **ROWS},
        {"job": "kit", "more": {"margin": "20"}, **LONG_ROWS},
        {"job": "kit", "more": {"only": ["week"]}, "sums": [["3", "1"]]},
        {"job": "kit", "sums": [["$3", "1"]]},
        {"job": "tonight", "more": {"sturdy": "fold"}, **ROWS},
        {"job": "packs", "paper": "60x90mm", "pupils": "Ada\t53 − 27"},
        {"job": "measure", "paper": "60x90mm"},
    ],
)
def test_every_refusal_is_in_the_words_of_the_screen(wishes: dict[str, Any], language: str) -> None:
    refusals = Engine().ask({"paper": "a4", "lang": language, **wishes})["refusals"]
    assert refusals
    options = "unit|margin|only|kinds|money|sturdy|backs|stage"
    for one in refusals:
        said = screen_words(language).get(f"refusal.{one['code']}", one["says"])
        assert not TYPED.search(said), said
        assert not re.search(rf"\b({options})\b (\d|\w+ or|[A-Z]|tasks)", said), said
