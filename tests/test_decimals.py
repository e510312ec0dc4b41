"""A kit with tenths and hundredths: names, points and refusals, in every language."""

import json
import re
from dataclasses import replace
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from grids import each, some

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.design.typefaces import FAMILY, HEADING_FAMILY
from kitbuilder.errors import RefusedError
from kitbuilder.kit.advice import WrongAnswers
from kitbuilder.kit.card_packs import answer, loose_digits
from kitbuilder.kit.card_records import CardWishes, Kind, Stage
from kitbuilder.kit.child_words import child_words
from kitbuilder.kit.class_marks import Cell, class_marks
from kitbuilder.kit.course.course_records import Road
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.layout.assemble import LaidOut
from kitbuilder.layout.cards.small_help import below_digits
from kitbuilder.layout.course.road_page import road_sheets
from kitbuilder.layout.mat.mat_records import LabelKind, MatTile
from kitbuilder.layout.model import Rect
from kitbuilder.layout.pages.child_page import child_sheets
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.child_sum import written
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.parts.settings import Setting
from kitbuilder.layout.parts.written_columns import POINT, Ruling, ruled, worked
from kitbuilder.layout.worksheets.worksheet_cells import cell_items
from kitbuilder.number import Sum
from kitbuilder.number.course.suitable_sums import covers
from kitbuilder.number.mistakes.decimal import decimal_answers
from kitbuilder.number.rounded import estimate
from kitbuilder.number.scale import HUNDREDTHS, Scale
from kitbuilder.number.written import columns
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.answer_cells import read_answer
from kitbuilder.request.request import Currency, Part, Request, currency, read_sum

SUMS = ("3 - 1.47", "6,2-1,47", "5 - 0.62")


def request(words: str = "en-GB", paper: str = "a4", parts: tuple[Part, ...] = ()) -> Request:
    sums = tuple(map(read_sum, SUMS))
    press = Press(words=designs.words(words))
    more = {"parts": parts} if parts else {}
    return Request(sums, fitted_paper(paper), press=press, **more)  # type: ignore[arg-type]


def laid(asked: Request) -> LaidOut:
    return laid_out(held(asked), asked)


@pytest.mark.parametrize(
    ("words", "numbers", "one"), [("en-GB", "3 − 1.47", "ones"), ("es", "3 − 1,47", "unidades")]
)
def test_the_language_writes_the_point_and_names_the_places(
    words: str, numbers: str, one: str
) -> None:
    asked = request(words)
    kit = held(asked)
    assert str(kit.sums[0]) == numbers
    assert asked.press.words("place.hundreds") == one
    assert kit.packs[0].tasks[0].lines[1].endswith(f"{numbers[4:]}.")
    assert kit.sums[2].whole == 500  # a whole number beside decimals


def test_words_of_decimals_stand_for_words_that_are_there() -> None:
    for name in designs.names("words"):
        entries = designs.words(name).entries
        decimal = [key for key in entries if key.startswith("decimal.")]
        assert decimal
        assert {key.removeprefix("decimal.") for key in decimal} <= {*entries}


@pytest.mark.parametrize(("words", "paper"), each(("en-GB", "es", "en-US"), ("a4", "letter", "a3")))
def test_a_kit_of_decimals_fits_its_pages(words: str, paper: str) -> None:
    sheets = laid(request(words, paper)).sheets
    assert {str(sheet.kind) for sheet in sheets} >= {"cover", "pieces", "mat", "guide", "answers"}


@pytest.mark.parametrize(
    ("typed", "words"),
    some(
        product(
            ("3 - 1.47", "6.2 - 1.47", "5 - 0.62", "9.1 - 0.05", "0.5 - 0.26"), ("es", "en-GB")
        ),
        2,
    ),
)
def test_a_kit_of_one_sum_fits_its_pages(typed: str, words: str) -> None:
    """Its mistakes are shown with an example where the sum itself does not show them."""
    press = Press(words=designs.words(words))
    asked = Request((read_sum(typed),), fitted_paper("a4"), press=press, parts=("guide", "cards"))
    assert laid(asked).sheets


