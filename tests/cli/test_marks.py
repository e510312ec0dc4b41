"""The command marks, as typed: what it says, what it writes, and who may read it."""

import csv
import json
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from pdf_lines import page_texts

from kitbuilder.cli import main
from kitbuilder.cli.ask import FIRST
from kitbuilder.design import load as designs
from kitbuilder.number.choice.fives import short_by_five
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.course.next_sums import hand
from kitbuilder.number.mistakes.asking import most_telling
from kitbuilder.number.mistakes.habits import ALL_HABITS
from kitbuilder.number.mistakes.reading import read
from kitbuilder.request.request import read_sum

CLASS = """\
,61 - 34,80 - 36,72 - 45,305 - 148,402 - 156,531 - 274
Ada,27,44,27,257,346,257
Ben,27,44,27,157,246,257
Celia,33,56,33,243,354,343
Davit,27,34,27,157,246,257
Eva,27,44,27,157,–,
"""


ALL_RIGHT = "".join(f"{line}\n" for line in CLASS.splitlines() if line[0] in ",B")


def run(*args: str, typed: str = "") -> Result:
    return CliRunner().invoke(main, args, input=typed)


def marked(
    folder: Path, *args: str, table: str = CLASS
) -> tuple[Result, dict[str, dict[str, object]]]:
    result = run("marks", "-", "--out", str(folder), *args, typed=table)
    assert result.exit_code == 0, result.output
    record = json.loads((folder / "marks.json").read_text("utf-8"))
    return result, {pupil.get("name") or pupil["code"]: pupil for pupil in record["pupils"]}


def test_a_class_is_read_and_told(tmp_path: Path) -> None:
    result, pupils = marked(tmp_path)
    assert {name: pupil["verdict"] for name, pupil in pupils.items()} == {
        "Ada": "habit",
        "Ben": "right",
        "Celia": "habit",
        "Davit": "slips",
        "Eva": "more",
    }
    celia = pupils["Celia"]
    assert isinstance(celia["habits"], list) and celia["habits"][0]["key"] == "turned"
    assert celia["habits"][0]["probability"] >= 0.95
    assert celia["evidence"] == [
        {"row": 4, "sum": s, "answer": a}
        for s, a in [
            ("61 - 34", 33),
            ("80 - 36", 56),
            ("72 - 45", 33),
            ("305 - 148", 243),
            ("402 - 156", 354),
            ("531 - 274", 343),
        ]
    ]
    assert "Celia: 0 of 6 right. Smaller from larger (99 % likely)" in result.stdout
    assert "Teach, mistake by mistake\n" in result.stdout
    assert "Celia             33b" in result.stdout and "Eva" in result.stdout
    assert "Sums on paper first, then one again, alone with the pieces: Davit." in result.stdout


def test_a_class_is_told_whom_to_teach_together_first_and_each_child_shortly(
    tmp_path: Path,
) -> None:
    said = marked(tmp_path)[0].stdout
    assert said.startswith("Teach, mistake by mistake\n")
    assert said.index("Sums on paper first") < said.index("right is") < said.index("Celia: 0 of 6")
    assert "Says so" not in said  # the grid shows it
    alone = marked(tmp_path, table="\n".join(CLASS.splitlines()[:2]))[0].stdout
    assert "Says so: 305 − 148 = 257" in alone and "Teach, mistake by mistake" not in alone


def test_only_the_owner_may_read_what_is_written(tmp_path: Path) -> None:
    marked(tmp_path / "out", "--next", str(tmp_path / "next.csv"))
    assert {path.name for path in (tmp_path / "out").iterdir()} == {"marks.json", "marks.pdf"}
    for path in (*(tmp_path / "out").iterdir(), tmp_path / "next.csv"):
        assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_marks_are_made_anew_in_the_same_folder(tmp_path: Path) -> None:
    for _ in range(2):
        marked(tmp_path)
    record = json.loads((tmp_path / "marks.json").read_text("utf-8"))
    assert len(record["files"]["marks.pdf"]["sha256"]) == 64


def test_codes_stand_for_names_in_what_is_written(tmp_path: Path) -> None:
    result, pupils = marked(tmp_path / "out", "--codes", "--next", str(tmp_path / "next.csv"))
    written = (tmp_path / "out" / "marks.json").read_text() + (tmp_path / "next.csv").read_text()
    assert list(pupils) == ["P01", "P02", "P03", "P04", "P05"]
    assert "Celia" not in written and "P03 Celia: 0 of 6" in result.stdout
    pages = " ".join(page_texts(tmp_path / "out" / "marks.pdf"))
    assert "P03" in pages and "Celia" not in pages


