"""The commands choose, plan and show --answer, as typed."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitbuilder.cli import main
from kitbuilder.cli.answer import explain_answer
from kitbuilder.design import load as designs
from kitbuilder.formats.plan_csv import read_plan
from kitbuilder.kit.card_packs import note
from kitbuilder.number import Sum
from kitbuilder.number.choice.patterns import PATTERNS, pattern
from kitbuilder.number.mistakes.habits import HABITS
from kitbuilder.request.request import read_sums


def run(*args: str) -> Result:
    return CliRunner().invoke(main, args)


def chosen(*args: str) -> tuple[Sum, ...]:
    result = run("choose", *args)
    assert result.exit_code == 0, result.output
    return read_sums(result.stdout)


def test_choose_prints_sums_that_kit_reads_and_nothing_else() -> None:
    result = run("choose", "--count", "12", "--exchange", "both")
    sums = read_sums(result.stdout)
    assert len(sums) == 12 and {pattern(s).name for s in sums} == {"both"}
    assert result.stderr == ""
    assert run("choose", "--count", "12", "--exchange", "both").stdout == result.stdout
    assert run("choose", "--exchange", "both", "--seed", "2").stdout != result.stdout


def test_what_is_chosen_needs_no_note_in_a_kit() -> None:
    for sum_ in chosen("--count", "60", "--exchange", "both"):
        assert note(sum_) is None
    assert note(Sum(42, 17)) and note(Sum(143, 28))


@pytest.mark.parametrize(("name", "size"), [("crossing-ten", 18), ("ten-and-crossing", 23)])
def test_choose_covers_and_says_that_it_is_the_least(name: str, size: int) -> None:
    result = run("choose", "--cover", name)
    assert len(read_sums(result.stdout)) == size
    assert f"{size} sums hold all" in result.stderr
    assert len(chosen("--cover", name, "--count", "30")) == 30


def test_choose_telling_says_what_the_pack_shows() -> None:
    result = run("choose", "--count", "10", "--telling", "--seed", "7")
    assert len(read_sums(result.stdout)) == 10
    assert "can show: smaller from larger; " in result.stderr
    assert "cannot show: none." in result.stderr
    assert "answers in at least 6 sums of these" in result.stderr
    lone = run("choose", "--telling", "--exchange", "ones")
    assert "cannot show: across a zero, half done" in lone.stderr


def test_choose_takes_kinds_places_and_a_ceiling() -> None:
    sums = chosen("--exchange", "ones,tens", "--exchange", "across-zero", "--below", "400")
    assert {pattern(s).name for s in sums} <= {"ones", "tens", "across-zero"}
    assert all(100 <= s.whole < 400 for s in sums)
    assert all(s.places == 2 for s in chosen("--below", "100"))
    assert all(s.places == 4 for s in chosen("--places", "4", "--exchange", "hundreds"))
    assert {pattern(s).name for s in chosen("--exchange", "none")} == {"none"}


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ("--count 0", "choose a number from 1 to 50000"),
        ("--count 1000000", "choose a number from 1 to 50000"),
        ("--count many", "give a whole number"),
        ("--seed -1", "--seed was -1"),
        ("--exchange twice", "choose from ones, tens, hundreds, both, across-zero, none"),
        (
            "--exchange hundreds",
            "has --exchange hundreds (--places 4 has all kinds); there are sums",
        ),
        ("--exchange both --places 2", "there are sums for --exchange none, --exchange ones."),
        ("--places 5", "choose a number from 2 to 4"),
        ("--places 3 --below 80", "start at 100, so give 101 or more"),
        ("--below 5", "start at 10, so give 11 or more"),
        (
            "--below 20",
            "small facts such as 15 − 8, which need no columns: give 21 or more",
        ),
        ("--telling --exchange none", "shows none of the mistakes"),
        ("--below 102 --count 5000", "at most 144 such sums"),
        ("--below 101 --exchange across-zero --telling --count 99", "tells its mistakes apart"),
        ("--cover all", "choose from crossing-ten, ten-and-crossing"),
        ("--cover crossing-ten --count 12", "takes 18 sums"),
        ("--cover crossing-ten --exchange none", "holds 11 − 2 to 11 − 9, 12 − 3 to 12 − 9, 13"),
        ("--cover crossing-ten --places 2 --telling", "holds 11 − 6, 12 − 7, 13 − 8, 14 − 9;"),
        ("extra", "unexpected extra argument"),
    ],
)
def test_choose_refuses_in_one_sentence(args: str, says: str) -> None:
    result = run("choose", *args.split())
    assert result.exit_code == 2
    assert says in result.stderr and result.stdout == ""
    assert result.stderr.count("\n") == 1


def test_show_explains_an_answer() -> None:
    result = run("show", "702-368", "--answer", "344")
    assert result.exit_code == 0
    assert result.stdout.startswith("702 − 368 = 334, not 344.\n3 foreseen mistakes")
    assert "1. The zero stayed ten\n" in result.stdout
    assert "“Show me with the pieces.” Then: “Count after each move." in result.stdout
    both = run("show", "143 - 28", "--answer", "125").stdout
    assert both.index("1. Smaller from larger") < both.index("2. Ten fetched, one not put back")
    assert "left to right" in both  # the note that only watching tells the two apart
    assert both.endswith("watch a sum in which another number of pieces is lacking.\n")
    one = run("show", "431 - 256", "--answer", "185").stdout
    assert "1. Ten fetched, one not put back (in the ones only)\n" in one
    assert "that is right" in run("show", "143 - 28", "--answer", "115").stdout
    assert "No foreseen mistake gives 777" in run("show", "143 - 28", "--answer", "777").stdout
    assert "one small fact in the tens" in explain_answer(Sum(143, 28), 105, designs.words())


@pytest.mark.parametrize("answer", ["x", "-3", "3.5", "1234567", "٣"])
def test_show_refuses_what_is_no_answer(answer: str) -> None:
    result = run("show", "143-28", "--answer", answer)
    assert result.exit_code == 2
    assert "give a whole number of up to 6 places" in result.stderr and result.stdout == ""


def test_every_mistake_and_pattern_has_its_words() -> None:
    words = designs.words()
    for key in [habit.key for habit in HABITS] + ["slip", "order"]:
        assert words(f"mistakes.{key}.happened", place="ones", top=3, below=7)
    assert all(words(f"patterns.{name}") for name in PATTERNS)


def test_a_plan_calls_no_kind_new_that_was_skipped() -> None:
    for skip in ("two", "two,ones", "ones"):
        lines = run("plan", "--weeks", "4", "--skip", skip).stdout.splitlines()
        new = [line for line in lines if line.strip().startswith("new: ")]
        known = {"two": "2 places, not enough ones", "ones": "3 places, not enough ones"}
        for name in skip.split(","):
            assert not any(known[name] in line for line in new)
        assert len("; ".join(new).split(";")) == 5 - len(skip.split(","))
    first = run("plan", "--weeks", "1", "--from", "written").stdout
    assert "  Day 1\n    new: 2 places, not enough ones\n" in first


def test_plan_prints_a_table_and_writes_the_same_plan(tmp_path: Path) -> None:
    start = ("--weeks", "4", "--days", "5", "--start", "2027-01-11")
    table = run("plan", *start).stdout
    assert "Week 1\n  Mon 11 Jan 2027\n    new: 2 places, not enough ones\n" in table
    assert "Week 30 – Back again, later in the year\n  Fri 6 Aug 2027\n" in table
    assert table.count("– Readiness check") == 1
    assert "no small fact was counted in ones" in table
    assert max(map(len, table.split("Readiness check\n1.")[0].splitlines())) <= 100
    file = tmp_path / "plan.csv"
    result = run("plan", *start, "--csv", str(file))
    assert result.stderr.startswith(f"Wrote {file}.\n") and result.stdout == table
    assert list(tmp_path.iterdir()) == [file]
    assert file.read_text("utf-8") == run("plan", *start, "--csv", "-").stdout
    for task in read_plan(file.read_text("utf-8")):
        assert str(task.item) in table


@pytest.mark.parametrize(
    ("args", "new"),
    [
        (("--skip", "two"), ["3 places, not enough ones", "3 places, not enough tens"]),
        (("--from", "written", "--days", "2"), ["2 places, not enough ones"]),
    ],
)
def test_a_plan_calls_a_kind_new_only_where_it_is_taught(
    args: tuple[str, ...], new: list[str]
) -> None:
    # what was skipped comes back in writing, and is nothing new
    table = run("plan", "--weeks", "2", *args).stdout
    found = [line.split("new: ")[1] for line in table.splitlines() if "new: " in line]
    assert found[: len(new)] == new and "2 places" not in "".join(found[1:])


def test_a_plan_needs_no_date() -> None:
    table = run("plan", "--weeks", "1").stdout
    assert "Week 1\n  Day 1\n" in table and "  Day 5\n" in table


def test_a_plan_skips_kinds_and_begins_at_a_stage() -> None:
    written = run("plan", "--skip", "two,ones,tens", "--from", "drawn", "--csv", "-").stdout
    sums = [task for task in read_plan(written) if task.kind != "fact"]
    assert [task.kind for task in sums[:4]] == ["drawn", "drawn", "written", "written"]
    assert {pattern(t.item).name for t in sums[:4] if isinstance(t.item, Sum)} == {"both"}


def test_plan_says_what_it_has_no_room_for() -> None:
    short = run("plan", "--weeks", "3").stderr
    assert "Too few days to finish these kinds of sums: 3 places, exchange across a zero." in short
    short = run("plan", "--weeks", "1").stderr
    assert "18 − 9. Give more weeks or days." in short  # the last one met
    assert "Too few" not in run("plan", "--weeks", "4").stderr


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ("--start soon", "give a date from 1900 to 2999"),
        ("--start 2027-02-30", "give a date from 1900 to 2999"),
        ("--start 20270111", "give a date from 1900 to 2999"),
        ("--start 9999-12-31", "give a date from 1900 to 2999"),
        ("--days 0", "--days was 0; choose a number from 1 to 7"),
        ("--weeks 0", "--weeks was 0; choose a number from 1 to 52"),
        ("--weeks 53", "--weeks was 53; choose a number from 1 to 52"),
        ("--skip tens,twice", "--skip was 'twice'; choose from two, ones, tens, both, across-zero"),
        ("--skip two,ones,tens,both,across-zero", "leave one to learn"),
        ("--from sing", "--from was 'sing'; choose from pieces, both, drawn, written"),
        ("--csv /dev/null/plan.csv", "cannot be written"),
        (f"--csv {'x' * 256}/plan.csv", "(file name too long); choose another with --csv"),
    ],
)
def test_plan_refuses_in_one_sentence(args: str, says: str) -> None:
    result = run("plan", *args.split())
    assert result.exit_code == 2
    assert says in result.stderr and result.stdout == ""
    assert result.stderr.count("\n") == 1
