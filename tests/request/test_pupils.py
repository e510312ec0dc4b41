"""Pupils' packs: names as typed, rows told apart, nothing of the file outside the PDFs."""

import io
import json
import re
import sys
from itertools import product
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner
from grids import some
from pdf_lines import page_texts
from pypdf import PdfReader
from readers import typefaces

from kitbuilder.cli import main
from kitbuilder.cli.progress import progress
from kitbuilder.design import metrics
from kitbuilder.draw.canvas import Drawing
from kitbuilder.errors import RefusedError
from kitbuilder.kit.card_records import Pupil, Task
from kitbuilder.number import Sum
from kitbuilder.press.printing import Press
from kitbuilder.request.pupils import checked_name, pupils
from kitbuilder.request.request import Request, fitted_paper, read_sum

NAMES = [
    "Ada",
    "Žofie Čapková Šimůnek",
    "İpek Güneş Ağaoğlu",
    "Erdős Űrhajós",
    "Łucja Dąbrowska-Wąs",
    "Ștefan Ionuț Pârău",
    "Jānis Ķēniņš",
    "Ḥasan al-Ṭāʾir",
    "Gŵen Ŷstwyth",
    "Nguyễn Thị Ẩn Đặng Ữ",
    "Kɔfi Ɛsi Ɗanjuma Ƙasimu",
    "<b>O’Neill</b> & {name} %s",
    "=1+1",
    "Юля Γιώργος",
]


@pytest.mark.parametrize("name", NAMES)
def test_a_name_in_any_latin_spelling_is_kept(name: str) -> None:
    assert checked_name(name) == name
    assert metrics.width(name, 10) > 0


def test_a_table_may_have_spanish_heads() -> None:
    said = pupils("Resta;Nombre;Etapa\n43-17;Ada;written\n", "it", "pieces")
    assert said == pupils("sum,name,stage\n43-17,Ada,written\n", "it", "pieces")


def test_every_latin_letter_can_be_printed() -> None:
    latin = [chr(c) for a, b in ((0xC0, 0x250), (0x1E00, 0x1F00)) for c in range(a, b)]
    letters = "".join(c for c in latin if c.isalpha())
    assert metrics.unprintable(letters) == ""
    assert len(letters) > 600


def test_a_word_with_a_rare_letter_changes_typeface_whole() -> None:
    runs = metrics.runs("Ada Žofie Eva")
    assert runs == (("ABeeZee", "Ada "), ("Noto Sans", "Žofie "), ("ABeeZee", "Eva"))


def test_letters_typed_in_two_parts_are_put_together() -> None:
    assert checked_name("Z\u030cofie") == "Žofie"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is empty"),
        ("\n\n", "is empty"),
        ("name\nAda\n", "columns 'name'"),
        ("sum,name,age\n1-1,Ada,7\n", "columns 'sum, name, age'"),
        ("name,name,sum\na,b,3-1\n", "columns"),
        ("name,sum\n", "names no pupil"),
        ("name,sum\nAda,71-48\nBo,7x\n", "line 3: '7x' is not a subtraction"),
        (
            "name,sum\nAda,71-48,both\n",
            "line 2: the row has 3 cells; give it 2 at most, one under each head of the first line",
        ),
        ("name,sum\nAda\n", "line 2: the sum is missing"),
        (
            "name,sum,stage\nAda,71-48,sing\n",
            "no stage 'sing'; choose from pieces, both, drawn, written",
        ),
        (
            "name,sum,mistake\nAda,71-48,turned@left\n",
            "no mistake 'turned@left'; leave the cell empty, or choose from turned, ",
        ),
        ('name,sum\n"Ada\nLee",71-48\nBo,1-2\n', "line 2: the name holds the hidden character"),
        ("name,sum\n\n\nAda,1-2\n", "line 4: '1-2' takes out more than the whole"),
        ('name,sum\n"Ada,71-48\n', "line 2: this is not a row of a table"),
        (f"name,sum\n{'x' * 200},71-48\n", "line 2: the name has 200 letters; use at most 60"),
        ("name,sum\n,71-48\n", "line 2: the name is missing"),
        ("name,sum\nA\u202eda,71-48\n", "U+202E"),
        ("name,sum\nA\u200bda,71-48\n", "U+200B"),
        ("name,sum\nA\x07da,71-48\n", "U+0007"),
        ("name,sum\nნინო,71-48\n", "line 2: no typeface here has 'ნ' (U+10DC)"),
        ("name,sum\n李,71-48\n", "no typeface here has '李'"),
        ("name,sum\nx\u0301,71-48\n", "no typeface here has 'x\u0301' (U+0078 U+0301)"),
        ("name,sum\n" + "Ada,71-48\n" * 12_001, "more than 12000 rows"),
    ],
)
def test_a_bad_table_is_refused_in_one_sentence(text: str, says: str) -> None:
    with pytest.raises(RefusedError) as refused:
        pupils(text, "class.csv", "pieces")
    assert says in str(refused.value)
    assert "\n" not in str(refused.value)
    assert str(refused.value).isprintable()


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_rows_of_one_name_make_one_pack_in_order(mark: str, end: str) -> None:
    rows = ["Name,Sum,Stage", "Ada,634 - 258,both", "Bo,71-48", "Ada,42-17,Written", ""]
    found = pupils(end.join(rows).replace(",", mark), "class.csv", "pieces")
    assert [p.name for p in found] == ["Ada", "Bo"]
    assert [(t.sum, t.stage) for p in found for t in p.tasks] == [
        (Sum(634, 258), "both"),
        (Sum(42, 17), "written"),
        (Sum(71, 48), "pieces"),
    ]