def test_the_next_sums_make_packs_of_cards(tmp_path: Path) -> None:
    _, pupils = marked(tmp_path / "out", "--next", str(tmp_path / "next.csv"))
    rows = list(csv.DictReader((tmp_path / "next.csv").read_text("utf-8").splitlines()))
    assert [row["sum"] for row in rows if row["name"] == "Celia"] == pupils["Celia"]["practice"]
    assert {row["stage"] for row in rows} == {"pieces", "written"}
    made = run("cards", "--pupils", str(tmp_path / "next.csv"), "--out", str(tmp_path / "cards"))
    assert made.exit_code == 0, made.output
    told = " ".join(" ".join(page_texts(tmp_path / "cards" / "cards.pdf")).split())
    assert "First the cards to write: they tell a slip" in told  # packs began in columns, untold
    assert {row["mistake"] for row in rows if row["name"] == "Celia"} == {"turned"}
    assert "Practises: smaller from larger." in told


def test_a_table_of_one_child_with_two_unclear_answers(tmp_path: Path) -> None:
    result, pupils = marked(
        tmp_path, table="name,sum,answer\nAda,143 - 28,125\nAda,253 - 118,145\n"
    )
    ada = pupils["Ada"]
    assert ada["verdict"] == "more"
    assert isinstance(ada["habits"], list) and isinstance(ada["next"], list)
    assert {habit["key"] for habit in ada["habits"][:2]} == {"turned", "not-lowered"}
    assert len(ada["next"]) == 2
    assert "give the same number here" in result.stdout and "To be surer, give: " in result.stdout


def test_a_child_who_was_away_counts_as_not_tried(tmp_path: Path) -> None:
    table = "name;61 - 34;80 - 36\nAda;absent;Not tried\nBen;27,0;\n"
    result, pupils = marked(tmp_path, table=table)
    assert pupils["Ada"]["verdict"] == "untried" and pupils["Ben"]["verdict"] == "more"
    assert pupils["Ada"]["untried"] == ["61 - 34", "80 - 36"] and pupils["Ada"]["practice"] == []
    assert pupils["Ada"]["right"] is None and pupils["Ben"]["right"] == 1
    assert "Not tried yet, give all sums of the table first: Ada." in result.output
    assert "Ada: " not in result.output.split("right is")[1]


def test_a_long_name_is_whole_in_the_terminal_and_notes_are_told(tmp_path: Path) -> None:
    table = "name,61 - 34,80 - 36,total\nYara-Magdalena del Carmen,33?,56,0\nBen,27,44,2\n"
    result, _ = marked(tmp_path, table=table)
    grid = result.stdout.split("right is")[1]
    assert "\nYara-Magdalena\ndelCarmen\n" in grid.replace(" ", "").replace("33a56a", "")
    assert "Note: left out, for no answers stand there: 'total'." in result.output
    assert "Note: '33?' was read as 33." in result.output


def test_one_right_answer_among_blank_ones_makes_nobody_ready(tmp_path: Path) -> None:
    table = "name,61 - 34,80 - 36,52 - 24,43 - 17\nAda,27,,,\nBen,27,44,28,\n"
    told, pupils = marked(tmp_path, table=table)
    assert pupils["Ada"]["verdict"] == "more" and pupils["Ben"]["verdict"] == "right"
    assert "Ready to go on: Ben." in told.stdout and "Perhaps" not in told.stdout


def test_a_wide_table_with_a_name_twice_is_refused_with_its_row(tmp_path: Path) -> None:
    table = "name,61 - 34,80 - 36\nAda,27,44\nBen,27,44\nAda,33,56\n"
    result = run("marks", "-", "--out", str(tmp_path), typed=table)
    assert result.exit_code == 2 and not [*tmp_path.iterdir()]
    assert "line 4" in result.output and "stands in line 2 already" in result.output


def test_sums_to_practise_are_worth_building(tmp_path: Path) -> None:
    _, pupils = marked(tmp_path)
    for pupil in pupils.values():
        assert isinstance(pupil["practice"], list)
        for text in pupil["practice"]:
            whole, part = (int(n) for n in text.split(" - "))
            assert min(part, whole - part) >= 10
            assert not short_by_five(whole, part)


def test_it_speaks_spanish(tmp_path: Path) -> None:
    result, _ = marked(tmp_path, "--words", "es")
    assert "Celia: bien 0 de 6. Mayor menos menor (probable al 99 %)" in result.stdout