def test_the_mat_has_a_point_after_the_ones_in_each_zone() -> None:
    sheets = laid(request("es", parts=("mats",))).sheets
    tiles = [i.content for s in sheets for i in s.items if isinstance(i.content, MatTile)]
    mat = tiles[0].mat
    points = [label for label in mat.labels if label.kind is LabelKind.POINT]
    line = mat.zone("whole", 2).rect.right
    assert {label.text for label in points} == {","}
    assert {label.role for label in points} == {"whole", "part"}
    assert all(abs(p.rect.x + p.rect.width / 2 - line) < 1e-6 for p in points)
    solid = [r for zone in mat.zones for r in (*zone.slots, *zone.frames, zone.box)]
    assert not any(p.rect.overlaps(r) for p in points for r in solid)


def test_the_point_stands_before_a_join_along_its_line() -> None:
    """On Letter in Spanish two sheets meet after the ones."""
    sheets = laid(request("es", "letter", parts=("mats",))).sheets
    tiles = [i.content for s in sheets for i in s.items if isinstance(i.content, MatTile)]
    mat = tiles[0].mat
    line = mat.zone("whole", 2).rect.right
    assert any(abs(tile.x - line) < 1e-6 for tile in mat.tiles)
    points = [label.rect for label in mat.labels if label.kind is LabelKind.POINT]
    assert len(points) == 4
    assert all(line - 1.0 < point.right < line for point in points)


def test_the_point_keeps_clear_of_boxes_that_stand_near_the_line() -> None:
    """The mat's checker refuses what lies over each other: on Legal in bold a box stands there."""
    look = designs.look("bold")
    sums = (read_sum("7 - 4.95"), read_sum("7 - 2.66"))
    asked = Request(sums, fitted_paper("legal"), parts=("mats",), press=Press(look=look))
    assert laid(asked).sheets


def test_written_columns_leave_room_for_the_point() -> None:
    sum_ = Sum(300, 147, HUNDREDTHS)
    plain = request().press.style(fitted_paper("a4"))
    for style, points in ((plain, 3), (Press().style(plain.paper), 0)):
        block = worked(columns(sum_), 10.0, style)
        said = [i for i in block.items if getattr(i.content, "text", "") == "."]
        assert len(said) == points
        empty = ruled((0, 0, 3), (7, 4, 1), Ruling(), 10.0, style)
        assert len([i for i in empty.items if getattr(i.content, "text", "") == "."]) == points
    wide = [worked(columns(sum_), 10.0, s).width for s in (plain, Press().style(plain.paper))]
    assert wide[0] - wide[1] == pytest.approx(10.0 * POINT)


def test_loose_digits_lay_all_rows_with_their_points() -> None:
    """3.00 - 1.47 = 1.53 takes two zeros of the whole, and a point in every row."""
    found = loose_digits([Sum(300, 147, HUNDREDTHS)])
    assert found.count(".") == 3
    assert found.count("0") >= 2
    assert "." not in loose_digits([Sum(300, 147)])


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"sums": ("3 - 1.47", "43 - 17")}, "43 − 17 is too large beside decimals"),
        ({"sums": ("12.5 - 1",)}, "12.5 − 1 passes 9.99"),
        ({"within": 100}, "for any up to 9.99 add --pieces 9,19,18"),
        ({"parts": ("differently",)}, "leave it out of --only"),
        ({"cards": CardWishes(kinds=("stories",))}, "stories and arrows hold whole numbers"),
    ],
)
def test_what_has_no_decimals_is_refused(more: dict[str, object], says: str) -> None:
    given: Any = more.pop("sums", SUMS)
    sums = tuple(read_sum(typed) for typed in given)
    with pytest.raises(RefusedError, match=says):
        Request(sums, fitted_paper("a4"), **more)  # type: ignore[arg-type]


def test_cards_to_be_written_reach_further() -> None:
    sums = (read_sum("43.5 - 1.47"),)
    wishes = CardWishes(stage="written", kinds=("tasks",))
    asked = Request(sums, fitted_paper("a4"), parts=("cards",), cards=wishes, name="cards")
    assert laid(asked).sheets


