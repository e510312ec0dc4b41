"""Pupils' packs: names as typed, rows told apart, nothing of the file outside the PDFs."""

import io
import sys
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner
from pdf_lines import page_texts
from pypdf import PdfReader

from kitbuilder import measure
from kitbuilder.bind.pdf import embedded
from kitbuilder.cli import main
from kitbuilder.cli.progress import progress
from kitbuilder.draw.canvas import Drawing
from kitbuilder.errors import RefusedError
from kitbuilder.number import Sum
from kitbuilder.pupils import checked_name, pupils
from kitbuilder.request import read_sum

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
    assert measure.width(name, 10) > 0


def test_every_latin_letter_can_be_printed() -> None:
    latin = [chr(c) for a, b in ((0xC0, 0x250), (0x1E00, 0x1F00)) for c in range(a, b)]
    letters = "".join(c for c in latin if c.isalpha())
    assert measure.unprintable(letters) == ""
    assert len(letters) > 600


def test_a_word_with_a_rare_letter_changes_typeface_whole() -> None:
    runs = measure.runs("Ada Žofie Eva")
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
        ("name,sum\nAda,71-48,both\n", "line 2: there are 3 cells; there must be 2"),
        ("name,sum\nAda\n", "line 2: there are 1 cells"),
        ("name,sum,stage\nAda,71-48,sing\n", "no stage 'sing'; choose from build, both, written"),
        ('name,sum\n"Ada\nLee",71-48\nBo,1-2\n', "line 2: the name holds the hidden character"),
        ("name,sum\n\n\nAda,1-2\n", "line 4: '1-2' takes out more than the whole"),
        ('name,sum\n"Ada,71-48\n', "line 2, is not a row of a table"),
        (f"name,sum\n{'x' * 200},71-48\n", "line 2: the name has 200 letters; use at most 60"),
        ("name,sum\n,71-48\n", "line 2: the name is missing"),
        ("name,sum\nA\u202eda,71-48\n", "U+202E"),
        ("name,sum\nA\u200bda,71-48\n", "U+200B"),
        ("name,sum\nA\x07da,71-48\n", "U+0007"),
        ("name,sum\nნინო,71-48\n", "line 2: no typeface here has 'ნ' (U+10DC)"),
        ("name,sum\n李,71-48\n", "no typeface here has '李'"),
        ("name,sum\nx\u0301,71-48\n", "no typeface here has 'x\u0301' (U+0078 U+0301)"),
        ("name,sum\n" + "Ada,71-48\n" * 20_001, "more than 20000 rows"),
    ],
)
def test_a_bad_table_is_refused_in_one_sentence(text: str, says: str) -> None:
    with pytest.raises(RefusedError) as refused:
        pupils(text, "class.csv", "build")
    assert says in str(refused.value)
    assert "\n" not in str(refused.value)
    assert str(refused.value).isprintable()


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_rows_of_one_name_make_one_pack_in_order(mark: str, end: str) -> None:
    rows = ["Name,Sum,Stage", "Ada,634 - 258,both", "Bo,71-48,", "Ada,42-17,Written", ""]
    found = pupils(end.join(rows).replace(",", mark), "class.csv", "build")
    assert [p.name for p in found] == ["Ada", "Bo"]
    assert [(t.sum, t.stage) for p in found for t in p.tasks] == [
        (Sum(634, 258), "both"),
        (Sum(42, 17), "written"),
        (Sum(71, 48), "build"),
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
    assert files == ["cards.pdf", *(f"each/pupil-{n:04}.pdf" for n in range(1, 5))]
    reader = PdfReader(out / "cards.pdf")
    tops = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    assert tops == ["Start here", *asked]
    for number, (name, sums) in enumerate(asked.items(), 1):
        path = out / f"each/pupil-{number:04}.pdf"
        label, *_, answers = page_texts(path)
        label = " ".join(label.split())
        assert label.startswith(name), "the label card comes first"
        assert f"{len(sums)} sum" in label
        assert name in answers
        for typed in sums:
            sum_ = read_sum(typed)
            assert f"{sum_.whole} − {sum_.part}" in label
            assert f"left: {sum_.whole - sum_.part}" in answers
        own = PdfReader(path)
        assert own.metadata is not None
        assert own.metadata.title == name
        rare = bool(measure.missing(name.replace(" ", "")))
        families = {font.partition("-")[0] for font in embedded(own)}
        assert families == ({"ABeeZee", "NotoSans"} if rare else {"ABeeZee"})


def test_the_wide_typeface_prints_as_wide_as_it_is_measured(tmp_path: Path) -> None:
    table = tmp_path / "class.csv"
    table.write_text("name,sum\nŽižkovščák,634-258\n", "utf-8")
    assert cards("--pupils", str(table), "--out", str(tmp_path / "out"))[0] == 0
    with pdfium.PdfDocument(tmp_path / "out/cards.pdf") as document:
        page = document[1].get_textpage()
        boxes = [page.get_charbox(i, loose=True) for i in range(len("Žižkovščák"))]
    wide = (boxes[-1][2] - boxes[0][0]) * 25.4 / 72
    assert wide == pytest.approx(measure.width("Žižkovščák", 16), abs=0.1)


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("71-48", "--pupils", "x.csv"), "not both"),
        (("--each",), "--pupils FILE"),
        (("--kinds", "tasks,stickers"), "--kinds was 'stickers'; choose from exchange, tasks"),
        (("--stage", "sing"), "--stage was 'sing'; choose from build, both, written"),
        (("--backs", "glue"), "--backs was 'glue'"),
        (("--facts", "all"), "--facts was 'all'"),
        (("--pupils", "missing.csv"), "missing.csv cannot be read"),
        (("1634 - 258",), "choose the stage written"),
        (("--pupils", "bad.csv"), "bad.csv, line 3: "),
    ],
)
def test_what_cannot_be_is_said_in_one_sentence(
    args: tuple[str, ...], says: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bad.csv").write_text("name,sum\nAda,71-48\nAda,1-71\n", "utf-8")
    status, told, refused = cards(*args)
    assert (status, told) == (2, "")
    assert says in refused
    assert refused.count("\n") == 1
    assert [path.name for path in tmp_path.iterdir()] == ["bad.csv"]


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_a_bar_shows_on_a_terminal_only(monkeypatch: pytest.MonkeyPatch) -> None:
    drawings = [Drawing("t", 1, 1, ())] * 50
    for stream in (_Terminal(), io.StringIO()):
        monkeypatch.setattr(sys, "stderr", stream)
        assert list(progress(iter(drawings), 50)) == drawings
        assert ("Drawing pages" in stream.getvalue()) == stream.isatty()
