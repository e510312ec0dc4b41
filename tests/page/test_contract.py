"""The contract: what the screen wishes for is what the command line would make."""

import gc
import re
import tracemalloc
from dataclasses import replace
from html import unescape
from io import BytesIO
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import cairosvg
import pytest
from click.testing import CliRunner
from pdf_lines import page_texts
from PIL import Image, ImageChops, ImageStat
from pypdf import PdfReader

from kitbuilder import pipeline
from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.saying import LANGUAGES
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.draw.primitives import Words
from kitbuilder.formats.textfile import parse_toml
from kitbuilder.layout.model import Sheet
from kitbuilder.layout.parts.contents import Line
from kitbuilder.number import Sum
from kitbuilder.output.svg import page_svg
from kitbuilder.page.answers_shown import mistake_picture, next_pupils, read_marks
from kitbuilder.page.contract import HELD_JOBS, Engine, StoppedError
from kitbuilder.page.packed.rehearsal import REHEARSED
from kitbuilder.page.plan_shown import kit_plan
from kitbuilder.page.preview import preview
from kitbuilder.page.screen_words import screen_words
from kitbuilder.page.table.pasted import PASTED
from kitbuilder.page.wishes import asked
from kitbuilder.page.wishes_file import opened
from kitbuilder.pipeline import prepare
from kitbuilder.request.pupils import pupils
from kitbuilder.request.request import Request

SUMS = [["42", "17"], ["305", "148"], ["", ""]]
SUMS_TYPED = ["42-17", "305-148"]
SHARED = ["kit", "--children", "6", "--share", "2"]
TABLE = "Ada\t53 − 27\nBen\t71 − 48\nAda\t604 − 167"


def drawn(wishes: dict[str, Any]) -> tuple[dict[str, Any], bytes]:
    engine = Engine()
    answer = engine.ask(wishes)
    assert answer["refusals"] == []
    pages, _ = engine.call("draw", [answer["id"]], lambda done, total: None)
    named, file = engine.call("file", [answer["id"]], lambda done, total: None)
    return {**pages, **named}, file


def refused(wishes: dict[str, Any]) -> list[tuple[str, int, str]]:
    answer = Engine().ask(wishes)
    assert answer["plan"] is None
    return [(one["field"], one["row"], one["code"]) for one in answer["refusals"]]


@pytest.mark.parametrize(
    ("wishes", "typed", "name"),
    [
        ({"job": "kit"}, ["kit"], "kit.pdf"),
        ({"job": "kit", "sums": SUMS}, ["kit", "42 - 17", "305 - 148"], "kit.pdf"),
        (
            {"job": "tonight", "sums": [["53", "27"]]},
            ["kit", "--mini", "53 - 27"],
            "tonight-53-27.pdf",
        ),
        (
            {"job": "kit", "lang": "es", "paper": "letter", "more": {"look": "bold"}},
            ["kit", "--words", "es", "--paper", "letter", "--look", "bold"],
            "kit.pdf",
        ),
        (
            {
                "job": "class",
                "sums": SUMS,
                "class": {"children": "29", "share": "2", "layers": "3"},
            },
            ["kit", "42-17", "305-148", "--children", "29", "--share", "2", "--layers", "3"],
            "class-29.pdf",
        ),
        (
            {
                "job": "class",
                "sums": SUMS,
                "class": {"children": "29", "share": "2", "layers": "1", "home": True},
            },
            ["kit", "42-17", "305-148", "--children", "29", "--share", "2", "--home"],
            "class-29.pdf",
        ),
        (
            {
                "job": "class",
                "sums": [["43", "17"], ["254", "38"], ["431", "257"], ["305", "148"]],  # ours
                "class": {"children": "6", "share": "2", "layers": "1", "home": True},
                "plan": {"weeks": "1", "days": "3", "start": "2027-01-11"},
            },
            [*SHARED, "--home", "--weeks", "1", "--days", "3", "--start", "2027-01-11"],
            "class-6.pdf",
        ),
        (
            {
                "job": "class",
                "sums": SUMS,
                "class": {"children": "29", "share": "2", "layers": "1"},
                "more": {"only": ["differently"]},  # a page for each child, not for each kit
            },
            ["kit", *SUMS_TYPED, "--children", "29", "--share", "2", "--only", "differently"],
            "class-29.pdf",
        ),
        (
            {"job": "weeks", "plan": {"weeks": "1", "days": "5", "start": "2027-01-11"}},
            ["kit", "--weeks", "1", "--start", "2027-01-11"],
            "weeks-1.pdf",
        ),
        (
            {
                "job": "weeks",
                "sums": [["502", "287"], ["305", "148"], ["", ""]],
                "plan": {"weeks": "1", "days": "3", "start": ""},
            },
            ["kit", "502-287", "305-148", "--weeks", "1", "--days", "3"],
            "weeks-1.pdf",
        ),
        (
            {"job": "lost", "pieces": {"hundreds": "0", "tens": "2", "ones": "10"}},
            ["kit", "--pieces", "0,2,10"],
            "lost-pieces.pdf",
        ),
        ({"job": "measure", "paper": "a4"}, ["check-print", "--paper", "a4"], "check-sheet.pdf"),
    ],
    ids=[
        "ready",
        "sums",
        "tonight",
        "spanish",
        "class",
        "at home",
        "at home for weeks",
        "for each child",
        "weeks",
        "weeks that sums open",
        "lost",
        "measure",
    ],
)
def test_the_file_is_that_of_the_command_line(
    wishes: dict[str, Any], typed: list[str], name: str, tmp_path: Path
) -> None:
    out = tmp_path / name if name == "check-sheet.pdf" else tmp_path
    result = CliRunner().invoke(main, [*typed, "--out", str(out)])
    assert result.exit_code == 0, result.output
    answer, file = drawn(wishes)
    assert answer["file"] == name
    assert file == (out if out.is_file() else out / "kit.pdf").read_bytes()


def test_packs_are_those_of_the_command_line(tmp_path: Path) -> None:
    table = tmp_path / "class.csv"
    table.write_text("name,sum\nAda,53 - 27\nBen,71 - 48\nAda,604 - 167\n")
    typed = ["cards", "--pupils", str(table), "--out", str(tmp_path / "cards")]
    assert CliRunner().invoke(main, typed).exit_code == 0
    _, file = drawn({"job": "packs", "pupils": TABLE})
    assert file == (tmp_path / "cards" / "cards.pdf").read_bytes()


def test_several_files_come_as_one_archive(tmp_path: Path) -> None:
    answer, file = drawn({"job": "packs", "pupils": TABLE, "each": True})
    assert answer["file"] == "packs.zip"
    (tmp_path / "cards.zip").write_bytes(file)
    with ZipFile(tmp_path / "cards.zip") as held:
        names = held.namelist()
        order = held.read("each/order.txt").decode()
    pupils = ["each/pupil-0001.pdf", "each/pupil-0002.pdf"]
    assert names == ["packs.pdf", *pupils, "each/order.txt"]
    assert order.startswith("The files are in the order of your table: pupil-0001.pdf is the first")
    assert not re.search("Ada|Ben", order)
    assert drawn({"job": "packs", "pupils": TABLE, "each": True})[1] == file


def test_the_plan_tells_each_page_once_and_every_first_page_is_drawn() -> None:
    answer, _ = drawn({"job": "kit", "sums": SUMS})
    plan = answer["plan"]
    pages = [n for g in plan["groups"] for n in range(g["from"], g["to"] + 1)]
    assert pages == list(range(1, plan["pages"] + 1))
    assert [one["page"] for one in answer["pages"]] == [g["from"] for g in plan["groups"]]
    for stock in ("card", "paper"):
        for count, later in ((plan, False), (plan["later"], True)):
            groups = [g for g in plan["groups"] if (g["stock"], g["later"]) == (stock, later)]
            assert count[stock] == sum(g["copies"] * (g["to"] - g["from"] + 1) for g in groups)
    assert {need["code"] for need in plan["needs"]} >= {"scissors", "pencil", "envelopes", "bowl"}