def test_asking_goes_on_until_it_is_sure() -> None:
    typed = ""
    answers: list[str] = []  # of one who always takes the smaller digit from the larger
    for _ in range(8):
        result = run("marks", "--ask", typed=typed)
        asked = [line.split(" =")[0] for line in result.stdout.splitlines() if " =" in line]
        if len(asked) <= len(answers):
            break
        whole, part = (n.strip().zfill(3) for n in asked[-1].split("−"))
        answers.append("".join(str(abs(int(a) - int(b))) for a, b in zip(whole, part, strict=True)))
        typed = "\n".join(answers) + "\n"
    assert 2 <= len(answers) <= 4
    assert (
        "Smaller from larger (" in result.stdout and "“Show me with the pieces.”" in result.stdout
    )


@pytest.mark.parametrize("places", [2, 3, 4])
def test_the_first_sum_asked_is_the_one_that_tells_most(places: int) -> None:
    assert most_telling(read([]).after, hand(places)) == (FIRST[places],)


def test_asking_bears_nonsense_and_an_end() -> None:
    result = run("marks", "--ask", typed="what\n\n")
    assert result.exit_code == 0 and "is no answer" in result.stderr
    assert "Not tried yet." in result.stdout


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ("marks", "No answers were given"),
        ("marks --ask table.csv", "asks one child and reads no table"),
        ("marks --ask --places 5", "--places was 5; choose a number from 2 to 4."),
        ("marks /nowhere.csv", "cannot be read"),
        ("choose --telling --places 2", "never show: across a zero, half done; "),
    ],
)
def test_refusals_are_one_sentence(args: str, says: str) -> None:
    result = run(*args.split())
    assert result.exit_code == 2 and says in result.stderr and result.stdout == ""
    assert result.stderr.count("\n") == 1


@pytest.mark.parametrize("name", designs.names("words"))
def test_every_mistake_has_its_name_and_one_question(name: str) -> None:
    words = designs.words(name)
    for key in [habit.key for habit in ALL_HABITS] + ["slip", "order"]:
        assert words(f"mistake.{key}.name") and words(
            f"mistakes.{key}.happened", place="x", top=3, below=7
        )
        asks = words(f"mistake.{key}.asks", whole="WHOLE")
        assert not any(c.isdigit() for c in asks)
        places = [words(f"place.{place}") for place in ("ones", "tens", "hundreds")]
        assert not any(place in asks for place in places), asks


@pytest.mark.parametrize("name", designs.names("words"))
def test_mistakes_with_one_question_ask_it_in_the_same_words(name: str) -> None:
    words = designs.words(name)
    for keys in (
        ("zero-top-zero", "zero-when-short", "lone-digit"),
        ("turned", "turned-lowered"),
    ):
        assert len({words(f"mistake.{key}.asks") for key in keys}) == 1, keys


@pytest.mark.parametrize(
    ("sums", "named", "rival"),
    [
        (("140-21,121", "150-32,122"), "turned", "zero-top-bottom"),
        (("660-82,678", "260-99,261"), "empty-not-lowered", "not-lowered"),
    ],
)
def test_what_gives_the_same_numbers_is_told_beside_what_is_named(
    sums: tuple[str, ...], named: str, rival: str, tmp_path: Path
) -> None:
    table = "name,sum,answer\n" + "".join(f"Ada,{line}\n" for line in sums)
    told, pupils = marked(tmp_path, table=table)
    words = designs.words()
    assert [one["key"] for one in pupils["Ada"]["habits"]][:2] == [named, rival]  # type: ignore[attr-defined]
    assert f"or {words(f'mistake.{rival}.name')} (" in told.stdout
    assert "give the same number" in told.stdout.replace("\n  ", " ")
    assert pupils["Ada"]["next"]
    pages = " ".join(" ".join(page_texts(tmp_path / "marks.pdf")).split())
    assert words(f"mistake.{rival}.asks", whole="…").split("…")[0] in pages


def test_what_may_be_is_named_without_a_figure_and_only_where_likely(tmp_path: Path) -> None:
    likely = run("marks", "-", "--out", str(tmp_path / "a"), typed="name,52 - 17\nAda,45\n")
    assert "Perhaps: “smaller from larger”" in likely.stdout
    assert "Not enough to say." in likely.stdout and "%" not in likely.stdout
    tenths = run("marks", "-", "--out", str(tmp_path / "c"), typed="name,12.4 - 3.8\nAda,9.4\n")
    assert "Perhaps: “smaller from larger (in the tenths only)”." in tenths.stdout
    odd, pupils = marked(tmp_path / "b", table="name,260 - 99\nAda,110\n")
    habits = pupils["Ada"]["habits"]
    assert isinstance(habits, list) and any(h["probability"] < 0.2 for h in habits[:3])
    likely_too = sum(h["probability"] >= 0.2 for h in habits[:3])
    perhaps = next(line for line in odd.stdout.splitlines() if "Perhaps" in line)
    assert perhaps.count(";") == likely_too - 1
    assert "±" not in odd.stdout.split("not tried")[1] and "110±" not in odd.stdout