def run(*args: str) -> Result:
    return CliRunner().invoke(main, args)


def test_show_speaks_of_hundredths() -> None:
    shown = run("show", "6.2-1.47").stdout
    assert "exchange 1 tenth for 10 hundredths" in shown
    assert "   6.   2   0\n" in shown
    assert "   1,   4   7\n" in run("show", "6.2-1.47", "--words", "es").stdout


@pytest.mark.parametrize(("words", "heads"), [("en-GB", "TOth"), ("en-US", "TOth"), ("es", "DUdc")])
def test_tens_above_ones_with_decimals_are_called_tens(words: str, heads: str) -> None:
    asked = Request(
        (read_sum("45.5 - 12.75"),),
        fitted_paper("a4"),
        parts=("cards",),
        press=Press(words=designs.words(words)),
        cards=CardWishes(kinds=("tasks",), stage="written"),
    )
    card = held(asked).packs[0].tasks[0]
    assert "".join(reversed(card.headings)) == heads
    tens = "decenas" if words.startswith("es") else "tens"
    assert asked.press.words("place.thousands") == tens


def test_sizes_count_large_squares_as_ones() -> None:
    compared = CliRunner().invoke(main, ["sizes", "3 - 1.47"]).output
    assert "ones a sheet" in compared.splitlines()[0]
    assert "hundreds" not in compared


@pytest.mark.parametrize(
    ("args", "read"),
    [
        (("9.234 - 1.456",), "9.234 − 1.456"),
        (("9,234 - 1,456", "--words", "es"), "9,234 − 1,456"),
        (("5 - 1,768",), "5 − 1.768"),
    ],
)
def test_thousandths_are_printed_as_written_work(
    args: tuple[str, ...], read: str, tmp_path: Path
) -> None:
    done = run("cards", *args, "--stage", "written", "--kinds", "tasks,digits,additions,record",
               "--out", f"{tmp_path}")  # fmt: skip
    assert done.exit_code == 0
    record = json.loads((tmp_path / "cards.json").read_text())
    assert record["decimals"] == 3
    (sum_,) = record["sums"]
    assert f"{sum_['whole']}" == re.sub(r"\D", "", read.partition(" ")[0]).ljust(4, "0")


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("cards", "9.999 - 1.234"), "no piece is so small: only cards print it"),
        (("kit", "9.2 - 1.475"), "thousands are typed without a mark"),
        (("kit", "9.2 - 1.475", "--weeks", "2"), "no piece is so small"),
        (("cards", "9,999 - 1,234", "--stage", "written"), "as 9999 - 1234; thousandths, as"),
        (("cards", "9.999 - 1.234", "43.5 - 2", "--stage", "written"), "go up to 9.999"),
        (("cards", "9.999 - 1", "--stage", "written", "--kinds", "exchange"), "no exchange cards"),
    ],
)
def test_thousandths_are_refused_with_pieces(args: tuple[str, ...], says: str) -> None:
    refused = run(*args)
    assert refused.exit_code == 2
    assert says in refused.stderr


@pytest.mark.parametrize(
    ("words", "heads"), [("en-GB", "Othth"), ("en-US", "Othth"), ("es", "Udcm")]
)
def test_columns_of_thousandths_have_their_headings(words: str, heads: str) -> None:
    wishes = CardWishes(kinds=("tasks",), stage="written")
    press = Press(words=designs.words(words))
    sums = tuple(map(read_sum, ("9.234 - 1.456", "3.5 - 1.2")))
    card, short = (
        held(Request(sums, fitted_paper("a4"), parts=("cards",), press=press, cards=wishes))
        .packs[0]
        .tasks
    )
    assert "".join(reversed(card.headings)) == heads
    assert "".join(reversed(short.headings)) == heads[:2]