@pytest.mark.parametrize(
    ("wishes", "check", "name"),
    [
        ({"job": "kit"}, 1, "title.lesson"),  # the cover has the frame; the lesson begins
        ({"job": "class", "class": {"children": "4", "share": "2", "layers": "3"}}, 2, None),
        ({"job": "tonight", "sums": [["53", "27"]]}, None, "title.mini"),
    ],
)
def test_the_plan_names_the_page_to_check_by_and_the_one_to_begin_with(
    wishes: dict[str, Any], check: int | None, name: str | None
) -> None:
    plan = Engine().ask(wishes)["plan"]
    assert plan["check_page"] == check
    assert plan["groups"][plan["ruler_page"] - 1]["name_code"] in ("title.pieces", "title.mini")
    names = {g["name_code"] for g in plan["groups"] if g["from"] <= plan["begin_page"] <= g["to"]}
    assert names == {name or "title.lesson"}
    assert plan["ten_mm"] == 100


def said_on(sheet: Sheet) -> str:
    return " ".join(item.content.text for item in sheet.items if isinstance(item.content, Line))


@pytest.mark.parametrize(
    "wishes", [REHEARSED[0], REHEARSED[5], {"job": "packs", "pupils": TABLE}, REHEARSED[10]]
)
def test_the_cover_says_the_same_counts(wishes: dict[str, Any]) -> None:
    plan = Engine().ask({**wishes, "lang": "en-GB"})["plan"]
    prepared = prepare(asked(wishes).request)
    words, said = prepared.request.press.words, said_on(prepared.laid.sheets[0])
    assert words.count("cover.card_sheets", plan["card"]) in said
    assert words.count("cover.paper_sheets", plan["paper"]) in said
    assert words("cover.minutes", count=plan["minutes"]) in said
    assert (words("cover.later") in said) == any(plan["later"].values())


def test_runs_of_like_pages_have_one_picture() -> None:
    table = "\n".join(f"Pupil {n}\t{500 + n} − 168" for n in range(80))
    answer, _ = drawn({"job": "packs", "pupils": table})
    groups = answer["plan"]["groups"]
    assert len(groups) < 6 < answer["plan"]["pages"]
    assert any(group["to"] > group["from"] for group in groups)


def test_pages_of_a_course_are_called_by_the_week_they_are_for() -> None:
    wishes = {"job": "weeks", "plan": {"weeks": "6", "days": "5"}, "more": {"only": ["week"]}}
    groups = Engine().ask(wishes)["plan"]["groups"]
    weeks = [group["week"] for group in groups if group["name_code"] == "title.week"]
    assert weeks == [*(f"Week {n}" for n in range(1, 7)), "Back again, later in the year"]
    request = asked(wishes).request
    sheets = prepare(request).laid.sheets[1:3]
    drawings = draw_pages(sheets, request.paper, request.press)
    assert [one.title for one in drawings] == ["Week 1", "Week 1 – Worksheets"]


def test_ids_of_pictures_differ() -> None:
    answer, _ = drawn({"job": "kit", "sums": SUMS})
    ids = [found for one in answer["pages"] for found in re.findall(r' id="([^"]+)"', one["svg"])]
    assert len(ids) == len(set(ids)) > 1
    for one in answer["pages"]:
        assert {f"p{one['page']}"} >= {name.partition("-")[0] for name in named(one["svg"])}


def named(svg: str) -> list[str]:
    """Return the ids that a picture has, or points to."""
    return re.findall(r'(?: id="| href="#)([^"]+)"', svg)


def words_of(svg: str) -> list[str]:
    """Return what a picture says, run by run, in the order of its marks."""
    return [unescape(text) for text in re.findall(r"<text[^>]*>([^<]*)</text>", svg)]


def looks(svg: str) -> Image.Image:
    """Return a picture rendered in grey, 300 pixels wide."""
    data = cairosvg.svg2png(bytestring=svg.encode(), output_width=300, background_color="white")
    return Image.open(BytesIO(data)).convert("L")


def test_pictures_show_what_is_cut_and_printed() -> None:
    """The screen's own short SVG looks like that for machines, which other tests hold."""
    request = asked({"job": "kit", "sums": SUMS}).request
    sheets = prepare(request).laid.sheets
    drawings = list(draw_pages(sheets, request.paper, request.press))
    for page, whole in list(enumerate(drawings, 1))[::3]:
        said = [mark.text for mark in whole.marks if isinstance(mark, Words)]
        assert words_of(preview(whole, page)) == said
        unsaid = tuple(mark for mark in whole.marks if not isinstance(mark, Words))
        drawing = replace(whole, marks=unsaid)  # for machines, words are outlines
        apart = ImageChops.difference(looks(preview(drawing, page)), looks(page_svg(drawing)))
        assert ImageStat.Stat(apart).mean[0] < 0.5, page
    less = replace(drawing, marks=drawing.marks[::2])
    apart = ImageChops.difference(looks(preview(less, page)), looks(page_svg(drawing)))
    assert ImageStat.Stat(apart).mean[0] > 0.5


def test_what_a_wish_leaves_as_it_was_is_not_drawn_again() -> None:
    engine = Engine()
    before, after = (
        engine.draw(engine.ask({"job": "kit", "sums": sums})["id"], lambda done, total: None)[0]
        for sums in (SUMS, [["42", "17"], ["306", "148"]])
    )
    same = [a["svg"] is b["svg"] for a, b in zip(before["pages"], after["pages"], strict=True)]
    alone = drawn({"job": "kit", "sums": [["42", "17"], ["306", "148"]]})
    assert any(same)
    assert not all(same)
    assert alone[0]["pages"] == after["pages"]
    assert alone[1] == engine.file(2, lambda done, total: None)[1]


def test_earlier_jobs_may_be_looked_at_until_they_are_many() -> None:
    engine = Engine()
    first = engine.ask({"job": "kit"})["id"]
    second = engine.ask({"job": "tonight", "sums": [["53", "27"]]})["id"]
    assert engine.picture(first, 1) != engine.picture(second, 1)
    for whole in range(30, 30 + HELD_JOBS):
        engine.ask({"job": "tonight", "sums": [[str(whole), "17"]]})
    with pytest.raises(KeyError):
        engine.picture(first, 1)


def test_a_picture_keeps_the_spaces_of_a_sum() -> None:
    engine = Engine()
    answer = engine.ask({"job": "tonight", "sums": [["53", "27"]]})
    after_minus = re.findall(r"<text[^>]*> 27<", engine.picture(answer["id"], 1))
    assert after_minus
    assert all('xml:space="preserve"' in text for text in after_minus)


def test_names_are_text_in_pictures() -> None:
    table = "<script>x</script>\t53 − 27"
    answer, _ = drawn({"job": "packs", "pupils": table})
    pictures = "".join(one["svg"] for one in answer["pages"])
    assert "&lt;script&gt;" in pictures
    assert "<script" not in pictures


def test_every_wrong_row_is_told_with_its_repair() -> None:
    sums = [["27", "53"], ["12000", "30"], ["4k", "1"], ["53", "27"]]
    answer = Engine().ask({"job": "kit", "lang": "es", "sums": sums})
    told = [(one["field"], one["row"], one["code"]) for one in answer["refusals"]]
    assert told == [
        ("sums", 1, "sum.too-much"),
        ("sums", 2, "sum.five-places"),
        ("sums", 3, "sum.unreadable"),
    ]
    assert answer["refusals"][0]["repair"] == {"code": "repair.turn-round", "sum": "53 - 27"}
    assert answer["sums"] == [{"row": 4, "kind": "ones"}]
    for typed in (["5.2", "27"], ["1.475", "3.2"]):  # 27 passes 9.99; no piece is a thousandth
        refused = Engine().ask({"job": "kit", "sums": [typed]})["refusals"]
        assert [one["repair"] for one in refused] == [None]