def test_next_sums_over_another_file_are_refused_before_anything(
    tmp_path: Path,
) -> None:
    there = tmp_path / "next.csv"
    there.write_text("mine")
    for args in (("-", "--out", str(tmp_path / "out")), ("--ask",)):
        result = run("marks", *args, "--next", str(there), typed=CLASS)
        assert result.exit_code == 2 and "holds something else" in result.stderr
        assert result.stdout == ""
    assert there.read_text() == "mine" and [*tmp_path.iterdir()] == [there]


def test_other_next_sums_need_a_file_of_their_own(tmp_path: Path) -> None:
    path, out = tmp_path / "next.csv", tmp_path / "out"
    for _ in range(2):  # the same may be written again
        marked(out, "--next", str(path))
    before = path.read_bytes()
    grown = f"{CLASS}Zoe,33,56,33,243,354,343\n"
    told = run("marks", "-", "--out", str(out), "--next", str(path), typed=grown)
    assert told.exit_code == 2 and "choose another name with --next" in told.stderr
    assert path.read_bytes() == before


def test_a_table_of_next_sums_that_nobody_needs_may_be_written_again(tmp_path: Path) -> None:
    for _ in range(2):
        marked(tmp_path / "out", "--next", str(tmp_path / "next.csv"), table=ALL_RIGHT)
    assert (tmp_path / "next.csv").read_text("utf-8") == "name,sum,stage,mistake\n"