def test_only_the_columns_that_a_sum_has_are_written() -> None:
    """99.9 − 12.3 has tenths alone, beside 4.27 − 1.58 as on its own; 6.20 − 1.40 was typed so."""
    assert "   9   9.   9\n" in run("show", "99.9 - 12.3").stdout
    assert "   6.   2   0\n" in run("show", "6.20 - 1.40").stdout
    sums = tuple(map(read_sum, ("99.9 - 12.3", "43 - 17", "4.27 - 1.58")))
    wishes = CardWishes(kinds=("tasks",), stage="written", backs="long-edge")
    asked = Request(sums, fitted_paper("a4"), parts=("cards",), cards=wishes, name="cards")
    tasks = held(asked).packs[0].tasks
    assert [len(task.back.columns) for task in tasks if task.back] == [3, 2, 3]
    assert [len(task.headings) for task in tasks] == [3, 2, 3]
    assert [len(answer.columns) for answer in held(asked).packs[0].answers] == [3, 2, 3]
    assert laid(asked).sheets


def test_moves_are_written_in_the_columns_that_the_sum_has() -> None:
    """6.2 − 1.4 has ones and tenths; 3 − 1.47 has hundredths too."""
    words = designs.words().decimal
    for typed, count in (("6.2 - 1.4", 2), ("3 - 1.47", 3)):
        moves = writing((read_sum(typed).on(words.scale),), words).moves
        assert {len(move.columns) for move in moves} == {count}
        assert {move.scale.decimals for move in moves} == {count - 1}
    last = writing((read_sum("3.5 - 1.7").on(words.scale),), words).moves[-1]
    assert last.title.endswith("Write 8, then 1.")  # of the hundredths there is no column


def test_answers_with_thousandths_are_read(tmp_path: Path) -> None:
    table = tmp_path / "answers.csv"
    table.write_text("name,9.234 - 1.456,5.1 - 2.34\nBo,8.222,3.24\nAda,7778,2.76\n")
    said = run("marks", f"{table}", "--out", f"{tmp_path / 'marks'}").stdout
    assert "8.222a" in said
    assert "Smaller from larger" in said
    nexts = re.findall(r"With the pieces, next: (.*)\.\n", said)[0]
    assert not re.search(r"\.\d{3}", nexts)  # pieces show them
    table.write_text("name,9.234 - 1.456\nBo,8.2225\n")
    assert "at most 3 decimals" in run("marks", f"{table}", "--out", f"{tmp_path}").stderr


def test_a_child_shows_how_thousandths_were_written() -> None:
    sum_ = Sum(9234, 1456, Scale(3))
    (child,) = class_marks([("Bo", [Cell(sum_, 8222)])]).children
    said = child_words(child, designs.words().counting(3))
    assert said is not None
    assert said.asks[0] == "Show me how you wrote it."
    assert said.watch[0].startswith("In writing alone: pieces go down to hundredths.")


def test_show_writes_alone_what_no_pieces_show() -> None:
    for more in ((), ("--answer", "97.6"), ("--answer", "1")):
        shown = CliRunner().invoke(main, ["show", "99.9 - 12.3", *more]).output
        assert "thousand" not in shown
        assert "with the pieces" not in shown.lower()
        assert "Build" not in shown
    assert "9,99" in CliRunner().invoke(main, ["show", "45.5 - 12.75", "--words", "es"]).output


def test_a_way_out_that_was_taken_is_not_named_again(tmp_path: Path) -> None:
    asked = ["kit", "99.9 - 12.3", "--out", str(tmp_path), "--stage", "written"]
    refused = CliRunner().invoke(main, asked)
    assert refused.exit_code == 2
    assert "--only cards" in refused.stderr
    assert CliRunner().invoke(main, [*asked, "--only", "cards"]).exit_code == 0


def test_show_explains_mistakes_of_decimals() -> None:
    assert "Two whole numbers" in run("show", "6.2-1.47", "--answer", "5,45").stdout
    assert (
        "dos números enteros"
        in run("show", "6.2-1.47", "--answer", "5.45", "--words", "es").stdout.lower()
    )
    refused = run("show", "6.2-1.47", "--answer", "5.457")
    assert refused.exit_code == 2
    assert "at most 2 decimals" in refused.stderr