@pytest.mark.parametrize(
    ("wishes", "field", "code"),
    [
        ({"job": "kit", "more": {"unit": "ten"}}, "unit", "option.number"),
        ({"job": "kit", "paper": "papyrus"}, "paper", None),
        ({"job": "class", "class": {"children": "0"}}, "children", "option.range"),
        ({"job": "class", "class": {"children": "x"}}, "children", "option.number"),
        ({"job": "class", "class": {"children": "900", "share": "1"}}, "share", None),
        ({"job": "weeks", "plan": {"weeks": "60", "days": "5"}}, "weeks", "option.range"),
        ({"job": "weeks", "plan": {"weeks": "2", "days": "5", "start": "x"}}, "start", None),
        ({"job": "lost", "pieces": {}}, "pieces", "pieces.none"),
        ({"job": "lost", "pieces": {"ones": "1.5"}}, "ones", "option.whole-number"),
        ({"job": "packs", "pupils": ""}, "pupils", "pupil.none"),
        ({"job": "kit", "choose": {"kind": "none", "count": "99"}}, "count", "option.range"),
        ({"job": "kit", "more": {"only": []}}, "only", "kit.no-part"),
    ],
)
def test_refusals_name_their_field(wishes: dict[str, Any], field: str, code: str | None) -> None:
    found = refused(wishes)
    assert found[0][0] == field
    assert code is None or found[0][2] == code


@pytest.mark.parametrize(("job", "table"), [("packs", "pupils"), ("wrong", "answers")])
def test_rows_are_counted_before_any_is_read(job: str, table: str) -> None:
    answer = Engine(most_tasks=2, most_answers=2).ask({"job": job, table: "?\n\n?\n?\n"})
    (refusal,) = answer["refusals"]
    assert (refusal["code"], refusal["field"]) == ("screen.too-many-rows", table)
    assert refusal["slots"] == {"given": 3, "most": 2}
    assert "marks" not in answer


@pytest.mark.parametrize(
    ("wishes", "said"),
    [
        ({"job": "kit", "paper": "letter", "more": {"unit": "-1"}}, ("unit", -1, 5, 20.32)),
        ({"job": "kit", "more": {"margin": "-1"}}, ("margin", -1, 0, 100)),
        ({"job": "kit", "more": {"kerf": "-1"}}, ("kerf", -1, 0, 2)),
    ],
)
def test_a_size_out_of_range_is_called_as_its_field(
    wishes: dict[str, Any], said: tuple[str, float, float, float]
) -> None:
    (refusal,) = Engine().ask(wishes)["refusals"]
    assert refusal["code"] == "option.range"
    assert refusal["field"] == said[0]
    assert tuple(refusal["slots"][name] for name in ("option", "given", "least", "most")) == said


@pytest.mark.parametrize(
    ("wishes", "code"),
    [
        ({"job": "weeks", "plan": {"weeks": "", "days": "5"}}, "screen.empty"),
        ({"job": "kit", "choose": {"kind": "ones", "count": ""}}, "screen.empty"),
        ({"job": "packs", "pupils": "Name\tSum"}, "screen.only-headings"),
        ({"job": "wrong", "answers": "Nombre\tResta\tRespuesta\n"}, "screen.only-headings"),
    ],
)
def test_what_is_empty_is_called_so(wishes: dict[str, Any], code: str) -> None:
    assert [one["code"] for one in Engine().ask(wishes)["refusals"]] == [code]


@pytest.mark.parametrize("job", ["kit", "measure"])
def test_a_size_without_its_measure_is_offered_in_millimetres(job: str) -> None:
    (refusal,) = Engine().ask({"job": job, "paper": "200 x 250,5"})["refusals"]
    assert (refusal["code"], refusal["field"]) == ("screen.paper-size", "paper")
    assert refusal["repair"] == {"code": "repair.paper", "paper": "200x250.5mm"}
    assert not Engine().ask({"job": job, "paper": refusal["repair"]["paper"]})["refusals"]