def cards(*args: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(main, ["cards", *args])
    return result.exit_code, result.stdout, result.stderr


def test_a_pack_for_each_pupil_in_one_pdf_and_in_one_each(tmp_path: Path) -> None:
    table = tmp_path / "class.csv"
    asked = {"Ada": ["634 - 258", "71 - 48"], NAMES[1]: ["305 - 148"], NAMES[9]: ["42 - 17"]}
    rows = [f"{name},{sum_}" for name, sums in asked.items() for sum_ in sums]
    markup = NAMES[11]
    table.write_text("\ufeffname,sum\n" + "\n".join([*rows, f"{markup},90-45"]), "utf-8")
    asked[markup] = ["90-45"]
    out = tmp_path / "out"
    status, told, _ = cards("--pupils", str(table), "--each", "--out", str(out))
    assert status == 0
    assert not any(name in told for name in asked)
    files = sorted(str(path.relative_to(out)) for path in out.rglob("*") if path.is_file())
    each = [f"each/pupil-{n:04}.pdf" for n in range(1, 5)]
    assert files == ["cards.json", "cards.pdf", *each]
    record = (out / "cards.json").read_text("utf-8")
    assert list(json.loads(record)["files"]) == ["cards.pdf", *each]
    assert not any(name in record for name in asked)
    reader = PdfReader(out / "cards.pdf")
    tops = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    assert tops == ["Start here", *asked]
    for number, (name, sums) in enumerate(asked.items(), 1):
        path = out / f"each/pupil-{number:04}.pdf"
        cover, label, *_, answers = page_texts(path)
        assert f"For {name}." in " ".join(cover.split())
        label = " ".join(label.split())
        assert label.startswith(name), "the label card comes first"
        assert f"{len(sums)} sum" in label
        assert name in answers
        for typed in sums:
            sum_ = read_sum(typed)
            assert f"{sum_.whole} − {sum_.part}" in label
            assert f"left {sum_.whole - sum_.part}" in answers
        own = PdfReader(path)
        assert own.metadata is not None
        assert own.metadata.title == name
        rare = bool(metrics.missing(name.replace(" ", "")))
        families = {font.partition("-")[0] for font in typefaces(path)}
        usual = {"ABeeZee", "Fredoka", "KitSigns"}
        assert families == (usual | {"NotoSans"} if rare else usual)


def test_a_pupils_own_file_says_how_it_is_printed_and_holds_what_all_share(
    tmp_path: Path,
) -> None:
    table = tmp_path / "class.csv"
    table.write_text("name,sum\nAda,71-48\nAda,62-35\nBo,305-148\n", "utf-8")
    wish = ("--kinds", "tasks,stories,exchange", "--backs", "long-edge", "--each")
    assert cards("--pupils", str(table), *wish, "--out", str(tmp_path / "out"))[0] == 0
    for number, name in enumerate(("Ada", "Bo"), 1):
        cover, *rest = page_texts(tmp_path / f"out/each/pupil-{number:04}.pdf")
        said = " ".join(cover.split())
        for told in ("Actual size", "Print on both sides", "An adult cuts"):
            assert told in said
        assert "type 2–7" in said
        assert "2–3 Exchange cards 4–7 Cards" in said
        assert "Then fetch" in rest[0]
        assert not rest[1].strip() and not rest[5].strip(), "no back, none printed"
        other = "Bo" if name == "Ada" else "Ada"
        assert not any(other in page for page in (cover, *rest))


def test_every_page_of_a_pack_bears_the_name_and_backs_are_for_the_adult(tmp_path: Path) -> None:
    table = tmp_path / "class.csv"
    table.write_text("name,sum\nAda,71-48\nAda,62-35\n", "utf-8")
    wish = ("--kinds", "tasks,arrows,digits,record", "--backs", "long-edge", "--each")
    status, told, _ = cards("--pupils", str(table), *wish, "--out", str(tmp_path / "out"))
    assert status == 0
    assert "each/pupil-0001.pdf" in told and "in the order of the table" in told
    pages = page_texts(tmp_path / "out/cards.pdf")
    assert len([page for page in pages[1:] if page.strip()]) == 6
    assert all("Ada" in page for page in pages[1:] if page.strip())
    assert "for the child" in pages[1] and "for the child" not in pages[2]
    assert pages[2].count("for the adult") == 3, "on both backs, and at the foot"


@pytest.mark.parametrize("paper", ["a4", "a5"])
@pytest.mark.parametrize("kinds", ["tasks", "sheet,stories"])
def test_as_much_of_a_name_as_is_said_to_fit_does(paper: str, kinds: str, tmp_path: Path) -> None:
    table, name = tmp_path / "class.csv", "Maximiliana" * 5
    wish = ("--pupils", str(table), "--paper", paper, "--kinds", kinds, "--each")
    table.write_text(f"name,sum\n{name},71-48\n", "utf-8")
    status, _, refused = cards(*wish, "--out", str(tmp_path / "out"))
    found = re.search(r"its first (\d+) letters fit", refused)
    assert status == 2 and found
    most = int(found[1])
    for count, expected in ((most, 0), (most + 1, 2)):
        table.write_text(f"name,sum\n{name[:count]},71-48\n", "utf-8")
        assert cards(*wish, "--out", str(tmp_path / "out"))[0] == expected


def test_the_wide_typeface_prints_as_wide_as_it_is_measured(tmp_path: Path) -> None:
    table = tmp_path / "class.csv"
    table.write_text("name,sum\nŽižkovščák,634-258\n", "utf-8")
    assert cards("--pupils", str(table), "--out", str(tmp_path / "out"))[0] == 0
    with pdfium.PdfDocument(tmp_path / "out/cards.pdf") as document:
        page = document[1].get_textpage()
        boxes = [page.get_charbox(i, loose=True) for i in range(len("Žižkovščák"))]
    wide = (boxes[-1][2] - boxes[0][0]) * 25.4 / 72
    assert wide == pytest.approx(metrics.width("Žižkovščák", 16), abs=0.1)


def test_each_stock_of_all_packs_is_printed_in_one_go(tmp_path: Path) -> None:
    # 30 pupils with two sums each and a label: one sheet of A6 cards each; the answers together.
    rows = [f"Child {n},{sum_}" for n in range(30) for sum_ in ("634-258", "71-48")]
    table = tmp_path / "class.csv"
    table.write_text("name,sum\n" + "\n".join(rows), "utf-8")
    out = tmp_path / "out"
    assert cards("--pupils", str(table), "--kinds", "tasks,record", "--out", str(out))[0] == 0
    cover = page_texts(out / "cards.pdf")[0]
    assert all(pages in cover for pages in ("2–31", "32–61", "62–63"))
    outline = [e for e in pdfium.PdfDocument(out / "cards.pdf").get_toc() if e.level == 1]
    pages = [e.get_dest().get_index() + 1 for e in outline]
    assert pages == [page for n in range(30) for page in (2 + n, 32 + n)]


def test_the_answers_bear_the_name_on_every_page(tmp_path: Path) -> None:
    # Seven sums with their pictures fill more than a page; a pile of them can be put in order.
    table = tmp_path / "class.csv"
    sums = [f"{tens}3-{tens - 2}7" for tens in range(3, 9)] + ["403-178"]
    table.write_text("name,sum\n" + "".join(f"Ada Nimmer,{one}\n" for one in sums), "utf-8")
    assert cards("--pupils", str(table), "--kinds", "tasks", "--out", str(tmp_path / "o"))[0] == 0
    *_, first, second = page_texts(tmp_path / "o/cards.pdf")
    assert all("Answers" in text and "Ada Nimmer" in text for text in (first, second))


def test_a_name_too_wide_for_the_answers_is_refused_with_its_line(tmp_path: Path) -> None:
    """One word of 40 letters fits a label in smaller type, but no line of the answers' page."""
    table = tmp_path / "p.csv"
    table.write_text(f"name,sum\nAnna,71-48\n{'W' * 60},71-48\n")
    done = CliRunner().invoke(main, ["cards", "--pupils", str(table), "--out", str(tmp_path / "o")])
    assert done.exit_code == 2
    assert f"{table}, line 3: the name 'WWW" in done.stderr
    assert not (tmp_path / "o").exists()


def test_whole_numbers_and_decimals_of_one_table_make_packs_apart(tmp_path: Path) -> None:
    table = tmp_path / "p.csv"
    table.write_text("name,sum\nAnn,43-17\nBen,6.34-2.58\nAnn,3.2-1.4\n")
    assert cards("--pupils", str(table), "--out", str(tmp_path / "o"))[0] == 0
    whole, parts = (
        page_texts(tmp_path / "o" / name) for name in ("cards.pdf", "decimals/cards.pdf")
    )
    assert "43 − 17" in " ".join(whole)
    assert "Ben" not in " ".join(whole)
    assert all(said in " ".join(parts) for said in ("Ann", "Build 3.2", "Ben", "Build 6.34"))


def test_of_packs_apart_none_is_written_where_one_cannot_be_and_older_ones_are_told(
    tmp_path: Path,
) -> None:
    both, whole, out = tmp_path / "both.csv", tmp_path / "whole.csv", tmp_path / "o"
    both.write_text("name,sum\nAnn,43-17\nBen,6.34-2.58\n")
    whole.write_text("name,sum\nAnn,43-17\n")
    own = out / "decimals/cards.pdf"
    own.parent.mkdir(parents=True)
    own.write_bytes(b"mine")
    code, _, said = cards("--pupils", str(both), "--out", str(out))
    assert (code, [*out.iterdir()], own.read_bytes()) == (2, [own.parent], b"mine")
    assert "no earlier run made it" in said
    own.unlink()
    assert cards("--pupils", str(both), "--out", str(out))[0] == 0
    assert "packs of an earlier run stay" in cards("--pupils", str(whole), "--out", str(out))[2]


def test_a_table_from_standard_input_gives_the_same_cards(tmp_path: Path) -> None:
    text = "name,sum\nŽofie,634-258\nBo,874-523\n"
    (tmp_path / "class.csv").write_text(text, "utf-8")
    args = ["cards", "--pupils", "-", "--out", str(tmp_path / "a")]
    piped = CliRunner().invoke(main, args, input=text.encode())
    assert piped.exit_code == 0
    assert piped.stderr.startswith("Note on Standard input, line 3, 874 − 523: A sum without")
    assert cards("--pupils", str(tmp_path / "class.csv"), "--out", str(tmp_path / "b"))[0] == 0
    made = [(tmp_path / folder / "cards.pdf").read_bytes() for folder in "ab"]
    assert made[0] == made[1]


def test_a_sum_that_teaches_little_is_noted_with_its_line(tmp_path: Path) -> None:
    # Nobody is asked a sum without an exchange unawares: it was typed, so it is kept and noted.
    table = tmp_path / "class.csv"
    rows = ["Ada,71-48", *(f"Bo,{n}9-{n}1" for n in range(1, 8)), "Ada,90-90"]
    table.write_text("name,sum\n" + "\n".join(rows), "utf-8")
    status, told, noted = cards("--pupils", str(table), "--out", str(tmp_path / "out"))
    assert status == 0
    lines = noted.splitlines()
    starts = [f"Note on {table}, line {n + 2}, {n}9 − {n}1: " for n in range(1, 6)]
    assert [line.partition("A sum")[0] for line in lines[:-1]] == starts
    assert lines[-1] == "3 more sums teach little in the same ways."
    assert "Bo" not in told + noted.replace(str(table), "")


def test_a_name_too_wide_for_its_label_is_named_with_its_line(tmp_path: Path) -> None:
    table, out = tmp_path / "class.csv", tmp_path / "out"
    wide = "W" * 18
    table.write_text(f"name,sum\nAda,71-48\n{wide},71-48\n", "utf-8")
    status, _, refused = cards("--pupils", str(table), "--paper", "a5", "--out", str(out))
    assert status == 2
    assert refused == (
        f"{table}, line 3: the name {wide!r} is too wide for its place on A5: "
        "its first 14 letters fit; shorten it, or choose a larger paper.\n"
    )
    assert not out.exists()
    assert cards("--pupils", str(table), "--paper", "a4", "--out", str(out))[0] == 0


def test_a_page_too_small_for_any_card_is_not_blamed_on_a_name(tmp_path: Path) -> None:
    table = tmp_path / "class.csv"
    table.write_text("name,sum\nAda,71-48\n", "utf-8")
    args = ("--pupils", str(table), "--paper", "100x100mm", "--out", str(tmp_path / "out"))
    status, _, refused = cards(*args)
    assert status == 2
    assert "Ada" not in refused
    assert "larger paper" in refused


@pytest.mark.parametrize("press", [Press(dpi=90), Press(svg=True), Press(dxf=True)])
def test_names_go_into_pdfs_and_nowhere_else(press: Press) -> None:
    with pytest.raises(RefusedError, match="PDFs and nowhere else; leave out --cutter and --png"):
        Request((), fitted_paper("a4"), press=press, pupils=(Pupil("Ada", (Task(Sum(7, 3)),)),))


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("71-48", "--pupils", "x.csv"), "not both"),
        (("--each",), "--pupils FILE"),
        (("--kinds", "tasks,stickers"), "--kinds was 'stickers'; choose from exchange, tasks"),
        (("--stage", "sing"), "--stage was 'sing'; choose from pieces, both, drawn, written"),
        (("--backs", "glue"), "--backs was 'glue'"),
        (("--pupils", "missing.csv"), "missing.csv cannot be read"),
        (("--pupils", "bad.csv"), "bad.csv, line 3: "),
        (("--pupils", "long.csv"), "long.csv, line 3: "),
    ],
)
def test_what_cannot_be_is_said_in_one_sentence(
    args: tuple[str, ...], says: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bad.csv").write_text("name,sum\nAda,71-48\nAda,1-71\n", "utf-8")
    (tmp_path / "long.csv").write_text("name,sum\nAda,71-48\nAda,3.2-1.475\n", "utf-8")
    status, told, refused = cards(*args)
    assert (status, told) == (2, "")
    assert says in refused
    assert refused.count("\n") == 1
    assert {path.name for path in tmp_path.iterdir()} == {"bad.csv", "long.csv"}


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_a_bar_shows_on_a_terminal_only(monkeypatch: pytest.MonkeyPatch) -> None:
    drawings = [Drawing("t", 1, 1, ())] * 50
    for stream in (_Terminal(), io.StringIO()):
        monkeypatch.setattr(sys, "stderr", stream)
        assert list(progress(iter(drawings), 50, "pages")) == drawings
        assert ("Drawing pages" in stream.getvalue()) == stream.isatty()


KINDS = ("record", "exchange", "arrows", "digits", "facts", "record,arrows")


@pytest.mark.parametrize(("kinds", "paper"), some(product(KINDS, ("a4", "a5", "letter")), 2))
def test_packs_without_tasks_are_made(kinds: str, paper: str, tmp_path: Path) -> None:
    # A pack without a task or a fact has no label, and no sheet is dealt for it.
    table = tmp_path / "class.csv"
    table.write_text("name,sum\nAda,634-258\nBo,305-148\n", "utf-8")
    args = ("--pupils", str(table), "--kinds", kinds, "--paper", paper)
    assert cards(*args, "--out", str(tmp_path / "o"))[0] == 0
    assert len(page_texts(tmp_path / "o/cards.pdf")) > 1


def pack_of(count: int, tmp_path: Path) -> list[str]:
    sums = ("71-48", "82-37", "93-56", "64-28", "53-26", "81-45", "62-38", "74-19")[:count]
    table = tmp_path / "class.csv"
    table.write_text("name,sum\n" + "".join(f"Ada,{s}\nBo,{s}\n" for s in sums), "utf-8")
    out = tmp_path / f"of {count}"
    assert cards("--pupils", str(table), "--stage", "written", "--out", str(out))[0] == 0
    return page_texts(out / "cards.pdf")


def test_the_name_card_takes_no_sheet_of_its_own(tmp_path: Path) -> None:
    # Written cards stand eight on a sheet of A4: eight sums fill it, and seven leave a place.
    for count in (8, 7):
        texts = pack_of(count, tmp_path)
        assert sum(" of 7" in text or " of 8" in text for text in texts) == 2, count
    assert f"{count} sums" in "".join(texts)


def test_every_card_has_its_pupil_and_its_number(tmp_path: Path) -> None:
    text = pack_of(8, tmp_path)[1]
    assert [f"Ada · {n} of 8" in text for n in range(1, 9)] == [True] * 8


def test_a_key_stands_before_the_sums_and_each_sum_is_worked_once(tmp_path: Path) -> None:
    answers = "\n".join(t for t in pack_of(2, tmp_path) if "Answers" in t or "taken out" in t)
    assert "Ada: 1. 23 2. 45" in answers and "Bo: 1. 23 2. 45" in answers
    assert answers.count("left 23") == 1


def test_the_answers_of_forty_pupils_take_few_pages(tmp_path: Path) -> None:
    # Six of forty sums each, shared by the class: a page a pupil would be forty pages.
    sums = [f"{tens}{ones}-{tens - 2}{ones + 3}" for tens in range(3, 9) for ones in range(6)]
    rows = [f"Child {n},{sums[(n + 5 * k) % 36]}\n" for n in range(40) for k in range(6)]
    table = tmp_path / "class.csv"
    table.write_text("name,sum\n" + "".join(rows), "utf-8")
    assert cards("--pupils", str(table), "--out", str(tmp_path / "o"))[0] == 0
    texts = page_texts(tmp_path / "o/cards.pdf")
    assert 2 <= len([t for t in texts if "taken out" in t or "card by card" in t]) <= 11


def test_names_that_differ_in_a_space_of_another_kind_are_one(tmp_path: Path) -> None:
    (pack,) = pupils("name,sum\nAda\u00a0Lu,71-48\nAda  Lu,82-37\n", "class.csv", "pieces")
    assert (pack.name, len(pack.tasks)) == ("Ada Lu", 2)


def test_a_sum_of_nothing_names_its_row() -> None:
    with pytest.raises(RefusedError, match=r"^class.csv, line 3: 0 − 0 has nothing to build"):
        pupils("name,sum\nAda,71-48\nBo,0-0\n", "class.csv", "pieces")


def test_a_pupils_cards_for_own_sums_bear_the_name_as_well(tmp_path: Path) -> None:
    table = tmp_path / "class.csv"
    table.write_text("name,sum\nAda,71-48\n")
    assert cards("--pupils", str(table), "--out", str(tmp_path / "out"))[0] == 0
    dealt = page_texts(tmp_path / "out" / "cards.pdf")[1]
    assert dealt.count("Ada") == 5  # on four cards, and in the page's foot