def test_the_record_tells_that_numbers_count_hundredths(tmp_path: Path) -> None:
    assert run("kit", "3 - 1.47", "--only", "cards", "--out", str(tmp_path)).exit_code == 0
    told = (tmp_path / "kit.json").read_text()
    assert '"decimals": 2' in told
    assert '"whole": 300' in told


@pytest.mark.parametrize(
    ("code", "words", "written"),
    [
        ("GBP", "en-GB", "£3.00 − £1.47"),
        ("EUR", "es", "3,00\xa0€ − 1,47\xa0€"),
        ("USD", "en-US", "$3.00 − $1.47"),
        ("MXN", "es", "$3.00 − $1.47"),
    ],
)
def test_amounts_are_written_as_the_language_does(code: Currency, words: str, written: str) -> None:
    press = Press(words=designs.words(words))
    kinds: tuple[Kind, ...] = ("exchange", "tasks", "additions", "digits")
    asked = Request(
        (read_sum("3 - 1.47"), read_sum("5 - 2")),
        fitted_paper("a4"),
        press=press,
        cards=CardWishes(kinds=kinds),
        money=code,
        parts=("pieces", "cards"),
    )
    kit = held(asked)
    assert str(kit.sums[0]) == written
    assert kit.sums[1].whole == 500
    assert laid(asked).sheets
    assert asked.press.words("cover.without") == asked.press.words(f"coins.{code}")


def test_money_is_typed_in_any_letters_and_an_unknown_one_is_refused() -> None:
    assert currency("eur") == "EUR"
    assert currency(None) is None
    with pytest.raises(RefusedError, match="choose from GBP, EUR, USD, MXN"):
        currency("CHF")


def test_a_letter_that_the_wide_typeface_lacks_is_set_in_the_usual_one() -> None:
    assert metrics.runs("Es: 3 €", HEADING_FAMILY) == ((HEADING_FAMILY, "Es: 3 "), (FAMILY, "€"))
    assert metrics.width("€", 1.0, HEADING_FAMILY) == metrics.width("€", 1.0)


def test_a_metre_is_printed_where_it_is_wished_for(tmp_path: Path) -> None:
    assert run("kit", "3 - 1.47", "--metre", "--out", str(tmp_path)).exit_code == 0
    assert '"kind": "metre"' in (tmp_path / "kit.json").read_text()


def test_the_first_week_is_one_of_decimals() -> None:
    """It opens with the family's first; the others are like it and differ in their wholes."""
    kit = held(request("es"))
    sums = [one.sum for sheet in kit.course.worksheets for one in sheet.asked]
    assert sums
    assert {sum_.scale for sum_ in sums} == {kit.sums[0].scale}
    assert kit.first[0] == kit.sums[0]
    assert len({sum_.whole for sum_ in kit.first}) == 10


@pytest.mark.parametrize(
    "sums",
    [(Sum(530, 270, HUNDREDTHS), Sum(905, 48, HUNDREDTHS)), (Sum(3421, 1150), Sum(4002, 1768))],
)
def test_the_first_week_asks_no_sum_of_a_harder_kind_than_its_lesson(sums: tuple[Sum, ...]) -> None:
    kit = held(Request(sums, fitted_paper("a4")))
    assert kit.first[0].whole == sums[0].whole and sums[1] in kit.sums
    assert sums[1].whole not in {sum_.whole for sum_ in kit.first}


@pytest.mark.parametrize(("whole", "part"), [(35, 17), (53, 28), (30, 17)])
def test_tenths_alone_have_a_kit_of_tenths(whole: int, part: int) -> None:
    """No sum to do, no piece and no wrong answer has hundredths, which no lesson has shown."""
    kit = held(Request((Sum(whole, part, Scale(1)),), fitted_paper("a4")))
    road, wrong = kit.course.road, next(one for one in kit.guide if isinstance(one, WrongAnswers))
    assert road is not None
    now = [s for row in road.rows if row.reached for s in (row.opening, *row.more) if s]
    shown = [*kit.first, *now, *(mistake.sum for mistake in wrong.mistakes)]
    assert len({*kit.first}) == 10
    assert all(sum_.short().scale.decimals <= 1 and covers(kit.pieces, sum_) for sum_ in shown)
    assert kit.pieces.ones == 0
    assert len(kit.exchange_cards) == 1