def test_the_screen_has_no_place_for_a_path(tmp_path: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text((designs.folder() / "paper" / "a4.toml").read_text("utf-8"), "utf-8")
    (refusal,) = Engine().ask({"job": "kit", "paper": str(own)})["refusals"]
    assert refusal["code"] == "paper.unknown"
    assert not re.search("path|toml|archivo", screen_words("en-GB")["refusal.paper.unknown"])


def test_too_many_cards_are_refused_before_anything_is_laid_out() -> None:
    sums = "Ada\t53 − 27\t71 − 48\t604 − 167"
    answer = Engine(most_tasks=2).ask({"job": "packs", "pupils": sums})
    assert answer["refusals"][0]["code"] == "screen.too-many-cards"
    assert answer["refusals"][0]["slots"] == {"given": 3, "most": 2}


def test_a_name_too_wide_is_told_at_the_table() -> None:
    assert refused({"job": "packs", "pupils": "W" * 60 + "\t53 − 27"})[0][0] == "pupils"


ANSWERS = "Ada\t53 − 27\t34\nDov\t61 − 38\t37\nBen\t72 − 48\t34\nFay\t90 − 36\t54"


def test_an_answer_has_one_name_on_the_screen_and_in_the_class_page() -> None:
    # turned digits all along, but for 7 − 3 = 4 and 4 − 1 = 3, one tens and one hundreds too many,
    # and 337 for 403 − 176: 13 − 6, 10 − 7 and 4 − 1, which is 373 with its digits swapped, too
    table = "Name\t52−28\t71−34\t346−129\t427−163\t532−258\t403−176\n"
    table += "Mia\t36\t47\t223\t364\t326\t337"
    (mia,) = read_marks(table).children
    keys = {str(read.answered.answer): mia.shown_key(read) for read in mia.reading.reads}
    assert [keys[given] for given in ("36", "47", "364", "337")] == ["turned", *["not-lowered"] * 3]
    words = designs.words()
    (told,) = Engine().ask({"job": "wrong", "answers": table})["marks"]["children"]
    assert told["wrong"][2] == "36"
    for _, _, given, _, name in told["others"]:
        assert name == words(f"mistake.{keys[given]}.name")


def test_what_went_wrong_is_told_child_by_child_and_a_pack_made() -> None:
    answer = Engine().ask({"job": "wrong", "answers": ANSWERS})
    told = {child["name"]: child for child in answer["marks"]["children"]}
    # 34 for 53 − 27 is 7 − 3 beside 5 − 2; 34 for 72 − 48 is ten fetched and none put back
    assert "smaller from larger" in told["Ada"]["says"].lower()
    assert "8 − 1 was worked out" in told["Dov"]["happened"]
    assert "ten fetched, one not put back" in told["Ben"]["says"].lower()
    assert told["Fay"]["wrong"] is None
    assert told["Fay"]["tried"] == 1
    assert answer["plan"]["pupils"] >= 3


def test_the_screen_and_the_page_of_a_class_group_its_children_alike(tmp_path: Path) -> None:
    rows = {"Amira": [35, 34, 333], "Poppy": [25, 26, 333], "Isla": [26, 26, 273]}
    sums = ("52 − 27", "60 − 34", "435 − 162")
    answers = [
        f"{name}\t{s}\t{a}" for name, row in rows.items() for s, a in zip(sums, row, strict=True)
    ]
    wishes = {"job": "wrong", "answers": "\n".join(answers), "print": "pages"}
    told, (_, file) = Engine().ask(wishes)["marks"], drawn(wishes)
    assert told["groups"] == [{"says": "Smaller from larger", "names": ["Amira"]}]
    (tmp_path / "marks.pdf").write_bytes(file)
    page = " ".join(page_texts(tmp_path / "marks.pdf")[0].split())
    assert "Poppy" in " ".join(told["others"])
    assert all(said in page for said in (told["together"], *told["others"]))


CLASS = "\t53 − 27\t61 − 38\nAda\t34\t\nMax\t26\t23\nBen\t26\t37"


def test_what_was_read_is_told_and_whoever_is_taken_out_counts_nowhere(tmp_path: Path) -> None:
    wishes = {"job": "wrong", "answers": CLASS, "print": "pages"}
    told = Engine().ask(wishes)["marks"]
    read = {child["name"]: child["sums"] for child in told["read"]}
    assert [*read] == ["Ada", "Max", "Ben"]
    assert read["Ada"] == [["53", "27", "34"], ["61", "38", ""]]
    assert told["out"] == []

    told = Engine().ask(wishes | {"out": ["Max", "Zoe"]})["marks"]
    assert [child["name"] for child in told["read"]] == ["Ada", "Ben"]
    assert [child["name"] for child in told["children"]] == ["Ada", "Ben"]
    assert told["out"] == ["Max"]
    _, file = drawn(wishes | {"out": ["Max"]})
    (tmp_path / "marks.pdf").write_bytes(file)
    assert "Max" not in "".join(page_texts(tmp_path / "marks.pdf"))


def test_one_child_stays_whoever_is_taken_out() -> None:
    told = Engine().ask({"job": "wrong", "answers": CLASS, "out": ["Ada", "Max", "Ben"]})["marks"]
    assert len(told["read"]) == 3 and told["out"] == []


def test_what_was_read_of_packs_is_told_and_a_title_taken_out() -> None:
    wishes = {"job": "packs", "pupils": "Ada\t53 − 27\t65 − 28\nHomework\t61 − 38"}
    plan = Engine().ask(wishes)["plan"]
    assert plan["read"][0] == {"name": "Ada", "sums": [["53", "27"], ["65", "28"]]}
    assert (plan["pupils"], plan["tasks"]) == (2, 3)
    plan = Engine().ask(wishes | {"out": ["Homework"]})["plan"]
    assert (plan["pupils"], plan["tasks"], plan["out"]) == (1, 2, ["Homework"])


def test_a_row_that_may_be_no_childs_may_be_left_out() -> None:
    table = "Ada\t53 − 27\nOwls\nBen\t61 − 38"
    (refusal,) = Engine().ask({"job": "packs", "pupils": table})["refusals"]
    assert refusal["repair"] == {"code": "repair.row", "line": 2}


def test_rows_without_which_a_table_can_be_read_may_all_be_left_out() -> None:
    table = "Ada\t53-27\t26\nWeek 3\tMonday\tgood work\n" * 6
    (refusal,) = Engine().ask({"job": "wrong", "answers": table})["refusals"]
    assert refusal["repair"] == {"code": "repair.rows", "rows": [*range(2, 13, 2)]}


def test_the_cells_of_a_table_are_told_where_it_cannot_be_read_alone() -> None:
    def cells(table: str) -> list[Any] | None:
        found: list[Any] | None = Engine().ask({"job": "wrong", "answers": table}).get("cells")
        return found

    assert cells("Ada\t53 − 27\t26\nBen\t61 − 38\t37") is None
    grid = [(1, ["Ada", "53 −", "26"]), (3, ["Ben", '6"1', "3"])]
    assert cells('Ada\t53 −\t26\n\n Ben\t"6""1"\t3') == grid
    assert cells("Ada; 53 −; 26") == cells("Ada 53 −\nBen 5") == []  # one row, one column


@pytest.mark.parametrize("blank", ["", "\t", "\tabsent", "\t–"])
def test_what_was_not_answered_is_not_right(blank: str) -> None:
    answers = f"Ada\t53 − 27\t26\nAda\t61 − 38{blank}\nBen\t53 − 27{blank}"
    answer = Engine().ask({"job": "wrong", "answers": answers})
    told = [(one["name"], one["tried"], one["untried"]) for one in answer["marks"]["children"]]
    assert told == [("Ada", 1, [["61", "38"]]), ("Ben", 0, [["53", "27"]])]
    # the class page said that Ben has the table's sums first, and his pack asked two others
    asked = {pupil.name: pupil.tasks for pupil in next_pupils(read_marks(answers), designs.words())}
    assert "Ben" not in asked and [task.stage for task in asked["Ada"]] == ["written", "written"]
    assert Engine().ask({"job": "wrong", "answers": f"Ben\t53 − 27{blank}"})["plan"] is None


def test_whoever_has_all_right_gets_no_pack() -> None:
    right = "Ada\t53 − 27\t26\nAda\t61 − 34\t27\nAda\t402 − 186\t216"
    answer = Engine().ask({"job": "wrong", "answers": right})
    assert (answer["id"], answer["plan"], answer["refusals"]) == (0, None, [])
    plan = Engine().ask({"job": "wrong", "answers": f"{right}\nBen\t72 − 48\t34"})["plan"]
    assert plan["pupils"] == 1


@pytest.mark.parametrize(
    ("answers", "wishes", "options"),
    [
        (ANSWERS, {}, ()),
        (ANSWERS, {"lang": "es", "paper": "a5", "more": {"look": "bold"}}, ("a5", "bold", "es")),
        ("Ada\t53 − 27\t26\nBen\t42 − 17\t25", {}, ()),  # all right: the class alone
        ("Ada\t3.4 − 1.6\t2.2\nBen\t5.25 − 3\t2.25", {}, ()),
    ],
)
def test_pages_about_the_children_are_those_of_the_command_line(
    answers: str, wishes: dict[str, Any], options: tuple[str, ...], tmp_path: Path
) -> None:
    table, out = tmp_path / "answers.tsv", tmp_path / "marks"
    table.write_text(f"name\tsum\tanswer\n{answers}\n", encoding="utf-8")
    named = zip(("--paper", "--look", "--words"), options, strict=False)
    given = ["marks", str(table), "--out", str(out), *(part for pair in named for part in pair)]
    assert CliRunner().invoke(main, given).exit_code == 0
    told, file = drawn({"job": "wrong", "answers": answers, "print": "pages", **wishes})
    assert told["file"] == ("que-paso.pdf" if options else "what-went-wrong.pdf")
    assert file == (out / "marks.pdf").read_bytes()


def test_the_pieces_that_pages_about_a_child_take_are_told_on_the_screen_too(
    tmp_path: Path,
) -> None:
    answers = "431-257=226\n620-384=344\n502-247=345\n304-168=136"
    wishes = {"job": "wrong", "answers": answers, "print": "pages"}
    builds = Engine().ask(wishes)["plan"]["builds"]
    assert builds["children"] == 1
    (tmp_path / "marks.pdf").write_bytes(drawn(wishes)[1])
    page = " ".join(" ".join(page_texts(tmp_path / "marks.pdf")).split())
    assert f"the mat, {builds['pieces']}" in page
    assert Engine().ask(wishes | {"answers": "431-257=174"})["plan"]["builds"] is None


def test_pages_of_a_class_stand_apart_from_those_of_its_children() -> None:
    few, many = (
        Engine().ask({"job": "wrong", "answers": answers, "print": "pages"})["plan"]
        for answers in (ANSWERS, "\n".join(f"Child {n}\t53 − 27\t34" for n in range(100)))
    )
    assert [group["child"] for group in few["groups"]] == ["", "Ada", "Dov", "Ben"]
    assert (few["class_pages"], few["card"], few["paper"]) == (1, 0, 4)
    of_class, of_children = many["groups"]
    assert (of_class["to"], of_children["to"]) == (many["class_pages"], many["pages"])


def test_pages_about_the_children_are_refused_as_packs_are() -> None:
    pages = {"job": "wrong", "print": "pages"}
    assert refused({**pages, "answers": ""}) == [("answers", 0, "answers.none")]
    assert refused({**pages, "answers": "Ada\t27 − 53\t34"}) == [("answers", 1, "sum.too-much")]
    assert refused({**pages, "answers": ANSWERS, "paper": "90x120mm"})[0][0] == "paper"
    most = Engine(most_answers=3).ask({**pages, "answers": ANSWERS})
    assert most["refusals"][0]["code"] == "screen.too-many-rows"


@pytest.mark.parametrize(
    ("wishes", "said"),
    [
        (
            {"job": "class", "class": {"children": "5000", "share": "2"}},
            "let more children share a kit (Children sharing one kit), or",
        ),
        ({"job": "class", "class": {"children": "", "share": "2"}}, "Say how many children"),
        ({"job": "tonight", "sums": [["12000", "1"]]}, "up to 999."),
        ({"job": "tonight", "sums": [["1000", "1"]]}, "up to 999."),
        ({"job": "tonight", "sums": [["9.999", "1"]]}, "Give two decimals at most."),
        ({"job": "tonight", "sums": [["4,000", "1,250"]]}, "up to 999, and at most two decimals."),
        ({"job": "kit", "sums": [["1,000", "1"]]}, "“1,000 − 1” can be read in two ways"),
        ({"job": "kit", "lang": "es", "sums": [["1.000", "1"]]}, "«1.000 − 1» se puede leer"),
    ],
)
def test_a_refusal_is_a_sentence_with_one_limit(wishes: dict[str, Any], said: str) -> None:
    (refusal,) = Engine().ask(wishes)["refusals"]
    assert said in refusal["says"]
    assert "10000" not in refusal["says"]


@pytest.mark.parametrize(
    ("wishes", "name"),
    [
        ({"job": "tonight", "sums": [["71", "45"]]}, "tonight-71-45.pdf"),
        ({"job": "class", "class": {"children": "29", "share": "1"}}, "class-29.pdf"),
        ({"job": "packs", "pupils": "Ada\t53 − 27"}, "packs.pdf"),
        ({"job": "weeks", "plan": {"weeks": "2", "days": "5"}}, "weeks-2.pdf"),
        ({"job": "wrong", "answers": "Ada\t53 − 27\t34"}, "next-packs.pdf"),
    ],
)
def test_a_file_is_named_after_what_it_is_for(wishes: dict[str, Any], name: str) -> None:
    assert drawn(wishes)[0]["file"] == name


def test_every_file_is_named_in_the_language_of_the_screen(tmp_path: Path) -> None:
    def held(wishes: dict[str, Any]) -> list[str]:
        answer, file = drawn({"lang": "es", **wishes})
        path = tmp_path / answer["file"]
        path.write_bytes(file)
        with ZipFile(path) as archive:
            return [answer["file"], *archive.namelist()]

    pupils = ["por-alumno/alumno-0001.pdf", "por-alumno/alumno-0002.pdf"]
    packs = held({"job": "packs", "pupils": TABLE, "each": True})
    assert packs == ["sobres.zip", "sobres.pdf", *pupils, "por-alumno/orden.txt"]
    order = screen_words("es")["packs.each_order"]
    assert all(name.partition("/")[2] in order for name in pupils)
    lost = {"job": "lost", "pieces": {"hundreds": "0", "tens": "2", "ones": "10"}}
    machines = held({**lost, "more": {"svg": True}})
    assert machines[:2] == ["piezas.zip", "piezas.pdf"]
    assert set(machines[2:]) == {f"hoja-{n:02}.svg" for n in range(1, len(machines) - 1)}
    assert drawn({"job": "measure", "lang": "es"})[0]["file"] == "hoja-de-prueba.pdf"
    tonight = {"job": "tonight", "lang": "es", "sums": [["71", "45"]]}
    assert drawn(tonight)[0]["file"] == "esta-noche-71-45.pdf"


def test_all_pages_that_show_the_cuts_are_named() -> None:
    wishes = {"job": "class", "class": {"children": "29", "share": "2", "layers": "3"}}
    plan = Engine().ask(wishes)["plan"]
    named = [g["name_code"] for g in plan["groups"] for _ in range(g["from"], g["to"] + 1)]
    assert plan["cutting_pages"] == [
        page for page, name in enumerate(named, 1) if name == "title.cutting"
    ]
    assert len(plan["cutting_pages"]) > 1


def test_the_pdf_comes_first_and_bears_the_name_of_the_job() -> None:
    more = {"svg": True, "only": ["pieces"]}
    wishes = {"job": "class", "class": {"children": "2", "share": "1"}, "more": more}
    answer, file = drawn(wishes)
    assert answer["file"] == "class-2.zip"
    with ZipFile(BytesIO(file)) as archive:
        assert archive.namelist()[0] == "class-2.pdf"
        for name in archive.namelist():
            begins = archive.read(name)[:5]
            assert (begins == b"%PDF-") == name.endswith(".pdf"), name


@pytest.mark.parametrize(
    ("rows", "further"), [("Fay\t82 − 45\t37", 2), ("Fay\t82 − 45\t37\nFay\t61 − 38\t23", 0)]
)
def test_whoever_is_right_has_a_pack_of_what_would_tell_more_alone(rows: str, further: int) -> None:
    answer = Engine().ask({"job": "wrong", "answers": rows})
    (fay,) = answer["marks"]["children"]
    assert (answer["plan"] is None) == (further == 0)
    assert not answer["refusals"]
    assert len(fay["further"]) == further
    both = Engine().ask({"job": "wrong", "answers": f"{rows}\nGus\t53 − 27\t34"})
    assert both["plan"]["pupils"] == 1 + (further > 0)


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_in_names_of_files_are_plain_letters(language: str) -> None:
    words = {key: said for key, said in screen_words(language).items() if key[:5] == "name."}
    assert len(set(words.values())) == len(words) > 10
    for said in words.values():
        assert re.fullmatch("[a-z]+(-[a-z]+)*", said)


def test_the_print_run_names_the_page_that_the_screen_names() -> None:
    wishes = {"job": "class", "class": {"children": "29", "share": "2"}}
    page = Engine().ask(wishes)["plan"]["check_page"]
    said = said_on(prepare(asked(wishes).request).laid.sheets[0])
    assert f"print pages 1–{page} first" in said  # the last of them has the size on it


def test_each_pack_tells_the_adult_what_it_is_for() -> None:
    answers = f"{ANSWERS}\nGus\t40 − 17\t23"
    request = asked({"job": "wrong", "answers": answers}).request
    said = " ".join(map(said_on, prepare(request).laid.sheets))
    assert "Practises: perhaps smaller from larger (34 was written for 53 − 27)." in said
    assert {task.practises for task in request.pupils[0].tasks} == {(("turned", None),)}
    assert "A few sums to write: they tell what to practise." in said


@pytest.mark.parametrize(("name", "home"), [("", True), ("Ada\t", False), ("Child\t", False)])
def test_a_child_without_a_name_has_no_teacher_to_tell(name: str, home: bool) -> None:
    answers = f"{name}52-27\t35\n{name}71-48\t37"
    engine = Engine()
    told = engine.ask({"job": "wrong", "print": "pages", "answers": answers})
    file = engine.file(told["id"], lambda *_: None)[1]
    said = " ".join(PdfReader(BytesIO(file)).pages[-1].extract_text().split())
    assert ("tell the teacher" in said) is (": one sum again" in said) is not home


def test_lost_pieces_are_not_dressed_as_a_whole_kit() -> None:
    request = asked({"job": "lost", "pieces": {"tens": "2", "ones": "10"}}).request
    said = said_on(prepare(request).laid.sheets[0])
    assert "Only pieces: 2 tens and 10 ones." in said and "Build a number" not in said


MANY = "\n".join(f"Ada\t{whole} − 158" for whole in range(301, 330))


@pytest.mark.parametrize(
    ("wishes", "builds"),
    [
        # 3 hundreds, 12 tens and 17 ones; no zone of a mat holds more of any other
        ({"pupils": MANY}, ([["327", "158"]], 1, "3 hundreds, 12 tens and 17 ones")),
        ({"pupils": "Ada\t53 − 27\nBen\t53 − 27"}, ([["53", "27"]], 2, "5 tens and 13 ones")),
        (
            {"pupils": "Ada\t3.1 − 1.47"},
            ([["3.1", "1.47"]], 1, "3 ones, 11 tenths and 10 hundredths"),
        ),
        (
            {"pupils": "Ada\t4000 − 2358"},
            ([["4000", "2358"]], 1, "4 thousands, 10 hundreds, 10 tens and 10 ones"),
        ),
        ({"pupils": "Ada\t53 − 27", "more": {"stage": "written"}}, None),
    ],
)
def test_packs_tell_for_which_sums_pieces_are_needed(
    wishes: dict[str, Any], builds: tuple[list[list[str]], int, str] | None
) -> None:
    told = Engine().ask({"job": "packs", **wishes})["plan"]["builds"]
    assert (told and (told["sums"], told["children"], told["pieces"])) == builds
    assert Engine().ask({"job": "kit"})["plan"]["builds"] is None


@pytest.mark.parametrize(
    ("only_written", "sums", "written"),
    [("305 - 148", [["53", "27"], ["305", "148"]], False), ("4002 - 1768", [["53", "27"]], True)],
)
def test_who_only_writes_has_pieces_too_but_for_thousands_of_no_other(
    only_written: str, sums: list[list[str]], written: bool
) -> None:
    table = f"name,sum,stage\nAda,53 - 27,pieces\nFinn,{only_written},written"
    found = pupils(table, PASTED, "pieces")
    request = Request((), designs.paper("a4"), parts=("cards",), pupils=found, name="cards")
    told = kit_plan(prepare(request), "en-GB")["builds"]
    assert (told["sums"], told["children"], told["written"]) == (sums, 2, written)


def test_the_only_sum_with_thousands_is_named() -> None:
    both = [["63", "27"], ["4002", "1768"]]
    assert Engine().ask({"job": "kit", "sums": both})["plan"]["thousand_of"] == "4002 − 1768"


@pytest.mark.parametrize(
    ("sum_", "more", "told"),
    [
        (["4002", "1768"], {}, True),
        (["4002", "1768"], {"only": ["mats"]}, False),
        (["402", "168"], {}, False),
        (["402", "168"], {"unit": "5"}, False),
    ],
)
def test_ones_that_thousands_make_small_are_told_of(
    sum_: list[str], more: dict[str, Any], told: bool
) -> None:
    plan = Engine().ask({"job": "kit", "sums": [sum_], "more": more})["plan"]
    assert plan["thousand_of"] == ""
    assert (plan["thousand"], plan["ten_mm"]) == (told, 50 if sum_[0] == "4002" or more else 100)


def test_all_wrong_answers_are_told_and_another_mistake_only_once() -> None:
    answers = "Ada\t53 − 27\t34\nAda\t61 − 38\t37\nAda\t72 − 48\t34\nBen\t40 − 17\t37"
    ada, ben = Engine().ask({"job": "wrong", "answers": answers})["marks"]["children"]
    wrong = [ada["wrong"], *ada["others"]]
    assert sorted(" ".join(one[:4]) for one in wrong) == [
        "53 27 34 26",
        "61 38 37 23",
        "72 48 34 24",
    ]
    assert ben["also"]
    assert ben["also"] not in ben["says"].lower()


def test_each_further_wrong_answer_is_told_with_the_mistake_that_explains_it() -> None:
    answers = "63 − 27 = 44\n402 − 158 = 344\n61 − 38 = 50"
    (child,) = Engine().ask({"job": "wrong", "answers": answers})["marks"]["children"]
    told = {" ".join(one[:3]): one[4] for one in child["others"]}
    assert told == {"402 158 344": "across a zero, half done", "61 38 50": ""}


def test_what_was_read_otherwise_than_it_stands_is_noted_in_the_readers_language() -> None:
    answers = "Ada\t402 − 158\t344\nAda\t503 − 86\t417?\nAda\t402 − 158\t244\nAda\t78 − 35\t43"
    wishes = {"job": "wrong", "answers": answers, "lang": "es"}
    assert Engine().ask(wishes)["marks"]["notes"] == [
        "Nota: «417?» se leyó como 417.",
        "Nota: solo vale la última respuesta donde hay más de una: «Ada 402 − 158».",
        "Nota: sin canje y por eso dicen poco: 78 − 35.",
    ]
    answers = "53 − 27\t61 − 38\tTotal\n34\t–\t1"
    notes = Engine().ask({"job": "wrong", "answers": answers})["marks"]["notes"]
    assert [note.split(":")[1] for note in notes] == [
        " no child has a name here; 1 is the one in the first row below the sums, and so on.",
        " left out, for no answers stand there",
        " read as not tried",
    ]


def test_of_one_slip_both_mistakes_that_give_it_too_are_told() -> None:
    right = [(83, 46), (60, 34), (241, 118), (435, 162), (523, 267), (402, 156), (700, 283)]
    answers = "Ada\t52 − 27\t35" + "".join(f"\nAda\t{w} − {p}\t{w - p}" for w, p in right)
    (ada,) = Engine().ask({"job": "wrong", "answers": answers})["marks"]["children"]
    assert ada["also"] == "smaller from larger; ten fetched, one not put back"


@pytest.mark.parametrize("answers", ["\t53 − 27\t34\nBen\t72 − 48\t34", "W" * 60 + "\t53-27\t34"])
def test_refusals_of_answers_name_the_box_they_stand_in(answers: str) -> None:
    assert refused({"job": "wrong", "answers": answers})[0][0] == "answers"


def test_each_mistake_has_its_picture_in_the_readers_language() -> None:
    answer = Engine().ask({"job": "wrong", "lang": "es", "answers": ANSWERS})
    told = {child["name"]: child for child in answer["marks"]["children"]}
    pictures = [told[name]["picture"] for name in ("Ada", "Dov", "Ben")]
    assert len({one["svg"] for one in pictures}) == 3
    assert all("decenas" in one["svg"] for one in pictures)
    assert pictures[2]["says"] == "Se trajeron 10 unidades, pero siguen ahí 7 decenas."
    four = mistake_picture(Sum(3002, 1005), "turned", 0, "en-GB")
    assert four
    assert "thousands" in four["svg"]


@pytest.mark.parametrize(
    ("answers", "row"),
    [
        ("Ada\t53 − 27\tten", 1),
        ("pupil\tsum\tanswer\nAda\t53 − 27\tten", 2),
        ("53 − 27\tten", 1),
    ],
)
def test_an_answer_that_is_none_is_told_by_its_row(answers: str, row: int) -> None:
    assert refused({"job": "wrong", "answers": answers})[0][:2] == ("answers", row)


def test_chosen_sums_are_of_the_kind_and_others_for_another_seed() -> None:
    wishes = {"job": "kit", "choose": {"kind": "across-zero", "count": "6", "seed": 1}}
    sums = Engine().ask(wishes)["plan"]["sums_used"]
    assert all(whole[-2] == "0" for whole, _ in sums)
    other = Engine().ask({**wishes, "choose": {**wishes["choose"], "seed": 2}})  # type: ignore[dict-item]
    assert other["plan"]["sums_used"] != sums


def test_drawing_stops_when_told() -> None:
    engine = Engine()
    answer = engine.ask({"job": "kit"})
    told: list[int] = []
    with pytest.raises(StoppedError):
        engine.draw(answer["id"], lambda done, total: told.append(done), lambda: len(told) == 3)
    assert told == [1, 2, 3]


def test_what_was_measured_is_told_and_kept() -> None:
    answer = Engine().ask(
        {"job": "measure", "paper": "a4", "measures": {"across": "147,3", "down": "150"}}
    )
    assert answer["printer"]["across"] == pytest.approx(0.982)
    kit = {"job": "kit", "paper": "a4", "printer": answer["printer"]["profile"]}
    assert drawn(kit)[1] != drawn({"job": "kit", "paper": "a4"})[1]


@pytest.mark.parametrize(
    ("typed", "name"),
    [("Kitchen printer", "kitchen-printer"), ("Büro 2!", "buro-2"), ("?", "printer")],
)
def test_a_printer_has_a_name_that_a_file_may_have(typed: str, name: str) -> None:
    measures = {"across": "147", "down": "147", "name": typed}
    answer = Engine().ask({"job": "measure", "paper": "a4", "measures": measures})
    assert not answer["refusals"]
    assert f'name = "{name}"' in answer["printer"]["profile"]


def test_cards_that_exchange_nothing_are_counted() -> None:
    plan = Engine().ask({"job": "packs", "pupils": "Ada\t45 - 23\nAda\t53 - 27"})["plan"]
    assert plan["plain"] == 1


def test_the_days_of_a_week_are_told_by_date() -> None:
    asked_for = {"weeks": "1", "days": "4", "start": "2026-12-02"}  # a Wednesday
    plan = Engine().ask({"job": "weeks", "paper": "a4", "plan": asked_for})["plan"]
    assert plan["dates"] == ["2026-12-02", "2026-12-04", "2026-12-07", "2026-12-08"]
    plan = Engine().ask({"job": "weeks", "paper": "a4", "plan": {**asked_for, "start": ""}})["plan"]
    assert not plan["dates"]


def test_the_back_is_measured_in_the_order_of_the_sheet_and_a_unit_may_be_typed() -> None:
    measures = {"across": "150 mm", "down": "150", "back_right": "−1", "back_down": "0,5"}
    answer = Engine().ask({"job": "measure", "paper": "a4", "measures": measures})
    assert not answer["refusals"]
    back = parse_toml(answer["printer"]["profile"], "printer.toml")["back_shift_mm"]
    assert back == {"across": -1, "down": 0.5}


@pytest.mark.parametrize(
    ("measures", "field"),
    [
        ({"across": "90", "down": "150"}, "across"),
        ({"across": "150", "down": "150", "top": "x"}, "top"),
        ({"across": "150", "down": "150", "back_down": "x"}, "back_down"),
    ],
)
def test_a_wrong_measure_is_refused_at_its_box_and_the_sheet_stays(
    measures: dict[str, str], field: str
) -> None:
    answer = Engine().ask({"job": "measure", "paper": "a4", "measures": measures})
    assert answer["plan"]
    assert [one["field"] for one in answer["refusals"]] == [field]


def test_every_sum_of_decimals_too_large_for_pieces_is_told_by_row() -> None:
    wishes = {"job": "packs", "pupils": "\tAda\tBen\n1\t12.4-3.8\t71-48\n2\t5-1.4\t23.1-4.7"}
    large = "decimals.too-large"
    assert refused(wishes) == [("pupils", 2, large), ("pupils", 3, large)]
    assert Engine().ask({**wishes, "more": {"stage": "written"}})["plan"]


AT_HOME = {**REHEARSED[6], "class": {"children": "29", "share": "2", "layers": "3", "home": True}}
FOR_WEEKS = {**AT_HOME, "sums": [["42", "17"]], "plan": {"weeks": "2", "days": "3", "start": ""}}
OWN_WEEKS = {"job": "weeks", "sums": FOR_WEEKS["sums"], "plan": FOR_WEEKS["plan"]}
MORE = {"svg": True, "sturdy": "fold", "mat": "three", "unit": "9", "only": ["pieces", "mats"]}


@pytest.mark.parametrize(
    "wishes",
    [
        {**REHEARSED[1], "more": MORE},
        *REHEARSED[4:7],
        AT_HOME,
        FOR_WEEKS,
        {**FOR_WEEKS, "sums": []},
        OWN_WEEKS,
    ],
)
def test_wishes_come_back_from_their_file(
    wishes: dict[str, Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def laid_out_only(request: Request, *_: object) -> None:
        prepare(request)
        raise SystemExit(0)

    monkeypatch.setattr(pipeline, "build", laid_out_only)
    text = Engine().keep({"lang": "en-GB", **wishes})
    back = opened(text)
    assert back["job"] == wishes["job"]
    assert Engine().keep({"lang": "en-GB", **back}) == text
    path = tmp_path / "wishes.toml"
    path.write_text(text)
    result = CliRunner().invoke(main, ["kit", str(path), "--out", str(tmp_path / "kit")])
    assert result.exit_code == 0, result.output


@pytest.mark.parametrize("weeks", [FOR_WEEKS, OWN_WEEKS], ids=["class", "weeks"])
def test_weeks_are_refused_where_they_are_typed(weeks: dict[str, Any]) -> None:
    plan = {"weeks": "60", "days": "x", "start": ""}
    found = refused({**weeks, "plan": plan})
    assert found == [("days", 0, "option.number"), ("weeks", 0, "option.range")]
    untaught = [["43", "17"], ["48", "15"], ["42", "17"], ["305", "148"], ["44", "38"]]
    assert refused({**weeks, "sums": untaught}) == [
        ("sums", 2, "plan.no-exchange"),
        ("sums", 3, "plan.by-five"),  # 2 to 7
        ("sums", 4, "plan.no-room"),  # two weeks are all of two places
        ("sums", 5, "plan.small-rest"),
    ]
    apart = [["4231", "1864"], ["4000", "1346"]]  # of thousands one kind
    assert refused({**weeks, "sums": apart}) == [("sums", 2, "plan.other-kind")]


def test_weeks_of_a_class_are_printed_whatever_else_is() -> None:
    few = asked({**FOR_WEEKS, "more": {"only": ["pieces"]}}).request
    assert few.printed == ("pieces", "week")


@pytest.mark.parametrize(
    ("kind", "count", "refusals"),
    [
        ("ones", "6", []),
        ("none", "2", [("kind", 0, "screen.weeks-plain")]),
        ("ones", "40", [("count", 0, "screen.weeks-fewer")]),
    ],
)
def test_chosen_sums_that_open_weeks_are_told_alone_though_refused(
    kind: str, count: str, refusals: list[tuple[str, int, str]]
) -> None:
    wishes = {**FOR_WEEKS, "choose": {"kind": kind, "count": count, "seed": 1}}
    answer = Engine().ask(wishes)
    assert [(one["field"], one["row"], one["code"]) for one in answer["refusals"]] == refusals
    assert len(answer["chosen"]) == int(count)


def test_a_file_that_is_no_request_is_refused() -> None:
    answer = Engine().open("colour = 1", "es")
    assert answer["wishes"] is None
    assert answer["refusals"][0]["says"]


def test_kits_leave_no_memory_behind() -> None:
    """What the engine holds is bounded: as much after thirty kits as after twenty."""
    engine = Engine()

    def make(whole: int) -> None:
        answer = engine.ask({"job": "tonight", "sums": [[str(whole), "17"]]})
        for method in ("draw", "file"):
            engine.call(method, [answer["id"]], lambda done, total: None)

    for whole in range(21, 31):
        make(whole)
    tracemalloc.start()
    held = []
    for tens in (4, 5, 6):
        for ones in range(0, 10, 2):
            make(10 * tens + ones)
        gc.collect()
        held.append(tracemalloc.get_traced_memory()[0])
    tracemalloc.stop()
    assert held[2] - held[1] < 3_000_000, held


def test_a_sum_that_does_not_go_with_the_others_is_told_at_its_row() -> None:
    sums = [["3", "1.47"], ["53", "27"]]
    assert refused({"job": "kit", "sums": sums}) == [("sums", 2, "decimals.alone")]
    sums = [["634", "258"], ["3", "1.47"], ["9", "4"], ["53", "27"]]  # 9 goes with decimals
    alone = [("sums", row, "decimals.alone") for row in (1, 4)]
    assert refused({"job": "kit", "sums": sums}) == alone


def test_packs_of_whole_numbers_and_of_decimals_are_two_files(tmp_path: Path) -> None:
    table = "Ann\t43-17\nBen\t6.34-2.58\nAnn\t3.2-1.4"
    wishes = {"job": "packs", "pupils": table}
    made = [(wishes | {"kind": kind}, kind) for kind in ("whole", "decimals")]
    assert [Engine().ask(one)["plan"]["apart"] for one, _ in made] == ["whole", "decimals"]
    files = [drawn(one) for one, _ in made]
    assert [told["file"] for told, _ in files] == ["packs.pdf", "packs-decimals.pdf"]
    csv, out = tmp_path / "p.csv", tmp_path / "cards"
    csv.write_text("name,sum\nAnn,43-17\nBen,6.34-2.58\nAnn,3.2-1.4\n")
    given = ["cards", "--pupils", str(csv), "--out", str(out)]
    assert CliRunner().invoke(main, given).exit_code == 0
    held = [(out / name).read_bytes() for name in ("cards.pdf", "decimals/cards.pdf")]
    assert [file for _, file in files] == held


def test_packs_of_one_kind_are_one_file_and_their_name_says_which() -> None:
    wishes = {"job": "packs", "pupils": "Ann\t9-4\nBen\t6.34-2.58", "lang": "es"}
    assert Engine().ask(wishes)["plan"]["apart"] == ""
    assert drawn(wishes)[0]["file"] == "sobres-decimales.pdf"


def test_of_packs_apart_neither_is_printed_before_all_rows_are_right() -> None:
    table = "Ada\t53 − 27\nBen\t27 − 53\nCara\t3.5 − 1.2"
    assert refused({"job": "packs", "pupils": table}) == [("pupils", 2, "sum.too-much")]
    table = "Ada\t53 − 27\nCara\t1.234 − 0.5\nDov\t12.5 − 3.1"
    found = refused({"job": "packs", "pupils": table, "more": {"stage": "written"}})
    assert found == [("pupils", 3, "decimals.beside-thousandths")]


@pytest.mark.parametrize(
    ("whole", "part", "named"),
    [
        ("5432", "1822", "hundreds"),
        ("5432", "1876", "several"),
        ("431", "257", "both"),
        ("3.4", "1.6", "one"),
        ("3.52", "1.17", "tenth"),
        ("3", "1.47", "across-zero"),
    ],
)
def test_what_a_sum_exchanges_is_told_by_its_places(whole: str, part: str, named: str) -> None:
    answer = Engine().ask({"job": "kit", "sums": [[whole, part]]})
    assert answer["sums"] == [{"row": 1, "kind": named}]
    assert {f"kind.{named}"} <= screen_words("es").keys()


def test_spanish_with_a_point_has_no_comma_of_decimals() -> None:
    """Mexico and the United States write thousands with a comma (CLDR 48)."""
    table = "Alumno\t4,002-1,768\t3,104-2,556\nLucía\t2,234\t548"
    marks = Engine().ask({"job": "wrong", "lang": "es-MX", "answers": table})["marks"]
    assert "millares" in marks["notes"][0]
    assert marks["read"][0]["sums"] == [["4002", "1768", "2234"], ["3104", "2556", "548"]]
    plan = Engine().ask({"job": "packs", "lang": "es-MX", "pupils": "Lucía, 6.2-3.8"})["plan"]
    assert plan["read"][0]["sums"] == [["6.2", "3.8"]]
    pages = Engine().ask({"job": "kit", "lang": "es-MX", "sums": [["6.2", "3.8"]]})["plan"]
    assert pages["sums_used"] == [["6.2", "3.8"]]


def test_answers_with_decimals_are_read_and_written_as_the_language_does() -> None:
    table = "Ada\t3,4 - 1,6\t2,2\nBen\t5 - 1.47\t3,53"
    marks = Engine().ask({"job": "wrong", "lang": "es", "answers": table})["marks"]
    ada, ben = marks["children"]
    assert ada["wrong"] == ["3,4", "1,6", "2,2", "1,8"]
    assert "décimas" in ada["picture"]["svg"]
    assert ben["wrong"] is None
    answers = f"{table}\nCleo\t3 - 1,47\tten"
    assert refused({"job": "wrong", "answers": answers}) == [
        ("answers", 3, "answers.unreadable-decimal")
    ]


def test_whole_numbers_and_decimals_among_answers_are_told_and_make_no_pack() -> None:
    table = "Ana\t52 - 27\t35\nBruno\t3,4 - 1,75\t2,35\nDev\t4002 - 1768\t2234"
    answer = Engine().ask({"job": "wrong", "lang": "es", "answers": table})
    (refusal,) = answer["refusals"]
    assert (refusal["row"], refusal["code"]) == (0, "answers.few-decimals")
    assert "Bruno 3,4 − 1,75; póngalas en una tabla aparte" in refusal["says"]
    assert answer["plan"] is None and "marks" not in answer
    table = "\nName\t52 - 27\t5 - 2.36\t43 - 17\nAna\t35\t3.64\t36\nDev\t25\t2.64\t26"
    assert refused({"job": "wrong", "answers": table}) == [("answers", 2, "answers.few-decimals")]


def test_decimals_are_told_as_they_are_written() -> None:
    plan = Engine().ask({"job": "kit", "sums": [["3.2", "1.47"]]})["plan"]
    assert plan["sums_used"] == [["3.2", "1.47"]]


@pytest.mark.parametrize(
    ("language", "typed", "meant"),
    [("es", "9,234", None), ("es", "9.234", "9,234"), ("en-GB", "9.234", None)],
)
def test_thousandths_are_read_with_the_mark_of_the_language(
    language: str, typed: str, meant: str | None
) -> None:
    """They are written work alone; what is refused is quoted with the language's mark too."""
    wishes = {"job": "kit", "lang": language, "sums": [[typed, typed.replace("9", "1", 1)]]}
    (refusal,) = Engine().ask(wishes)["refusals"]
    code = "sum.thousandths" if meant else "decimals.thousandths"
    assert (refusal["code"], refusal["row"]) == (code, 1)
    assert (meant or typed) in refusal["says"]
    table = f"Ada\t{typed} - {typed.replace('9', '1', 1)}"
    pasted = Engine().ask({"job": "packs", "lang": language, "pupils": table})
    told = [(one["code"], one["row"]) for one in pasted["refusals"]]
    assert told == ([] if meant else [(code, 1)])  # in a table, the other mark is of thousands


@pytest.mark.parametrize(("home", "box"), [(False, True), (True, False)])
def test_a_box_for_the_thousands_that_a_class_shares_is_counted(home: bool, box: bool) -> None:
    of_class = {"children": "6", "share": "2", "layers": "1", "home": home}
    more = {"only": ["pieces"]}
    wishes = {"job": "class", "sums": [["4002", "1768"]], "class": of_class, "more": more}
    plan = Engine().ask(wishes)["plan"]
    assert {"code": "bags", "count": 3} in plan["needs"]
    assert ("box" in {need["code"] for need in plan["needs"]}) is box
    lines = (item.content for item in prepare(asked(wishes).request).laid.sheets[0].items)
    said = [one.text for one in lines if isinstance(one, Line)]
    assert ("bags: 3, and a box" in said) is box
