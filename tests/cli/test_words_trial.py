"""Words of one's own are tried on real pages, and the sentence that does not fit is named."""

from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.cli.words_trial import KINDS, PAPERS, check_fit
from kitbuilder.cli.words_trial import _fits as fits
from kitbuilder.cli.words_trial import _too_long as too_long
from kitbuilder.design import load as designs
from kitbuilder.design.load import Words
from kitbuilder.errors import RefusedError

SHIPPED = designs.names("words")


def length(entry: str | tuple[str, ...]) -> int:
    return len(entry) if isinstance(entry, str) else sum(map(len, entry))


def longest() -> Words:
    """Return words of which each is the longest of the shipped languages."""
    all_ = [designs.words(name).entries for name in SHIPPED]
    entries = {key: max((own[key] for own in all_), key=length) for key in all_[0]}
    return replace(designs.words("es"), entries=entries)


def changed(key: str, said: str) -> Words:
    words = designs.words("es")
    assert key in words.entries
    return replace(words, entries={**words.entries, key: said})


@pytest.mark.parametrize("number", range(len(PAPERS) * KINDS))
def test_pages_hold_the_longest_of_all_languages(number: int) -> None:
    assert fits(longest(), number)


def test_a_sentence_that_does_not_fit_is_named() -> None:
    # A word of 300 mm or more fits no page, wherever it stands and whatever is laid out: in a kit
    # for tonight (below: a family's kit, a class set and the printer's check).
    with pytest.raises(RefusedError, match=r"not fit its place: 'mini\.wrong'; say it shorter"):
        check_fit(changed("mini.wrong", "m" * 120), "mine.toml")


def test_sentences_of_a_family_s_kit_and_of_a_class_set_are_tried() -> None:
    assert not fits(changed("guide_pages.later", "m" * 120), 0)
    words = changed("run.check", "m" * 120)
    assert [fits(words, kind) for kind in range(2)] == [True, False]


def test_of_two_sentences_that_do_not_fit_one_is_named() -> None:
    one = changed("check_print.title", "m" * 120)
    both = replace(one, entries={**one.entries, "check_print.back": "m" * 120})
    assert too_long(both, KINDS - 1) in ("check_print.title", "check_print.back")


def test_a_command_that_prints_refuses_words_that_do_not_fit(tmp_path: Path) -> None:
    shipped = (Path(str(designs.folder())) / "words" / "es.toml").read_text("utf-8")
    heading = designs.words("es")("check_print.title")
    file = tmp_path / "mias.toml"
    file.write_text(shipped.replace(f'"{heading}"', f'"{"m" * 120}"'), "utf-8")
    args = ["kit", "--pieces", "0,0,1", "--words", str(file), "--out", str(tmp_path / "o")]
    done = CliRunner().invoke(main, args)
    assert (done.exit_code, "no cabe en su sitio: 'check_print.title'" in done.stderr) == (2, True)
    assert not (tmp_path / "o").exists()