def test_a_sum_that_takes_more_pieces_is_no_sum_to_do_now() -> None:
    road = held(Request((Sum(35, 17, Scale(1)),), fitted_paper("a4"))).course.road
    assert road is not None
    row = next(row for row in road.rows if not row.reached)
    sheets = road_sheets(Road((row,)), Style(fitted_paper("a4"), designs.words(), designs.look()))
    said = [i.content for sheet in sheets for i in sheet.items if isinstance(i.content, Line)]
    assert str(row.opening) not in [one.text for one in said]


def test_the_way_on_is_of_decimals_too() -> None:
    road = held(request()).course.road
    assert road is not None
    sums = [sum_ for row in road.rows for sum_ in (row.opening, *row.more) if sum_]
    assert len(sums) > 5
    assert all(sum_.scale.decimals for sum_ in sums)


@pytest.mark.parametrize(
    ("whole", "part", "about"),
    [(601, 147, "5"), (62, 18, "0.4"), (305, 260, "0.5"), (213, 177, "0.3")],
)
def test_an_estimate_is_of_whole_ones_or_below_one_of_tenths(
    whole: int, part: int, about: str
) -> None:
    assert str(estimate(Sum(whole, part, HUNDREDTHS))) == about


def test_a_table_of_answers_may_have_decimals(tmp_path: Path) -> None:
    """It reads as the table of its hundredths."""
    table, bare = tmp_path / "a.csv", tmp_path / "b.csv"
    table.write_text("name;3 - 1,47;6,2 - 1,47;7,5 - 2\nAna;1,53;5,27;5,5\nCy;1.53;5,45;\n")
    bare.write_text("name;300 - 147;620 - 147;750 - 200\nAna;153;527;550\nCy;153;545;\n")
    said = run("marks", str(table), "--words", "es", "--out", str(tmp_path / "out"))
    assert said.exit_code == 0
    assert "               − 1,47 − 1,47  − 2,0\n" in said.stdout
    plain = run("marks", str(bare), "--words", "es", "--out", str(tmp_path / "bare")).stdout
    assert "Ana                 .  5,27a      ." in said.stdout
    assert "Ana                 .   527a      ." in plain
    record = (tmp_path / "out" / "marks.json").read_text()
    assert '"7,5 - 2"' in record


def test_the_terminal_tells_a_mat_in_hundredths(tmp_path: Path) -> None:
    said = run("kit", "3.2 - 1.47", "--out", str(tmp_path)).stdout
    assert "it holds 3 ones at once" in said
    assert re.search(
        "[0-9]+ tenths at once in .* if the tenths are taken first; [0-9]+ hundredths", said
    )
    assert "hundreds" not in said


def test_a_mistake_of_decimals_has_a_group_of_its_own(tmp_path: Path) -> None:
    table = tmp_path / "a.csv"
    table.write_text(
        "name,6.2-1.47,5.3-2.18,7.4-3.62,8.1-2.35,9.25-4.86\nAna,5.45,3.15,4.58,6.34,4.39\n"
        "Ben,4.73,3.12,3.78,5.75,4.39\nCay,4.87,3.28,3.82,5.85,4.39\nDov,5.45,3.12,3.78,5.75,4.39\n"
    )
    said = run("marks", str(table), "--out", str(tmp_path / "out"))
    assert said.exit_code == 0
    assert "  Two whole numbers: Ana\n" in said.stdout
    assert "  The lone digit brought down: Cay\n" in said.stdout
    assert "More sums first: Dov" in said.stdout


def test_an_answer_in_a_table_has_two_decimals_at_most() -> None:
    sum_ = Sum(300, 147, HUNDREDTHS)
    assert read_answer("1,5", sum_) == 150
    assert str(read_answer("1.53", sum_)) == "1.53"
    assert read_answer("–", sum_) is None
    with pytest.raises(RefusedError, match="at most 2 decimals"):
        read_answer("1.533", sum_)