@pytest.mark.parametrize("name", ["marks.pdf", "marks.json", ""])
def test_next_sums_over_the_pages_or_record_are_refused_before_anything(
    name: str, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    result = run("marks", "-", "--out", str(out), "--next", str(out / name), typed=CLASS)
    assert result.exit_code == 2 and "its own pages or record" in result.stderr
    assert result.stdout == "" and not out.exists()


def test_a_refused_table_is_refused_in_one_sentence(tmp_path: Path) -> None:
    out = ("--out", str(tmp_path / "out"))
    table = "name,sum,answer\nAda,5x,3\n"
    result = run("marks", "-", "--places", "2", *out, typed=table)
    assert result.exit_code == 2 and len(result.stderr.splitlines()) == 1
    told = run("marks", "-", "--places", "2", *out, typed=CLASS)
    assert told.exit_code == 0 and "--places changes nothing here" in told.stderr


def test_asking_writes_the_next_sums_and_says_what_it_leaves_out(tmp_path: Path) -> None:
    path = tmp_path / "next.csv"
    args = ("--ask", "--next", str(path), "--out", str(tmp_path / "out"))
    result = run("marks", *args, typed="328\n316\n")
    assert (
        result.exit_code == 0 and "--out changes nothing here, because one child" in result.stderr
    )
    assert [*tmp_path.iterdir()] == [path] and path.stat().st_mode & 0o077 == 0
    rows = list(csv.DictReader(path.read_text("utf-8").splitlines()))
    assert {row["name"] for row in rows} == {"Child"} and len(rows) >= 5
    made = run("cards", "--pupils", str(path), "--out", str(tmp_path / "cards"))
    assert made.exit_code == 0, made.output


def test_columns_of_decimals_stand_apart(tmp_path: Path) -> None:
    table = ",6.03 - 2.48,5.2 - 1.47,7.1 - 4.8\n"
    table += "Alejandra K.,355,37.3,2.3\nBen K.,3.55,3.73,2.3\nOne,,,2.3"
    result, pupils = marked(tmp_path, table=table)
    assert [pupil["verdict"] for pupil in pupils.values()] == ["habit", "right", "more"]
    lines = [line.split() for line in result.stdout.splitlines()]
    assert ["−", "2.48", "−", "1.47", "−", "4.8"] in lines
    assert ["Alejandra", "K.", "355a", "37.3a", "."] in lines
    assert "Ready to go on: Ben K.\n" in result.stdout
    assert "More sums first: One.\n" in result.stdout


def test_after_tenths_come_tenths_with_one_exchange(tmp_path: Path) -> None:
    table = ",5.3 - 2.7,4.2 - 1.6,6.1 - 2.8\nAda,3.4,3.4,4.7\nBen,3.4,2.6,3.3\nEva,3.6,3.6,2.65\n"
    path = tmp_path / "next.csv"
    marked(tmp_path, "--next", str(path), table=table)
    rows = list(csv.DictReader(path.read_text("utf-8").splitlines()))
    assert {row["stage"] for row in rows} == {"written", "pieces"}
    assert {row["name"] for row in rows} == {"Ada", "Ben", "Eva"}
    for row in rows:
        whole, part = (float(number) for number in row["sum"].split(" - "))
        assert max(len(number) for number in row["sum"].split(" - ")) <= 3, row
        assert row["sum"] not in table and whole % 1 < part % 1, row
    made = run("cards", "--pupils", str(path), "--out", str(tmp_path / "cards"))
    assert made.exit_code == 0, made.output


def test_after_tenths_of_ten_and_more_come_tenths(tmp_path: Path) -> None:
    path = tmp_path / "next.csv"
    marked(tmp_path, "--next", str(path), table=",12.4 - 3.8\nAda,9.4\nBen,7.6\nEva,8.6\n")
    rows = list(csv.DictReader(path.read_text("utf-8").splitlines()))
    numbers = [(row, number) for row in rows for number in row["sum"].split(" - ")]
    assert {row["name"] for row in rows} == {"Ada", "Ben", "Eva"}
    assert all(len(number.partition(".")[2]) <= 1 for _, number in numbers), rows
    assert all(float(number) < 10 for row, number in numbers if row["stage"] == "pieces"), rows


def test_tenths_across_a_zero_are_practised_as_pieces_show_them(tmp_path: Path) -> None:
    path = tmp_path / "next.csv"
    marked(tmp_path, "--next", str(path), table=",20.1 - 4.6\nBo,25.5\n")
    rows = list(csv.DictReader(path.read_text("utf-8").splitlines()))
    practised = [row["sum"].split(" - ")[0] for row in rows if row["stage"] == "pieces"]
    assert practised and all(float(whole) < 10 for whole in practised)


def test_a_kind_that_never_went_right_is_practised(tmp_path: Path) -> None:
    table = (
        ",63 - 29,254 - 38,431 - 257,305 - 148,502 - 286,700 - 243\nWes,34,216,174,243,384,543\n"
    )
    practice = marked(tmp_path, table=table)[1]["Wes"]["practice"]
    assert isinstance(practice, list)
    assert practice and all("0" in sum_.split(" - ")[0][1:] for sum_ in practice)


def test_after_slips_sums_exchange_where_they_came_and_leave_different_numbers(
    tmp_path: Path,
) -> None:
    table = ",63 - 29,254 - 38,431 - 257,305 - 148,502 - 286\nGor,34,216,175,157,215\n"
    gor = marked(tmp_path, table=table)[1]["Gor"]
    assert gor["verdict"] == "slips" and isinstance(gor["practice"], list)
    sums = [read_sum(sum_) for sum_ in gor["practice"]]
    assert len({sum_.rest for sum_ in sums}) == 5
    assert all(0 in pattern(sum_).receives for sum_ in sums)


def test_one_right_answer_alone_is_not_enough_to_say(tmp_path: Path) -> None:
    for table in (",61 - 34\nAda,27", ",61 - 34,80 - 36\nAda,27,"):
        assert marked(tmp_path, table=table)[1]["Ada"]["verdict"] == "more"


def test_the_terminal_marks_an_answer_as_the_pages_do(tmp_path: Path) -> None:
    table = "name,71 - 48,634 - 258,83 - 29\nAda,22,476,112\n"
    told = run("marks", "-", "--out", str(tmp_path), typed=table)
    row = next(line for line in told.stdout.splitlines() if line.startswith("Ada "))
    assert row.split() == ["Ada", "22±", "476a", "112b"]
    assert "a  Ten fetched, one not put back" in told.stdout


def test_a_name_too_long_for_the_next_sums_is_refused_before_anything_is_written(
    tmp_path: Path,
) -> None:
    following = str(tmp_path / f"{'a' * 245}.csv")
    refused = run("marks", "-", "--out", str(tmp_path / "out"), "--next", following, typed=CLASS)
    assert refused.exit_code == 2 and "is too long for a file" in refused.output
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("name", "said"),
    [("file/n.csv", "cannot be written"), ("-", "give the name of a file to write")],
)
def test_next_sums_that_cannot_be_written_are_refused_before_anything(
    name: str, said: str, tmp_path: Path
) -> None:
    (tmp_path / "file").touch()  # no folder can be made in its place, even by root
    for args in (("-", "--out", str(tmp_path / "out")), ("--ask",)):
        result = run("marks", *args, "--next", str(tmp_path / name), typed=CLASS)
        assert result.exit_code == 2 and said in result.stderr
        assert result.stdout == "" and [*tmp_path.iterdir()] == [tmp_path / "file"]