def test_numbers_below_each_other_have_all_their_decimals() -> None:
    sum_ = Sum(300, 47, HUNDREDTHS)
    assert [sum_.aligned(n) for n in (300, 47, 253)] == ["3.00", "0.47", "2.53"]
    assert Sum(43, 17).aligned(17) == "17"
    assert sum_.on(Scale(2, ",", "{number} €")).typed == "3 - 0,47"


def test_sums_that_come_next_show_the_mistake_of_decimals() -> None:
    """They stand in a line, decimals of different lengths, so that the child lays them out."""
    given = [read_sum(text) for text in ("6.2 - 1.47", "3 - 1.47", "5 - 2.35")]
    for key, answers in {
        "lone-digit": (487, 247, 335),
        "aligned-right": (85, 144, 230),
    }.items():
        cells = [Cell(s.on(HUNDREDTHS), a) for s, a in zip(given, answers, strict=True)]
        child = class_marks([("Bo", cells)]).children[0]
        assert [likely.key for likely in child.reading.habits] == [key]
        assert len(child.next.practice) == 5
        assert all(key in dict(decimal_answers(sum_)) for sum_ in child.next.practice)
        style = Style(fitted_paper("a4"), designs.words().decimal, designs.look())
        said = child_words(child, style.words)
        assert said is not None
        items = [one for sheet in child_sheets(child, said, 1, style) for one in sheet.items]
        lines = {one.content.text for one in items if isinstance(one.content, Line)}
        assert {str(sum_) for sum_ in child.next.practice} <= lines


def test_a_sum_to_be_written_leaves_the_zeros_to_the_child() -> None:
    """3 - 1.47 has one digit above 1.47 where it is written; with pieces drawn beside, three."""
    assert Scale(2).zeros(300) == 2
    assert Scale(2).zeros(620) == 1
    assert Scale(2, full=True).zeros(620) == 0 == Scale().zeros(600)
    style = Style(fitted_paper("a4"), designs.words().decimal, designs.look())
    sheet = next(iter(held(request()).course.worksheets))
    key = next(iter(held(request()).course.keys))
    stages: tuple[tuple[Stage, int], ...] = (("written", 4), ("drawn", 6))
    framed = []
    for stage, printed in stages:
        asked = replace(sheet.asked[0], sum=read_sum("3 - 1.47"), stage=stage)
        cells = cell_items(sheet, asked, "a", Rect(0, 0, 90, 60), style)
        digits = [i for i in cells if isinstance(i.content, Line) and i.content.text.isdecimal()]
        assert len(digits) == printed
        cells = cell_items(key, asked, "a", Rect(0, 0, 90, 60), style)
        framed.append(sum(item.what == "digit_box" for item in cells))
    assert framed[0] == framed[1] + 2  # the two zeros of 3.00, which the child writes


def digits_of(block: Block) -> dict[str, list[tuple[float, float]]]:
    """Return where the middle of each digit stands, by the digit."""
    found: dict[str, list[tuple[float, float]]] = {}
    for item in block.items:
        if isinstance(item.content, Line):
            spot = (item.rect.x + item.rect.width / 2, item.rect.y + item.rect.height / 2)
            found.setdefault(item.content.text, []).append(spot)
    return found


def test_a_mistake_of_unequal_decimals_is_shown_as_the_child_laid_it_out() -> None:
    """3 stands above the 7 where ends were lined up, with nothing beside it else; no zeros."""
    sum_, setting = read_sum("3 - 1.47"), Setting(10.0, 12.0)
    right = digits_of(written(sum_, setting, 144, "aligned-right"))
    assert right["3"][0][0] == pytest.approx(right["7"][0][0])
    assert len(right["."]) == 2
    down = digits_of(written(sum_, setting, 247, "lone-digit"))
    assert down["3"][0][0] == pytest.approx(down["1"][0][0])
    assert "0" not in {*right, *down}
    two = digits_of(written(read_sum("6.2 - 1.47"), setting, 545, "two-wholes"))
    assert two["2"][0][0] == pytest.approx(two["4"][0][0])
    short = digits_of(
        written(read_sum("6 - 1.4"), setting, 80, "aligned-right")
    )  # 6 under 1.4: 0.8
    assert short["8"][0][0] == pytest.approx(short["4"][0][0])
    assert len(digits_of(written(sum_, setting, 247, "turned"))["0"]) == 2


def test_an_answer_with_its_point_elsewhere_stands_as_the_child_wrote_it() -> None:
    """363 for 3.63 has no point and no zeros; 27.5 stands by its point, without a last zero."""
    setting = Setting(10.0, 12.0)
    lost = written(read_sum("5.00 - 1.37"), setting, 36300, "point")
    row = max(item.rect.y for item in lost.items if isinstance(item.content, Line))
    said = [i.content.text for i in lost.items if isinstance(i.content, Line) and i.rect.y == row]
    assert sorted(said) == ["3", "3", "6"]
    assert not any(item.what == "loop" for item in lost.items)
    moved = written(read_sum("5.00 - 2.25"), setting, 2750, "point")
    said = [i.content.text for i in moved.items if isinstance(i.content, Line) and i.rect.y == row]
    assert sorted(said) == [".", "2", "5", "7"]
    ended = digits_of(written(read_sum("5.2 - 1.4"), setting, 38000, "point"))
    assert ended["3"][0][0] == pytest.approx(ended["5"][0][0])  # 380 for 3.80


def test_digits_are_laid_with_their_points() -> None:
    """The picture below loose digits moves tenths and hundredths, as its words say."""
    plain = Press().style(fitted_paper("a4"))
    room = Rect(0, 0, 190, 150)
    for style, points in ((replace(plain, words=plain.words.decimal), 5), (plain, 0)):
        said = [getattr(item.content, "text", "") for item in below_digits(room, style)]
        assert said.count(".") == points
        assert {"3", "2"} <= {*said}


@pytest.mark.parametrize(
    ("words", "heads"),
    [("en-GB", "O ones, t tenths, h hundredths."), ("es", "U unidades, d décimas, c centésimas.")],
)
def test_letters_over_columns_of_decimals_are_explained_where_writing_begins(
    words: str, heads: str
) -> None:
    scaled = designs.words(words).decimal
    assert heads in writing((read_sum("3.2-1.47"),), scaled).now_told
    assert heads not in writing((read_sum("305-148"),), designs.words(words)).now_told


def test_large_type_on_a5_holds_the_mat_of_decimals(tmp_path: Path) -> None:
    """A point was taken to be as high as a digit, and to run into the words above it."""
    typed = ["kit", "3.2 - 1.47", "--paper", "a5", "--look", "bold", "--only", "mats"]
    done = CliRunner().invoke(main, [*typed, "--out", str(tmp_path)])
    assert done.exit_code == 0, done.output


def test_lessons_of_whole_numbers_are_written_in_a_kit_of_money(tmp_path: Path) -> None:
    args = ["kit", "--money", "USD", "--only", "guide", "--pieces", "0,2,10"]
    done = CliRunner().invoke(main, [*args, "--out", str(tmp_path)])
    assert done.exit_code == 0, done.output


def test_where_no_pieces_show_a_sum_its_mistakes_are_asked_about_in_writing() -> None:
    words = designs.words().counting(3)
    sum_, ask = Sum(4002, 1768, words.scale), words("child_page.show_written")
    assert {wrong.asks for wrong in answer(sum_, words).wrong} == {ask}


def test_thousandths_of_money_are_refused_for_the_money() -> None:
    made = run("cards", "3.205 - 1.5", "--stage", "written", "--money", "GBP")
    assert "leave out --money" in made.output


@pytest.mark.parametrize(
    ("whole", "part", "said"),
    [(320, 147, "3.2 as 3.20"), (325, 140, "1.4 as 1.40"), (350, 170, ""), (300, 170, "3 as 3.0")],
)
def test_a_zero_that_fills_a_column_is_told_before_it_is_written(
    whole: int, part: int, said: str
) -> None:
    words = designs.words().counting(2)
    title = writing([Sum(whole, part, words.scale)], words).moves[0].title
    assert said in title if said else " as " not in title
