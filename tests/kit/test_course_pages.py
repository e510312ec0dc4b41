"""Weeks on paper: every day has its sums, every written sum its place on a worksheet and a key."""

import json
import re
from collections import Counter, defaultdict
from dataclasses import dataclass
from datetime import date
from functools import cache
from itertools import groupby
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from click.testing import CliRunner, Result
from pdf_lines import page_texts

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.formats.plan_csv import plan_table
from kitbuilder.kit.course.adult_pages import evening, outline_page
from kitbuilder.kit.course.course_pages import week_pages, worksheets
from kitbuilder.kit.course.plan_words import plan_sums
from kitbuilder.kit.course.road import reach_said, road
from kitbuilder.kit.kit_contents import KitWish, contents
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.choice.fives import short_by_five
from kitbuilder.number.course.course_outline import Span
from kitbuilder.number.course.rungs import LADDER, rung_of
from kitbuilder.number.course.schedule import LESSONS, READY_PIECES, READY_WEEK, PlanWish, plan
from kitbuilder.number.course.stages import STAGES
from kitbuilder.number.facts import facts
from kitbuilder.number.stock import stock

WORDS = designs.words()
TASKS = plan(PlanWish(Span(4, 5, date(2027, 1, 11)))).tasks


def run(*args: str) -> Result:
    return CliRunner().invoke(main, args)


def said_on(folder: Path) -> list[str]:
    """Return the words of each page of the kit in ``folder``."""
    return [" ".join(text.split()) for text in page_texts(folder / "kit.pdf")]


def kinds_of(folder: Path) -> list[tuple[int, str, int]]:
    record = json.loads((folder / "kit.json").read_text())
    return [(s["page"], s["kind"], s["copies"]) for s in record["sheets"]]


def test_every_day_and_every_task_is_on_a_week() -> None:
    pages = week_pages(TASKS, WORDS)
    assert [page.title for page in pages[:4]] == [f"Week {n} at a glance" for n in range(1, 5)]
    assert len(pages) == 5  # four weeks, and the three returns on one
    days = [day for page in pages for day in page.days]
    assert [day.title for day in days] == [
        f"{when:%a} {when.day} {when:%b %Y}" for when in sorted({t.when for t in TASKS if t.when})
    ]
    assert days[0].title == "Mon 11 Jan 2027"  # 11 January 2027 is a Monday
    sums = [asked.sum for day in days for asked in day.sums]
    assert sums == [task.item for task in TASKS if isinstance(task.item, Sum)]
    facts = sum(len(day.facts.split(", ")) for day in days)
    assert facts == sum(task.kind == "fact" for task in TASKS)


@pytest.mark.parametrize("language", designs.names("words"))
def test_what_comes_back_is_told_from_the_check(language: str) -> None:
    words = designs.words(language)
    later = {"en": ("1 week later", "6 weeks later", "Half a year later")}.get(
        language[:2], ("1 semana después", "6 semanas después", "Medio año después")
    )
    undated = week_pages(plan(PlanWish()).tasks, words)[-1].days
    assert tuple(day.title for day in undated) == later
    for day, week, count in zip(undated, (5, 10, 30), (10, 5, 5), strict=True):
        assert words("plan.week", week=week) in day.note
        assert words.count("week.sums", count) in day.note
        assert {asked.day for asked in day.sums} == {words("plan.week", week=week)}
    dated = week_pages(TASKS, words)[-1].days
    assert tuple(day.note for day in dated) == later


SAID_ON = {
    1: {"pieces": (3,), "both": (3,), "drawn": (2,)},
    2: {"pieces": (1, 2), "both": (1, 2), "drawn": (1, 1)},  # two kinds, each its own
    3: {"pieces": (2, 2), "both": (2,), "drawn": (1,)},
    4: {"pieces": (2,), "both": (2,), "drawn": (1,)},
}
"""Sums that go well before the next stage, by week, for each kind that is then taught."""


@pytest.mark.parametrize("language", designs.names("words"))
def test_each_week_says_its_own_kinds_counts_and_the_plan_has_as_many(language: str) -> None:
    words = designs.words(language)
    pages = week_pages(TASKS, words)
    noun = words("week.sums.many", count="").strip()[:-1]
    real = Counter((t.kind, rung_of(t.item)) for t in TASKS if isinstance(t.item, Sum))
    for number, page in enumerate(pages, 1):
        said = {stage: tuple(map(int, re.findall(rf"(\d+) {noun}", t))) for stage, t in page.on}
        assert said == SAID_ON.get(number, {}), page.title
        tasks = [t for t in TASKS if t.week == number and isinstance(t.item, Sum)]
        for stage, counts in said.items():
            rungs = dict.fromkeys(rung_of(t.item) for t in tasks if t.kind == stage)  # type: ignore[arg-type]
            for rung, count in zip(rungs, counts, strict=True):
                assert count <= real[stage, rung], (page.title, stage)
    assert not pages[4].on and pages[4].later


@pytest.mark.parametrize("language", designs.names("words"))
def test_a_clock_is_spoken_of_only_where_there_is_one(language: str) -> None:
    words = designs.words(language)
    none = {"en": "no clock", "es": "sin reloj"}[language[:2]]
    pages = week_pages(TASKS, words)
    assert [none in page.stop.lower() for page in pages] == [False, False, False, True, True]
    assert [none in day.note.lower() for day in pages[3].days] == [False] * 4 + [True]


def test_a_sum_for_pieces_alone_is_told_on_the_sheet_of_its_day() -> None:
    """In week 3 the sums across a zero begin on day 5, those of two exchanges on day 1."""
    for sheets in worksheets(TASKS, WORDS, daily=False):
        told = [one.spoken.replace("\xa0", " ") for one in sheets if one.week == "Week 3"]
        assert ["431 − 257" in said for said in told] == [True, False]
        assert ["305 − 148" in said for said in told] == [False, True]


@pytest.mark.parametrize("daily", [False, True])
def test_every_sum_is_written_once_and_pieces_alone_are_told(daily: bool) -> None:
    sheets, keys = worksheets(TASKS, WORDS, daily=daily)
    every = [asked for sheet in sheets for asked in sheet.asked]
    written = [asked.sum for asked in every if asked.stage != "pieces"]
    assert written == [t.item for t in TASKS if isinstance(t.item, Sum) and t.kind != "pieces"]
    assert [sheet.asked for sheet in sheets] == [key.asked for key in keys]
    spoken = "".join(sheet.spoken for sheet in sheets).replace("\xa0", " ")
    answered = "".join(key.spoken for key in keys).replace("\xa0", " ")
    alone = [asked.sum for asked in every if asked.stage == "pieces"]
    assert bool(alone) is daily  # on a day's page they have places of their own
    for task in TASKS:
        if task.kind == "pieces" and isinstance(task.item, Sum):
            assert (task.item in alone) or str(task.item) in spoken
            assert (task.item in alone) or f"{task.item} = {task.item.rest}" in answered
    if daily:
        days = [k for k, _ in groupby(TASKS, lambda t: (t.week, t.day, t.phase))]
        assert len({sheet.day for sheet in sheets}) == len(days)
    assert all(len(sheet.asked) <= 8 for sheet in sheets)


@pytest.mark.parametrize(
    ("language", "written"),
    [("en-GB", "Mon 1 Feb 2027"), ("en-US", "Mon Feb 1, 2027"), ("es", "lun 1 feb 2027")],
)
def test_a_date_is_written_as_the_language_does(language: str, written: str) -> None:
    tasks = plan(PlanWish(Span(1, 5, date(2027, 2, 1)))).tasks
    words = designs.words(language)
    assert week_pages(tasks, words)[0].days[0].title == written
    assert "2027-02-01" in plan_table(tasks)


@pytest.mark.parametrize("language", designs.names("words"))
def test_guide_and_week_say_one_time_to_go_on_from_pieces(language: str) -> None:
    words = designs.words(language)
    (told,) = [said for stage, said in week_pages(TASKS, words)[0].on if stage == "pieces"]
    counted = words("week.days", sums=words.count("week.sums", 3))
    assert counted in told and counted in words("write.lead")
    assert len(words.lines("write.ticks")) == 2  # exchanged and checked, as the week says


RUN = "print_run"
TYPED = re.compile(r"(?:type|escribir) ([\d–, ]+)")


def typed(folder: Path) -> list[list[int]]:
    """Return the pages to type that the cover tells, list by list."""
    text = page_texts(folder / "kit.pdf")[0]
    found = []
    for said in TYPED.findall(text):
        runs = re.findall(r"(\d+)(?:–(\d+))?", said)
        found.append([n for a, b in runs for n in range(int(a), int(b or a) + 1)])
    return found


def test_the_ready_made_kit_holds_the_first_week(tmp_path: Path) -> None:
    result = run("kit", "--out", str(tmp_path))
    assert result.exit_code == 0, result.stderr
    record = json.loads((tmp_path / "kit.json").read_text())
    stock_of = {sheet["page"]: sheet["stock"] for sheet in record["sheets"]}
    pages = {page: kind for page, kind, _ in kinds_of(tmp_path)}
    card, paper, later_card, later_paper = sorted(typed(tmp_path))
    assert {stock_of[n] for n in card + later_card} == {"card"}
    assert {stock_of[n] for n in paper + later_paper} == {"paper"}
    # A plain run: the cover, then card, then paper; and the same once more for what comes later.
    assert [1, *card, *paper, *later_card, *later_paper] == sorted(pages)
    assert len(card + paper) + 1 <= 12
    now = {pages[n] for n in card + paper}
    assert {"pieces", "mat", "exchange_cards", "week", "worksheet", "worksheet_key"} <= now
    assert {"lesson", "guide"} <= now and "task_cards" in {pages[n] for n in later_card}


def test_a_kit_that_goes_home_has_its_first_week_on_as_few_pages(tmp_path: Path) -> None:
    assert run("kit", "--home", "--out", str(tmp_path)).exit_code == 0
    card, paper, later_card, _ = sorted(typed(tmp_path))
    assert len(card + paper) + 1 <= 12
    kinds = {page: kind for page, kind, _ in kinds_of(tmp_path)}
    assert "labels" in {kinds[n] for n in later_card}


def test_the_pieces_do_every_sum_of_the_week() -> None:
    for sums in (LESSONS, (Sum(634, 258),), (Sum(21, 13),), (Sum(305, 148), Sum(71, 48))):
        made = contents(KitWish(sums, ("pieces", "mats", "week"), LESSONS[:1]), WORDS)
        needed = stock((*sums, *made.first))
        assert made.pieces == needed and len(made.first) == 10
        assert {rung_of(s) for s in made.first} == {rung_of(sums[0])}
    ready = contents(KitWish(LESSONS, ("pieces", "week"), LESSONS[:1]), WORDS)
    assert ready.first == READY_WEEK and ready.pieces == READY_PIECES == Pieces(15, 13, 4)


def test_no_week_without_an_exchange_and_none_in_a_class_set(tmp_path: Path) -> None:
    assert run("kit", "48-15", "--out", str(tmp_path / "a")).exit_code == 0
    assert "week" not in {kind for _, kind, _ in kinds_of(tmp_path / "a")}
    assert run("kit", "71-48", "--children", "2", "--out", str(tmp_path / "b")).exit_code == 0
    assert "week" not in {kind for _, kind, _ in kinds_of(tmp_path / "b")}


def test_weeks_go_into_a_kit_in_one_command(tmp_path: Path) -> None:
    result = run("kit", "--weeks", "2", "--out", str(tmp_path / "a"))
    assert result.exit_code == 0, result.stderr
    (tmp_path / "plan.csv").write_text(plan_table(plan(PlanWish(Span(2))).tasks))
    args = ("kit", "--plan", str(tmp_path / "plan.csv"), "--out", str(tmp_path / "b"))
    assert run(*args).exit_code == 0
    assert kinds_of(tmp_path / "a") == kinds_of(tmp_path / "b")  # the same, with no file between
    kinds = [kind for _, kind, _ in kinds_of(tmp_path / "a")]
    assert "task_cards" not in kinds and kinds.count("week") == 2


def test_weeks_begin_with_the_sum_given(tmp_path: Path) -> None:
    args = ("kit", "634-258", "--weeks", "2", "--start", "2027-01-11", "--from", "both")
    assert run(*args, "--only", "week", "--out", str(tmp_path)).exit_code == 0
    record = json.loads((tmp_path / "kit.json").read_text())
    assert record["sums"][0] == {"whole": 634, "part": 258, "rest": 376}


def test_a_class_gets_one_worksheet_a_day(tmp_path: Path) -> None:
    args = ("kit", "--weeks", "1", "--children", "29", "--share", "2", "--out", str(tmp_path))
    assert run(*args).exit_code == 0
    pages = kinds_of(tmp_path)
    copies = {kind: {c for _, k, c in pages if k == kind} for _, kind, _ in pages}
    assert copies["worksheet"] == {29} and copies["week"] == {29}
    assert copies["worksheet_key"] == {1} and copies["mat"] == {15}
    assert sum(kind == "worksheet" for _, kind, _ in pages) == 5
    read = said_on(tmp_path)
    assert "One child has a kit alone" in read[0]  # 14 kits for 28, and one more
    sheets = [text for text in read if "Subtract in columns" in text and "Day " in text]
    by_hand = ["With pieces, nothing is written" in text for text in sheets]
    at_once = ["Move first" in text for text in sheets]
    assert (by_hand, at_once) == ([True, *[False] * 4], [False, *[True] * 3, False])


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("--start", "2027-01-11"), "--start was given without --weeks"),
        (("--from", "both"), "--from was given without --weeks"),
        (("--weeks", "0"), "--weeks was 0"),
        (("--weeks", "2", "--plan", "x.csv"), "--weeks and --plan"),
        (("305-148", "--weeks", "2", "--skip", "across-zero"), "leave one to learn"),
        (("43-17", "4003-1758", "--weeks", "1"), "4003 − 1758 can only be the first"),
        (("43-17", "42-17", "--weeks", "1"), "42 − 17 can only be the first"),
        (("48-15", "--only", "week"), "There is nothing to print"),
        (("5-3", "--kinds", "stories", "--only", "cards"), "No story fits 5 − 3"),
    ],
)
def test_weeks_that_cannot_be_are_refused(args: tuple[str, ...], says: str, tmp_path: Path) -> None:
    result = run("kit", *args, "--out", str(tmp_path / "out"))
    assert result.exit_code == 2 and says in result.stderr
    assert not (tmp_path / "out").exists()


def test_what_the_pieces_reach_is_said_and_true() -> None:
    said = " ".join(reach_said(Pieces(15, 13, 4), WORDS))
    assert "at most 4 hundreds, 9 tens and 9 ones" in said
    assert "not enough ones: at most 5 ones" in said
    assert "not enough tens: at most 3 tens" in said
    # All sums below 500, by brute force: those words and the stock say the same.
    for whole in range(100, 500):
        for part in range(1, whole, 7):
            sum_ = Sum(whole, part)
            ones, tens = whole % 10, whole // 10 % 10
            words_say = (ones >= part % 10 or ones <= 5) and (
                whole % 100 >= part % 100 or tens <= 3
            )
            covered = Pieces(15, 13, 4).most(stock([sum_])) == Pieces(15, 13, 4)
            assert words_say == covered, sum_
    assert "a whole with no tens." in " ".join(reach_said(Pieces(15, 10, 4), WORDS))
    assert list(reach_said(Pieces(9, 9), WORDS))[1:] == [
        "Where there are not enough ones, the pieces do not suffice."
    ]


def test_the_road_opens_every_kind_and_lists_what_the_pieces_can_do() -> None:
    done = READY_WEEK
    page = road(LESSONS, done, READY_PIECES, WORDS)
    for rung, row in zip(LADDER, page.rows, strict=True):
        known = [s for s in LESSONS if rung_of(s) == rung]
        assert row.opening and rung_of(row.opening) == rung
        assert not known or row.opening == known[0]
    assert [row.boxes for row in page.rows] == [
        *((3, 3, 2, 2), (1, 1, 1, 2)),  # the first kind takes most, the second least
        *((2, 2, 1, 2), (2, 2, 1, 2), (2, 2, 1, 2)),
    ]
    for rung, row in zip(LADDER, page.rows, strict=True):
        own = {s for s in (row.opening, *row.more, *done) if s and rung_of(s) == rung}
        assert len(own) >= sum(row.boxes), row.kind  # a sum for every box
        assert row.reached and row.more and not {*row.more} & {*done, *LESSONS}
        for sum_ in row.more:
            assert rung_of(sum_) == rung
            assert READY_PIECES.most(stock([sum_])) == READY_PIECES


@pytest.mark.parametrize("language", designs.names("words"))
def test_the_road_warns_of_the_shortage_that_two_mistakes_share(language: str) -> None:
    said = road(LESSONS, READY_WEEK, READY_PIECES, designs.words(language)).reach[-1]
    poor = re.search(r"(\d+) − (\d+)", said)
    assert poor and short_by_five(int(poor[1]), int(poor[2]))


def test_the_road_does_not_warn_of_the_sum_that_was_given() -> None:
    given = Sum(52, 27)
    said = road((given,), (), stock([given]), WORDS).reach[-1]
    assert said.startswith("52 − 27 is short by exactly 5") and "Leave out" not in said


def test_a_kind_that_takes_more_pieces_is_not_promised() -> None:
    page = road((Sum(71, 48),), (), stock([Sum(71, 48)]), WORDS)
    assert [row.reached for row in page.rows] == [True, False, False, False, False]


@pytest.mark.parametrize("language", designs.names("words"))
def test_guide_plan_and_worksheets_name_one_order(language: str) -> None:
    words = designs.words(language)
    names = [words(f"stages.{stage}") for stage in STAGES]
    assert len(set(names)) == 4
    week = week_pages(plan(PlanWish(Span(1))).tasks, words)[0]
    met = [asked.stage for day in week.days for asked in day.sums]
    assert sorted(STAGES, key=met.index) == list(STAGES)
    sheet = worksheets(plan(PlanWish(Span(1))).tasks, words, daily=False)[0][0]
    assert list(sheet.words.stages) == names
    assert plan_sums(plan(PlanWish(Span(1))).tasks) == READY_WEEK


@dataclass(frozen=True, slots=True)
class Made:
    """A kit for children who take it home: its record, and the words of each page."""

    record: dict[str, Any]
    said: list[str]

    @property
    def kinds(self) -> dict[int, str]:
        """The kind of each page."""
        return {sheet["page"]: sheet["kind"] for sheet in self.record["sheets"]}

    def of(self, kind: str) -> list[str]:
        """Return the words of each page of ``kind``."""
        return [self.said[page - 1] for page, own in self.kinds.items() if own == kind]


@cache
def goes_home(weeks: int, language: str = "en-GB", paper: str = "a4", children: int = 3) -> Made:
    """Return a kit for so many weeks and children, made once for all who ask."""
    args = ("--home", "--weeks", str(weeks), "--paper", paper, "--words", language)
    with TemporaryDirectory() as folder:
        made = run("kit", *args, "--children", str(children), "--out", folder)
        assert made.exit_code == 0, made.stderr
        record = json.loads((Path(folder) / "kit.json").read_text())
        return Made(record, said_on(Path(folder)))


def copies_of(folder: Path) -> dict[str, list[int]]:
    found: dict[str, list[int]] = {}
    for _, kind, copies in kinds_of(folder):
        found.setdefault(kind, []).append(copies)
    return found


def test_a_class_set_takes_home_what_was_asked_for(tmp_path: Path) -> None:
    # 29 children, one kit each: all lessons go into every bag, for its cards are of every kind of
    # sum, and so do the answers; four slips a page are eight pages for 29 children.
    args = ("kit", "--children", "29", "--home", "--out", str(tmp_path))
    result = run(*args)
    assert result.exit_code == 0, result.stderr
    found = copies_of(tmp_path)
    assert set(found["lesson"]) == {29} and len(found["lesson"]) > 2
    assert set(found["guide"]) == {29}  # when to write, and what to ask about a wrong answer
    assert set(found["answers"]) == {29} and found["slip"] == [8]
    assert sum(found["labels"]) == len(found["labels"]) == 8  # four a sheet
    read = said_on(tmp_path)
    run_page = read[0]
    total = sum(sum(copies) for copies in found.values())
    record = json.loads((tmp_path / "kit.json").read_text())["estimate"]
    assert record["card_sheets"] + record["paper_sheets"] == total
    assert f"{record['paper_sheets']}" in run_page
    assert "4 on a sheet: cut apart (not in the minutes), comes back" in run_page
    assert run_page.count("not in the minutes") == 3  # mats, blank cards, slips
    # answers, lessons, guide, differently
    assert run_page.count("one into each bag, stays at home") == 4
    assert "Its label, and what is cut for it. Of pages " in run_page
    kinds = [kind for _, kind, _ in kinds_of(tmp_path)]
    cutting = " ".join(t for t, kind in zip(read, kinds, strict=True) if kind == "cutting")
    assert "“How it went”: 1 slip, cut apart." in cutting  # as much as a bag holds
    assert run(*args[:3], "--out", str(tmp_path / "b")).exit_code == 0
    plain = copies_of(tmp_path / "b")
    assert set(plain["lesson"]) == set(plain["answers"]) == {1} and "slip" not in plain


def test_two_who_share_a_kit_each_have_their_pages_at_home(tmp_path: Path) -> None:
    args = ("kit", "--children", "4", "--share", "2", "--home", "--weeks", "4")
    assert run(*args, "--out", str(tmp_path)).exit_code == 0
    found = copies_of(tmp_path)
    for kind in ("lesson", "guide", "week", "worksheet", "worksheet_key", "differently"):
        assert set(found[kind]) == {4}, kind
    assert set(found["mat"]) == {2}
    first = " ".join(said_on(tmp_path)[: len(found["print_run"])])
    assert "one for each child, stays at home" in first
    assert "one for each child, comes back" in first


@pytest.mark.parametrize(("paper", "language"), [("letter", "en-GB"), ("a5", "es")])
def test_label_print_run_and_weeks_tell_what_stays_at_home(paper: str, language: str) -> None:
    words, kit = designs.words(language), goes_home(4, language, paper)
    said: dict[str, str] = defaultdict(str)
    for page, kind in zip(kit.said, kit.kinds.values(), strict=True):
        said[kind] += page + " "
    stays = ["lesson", "week", "worksheet", "worksheet_key", "guide", "progress", "differently"]
    keep = "; ".join(words(f"title.{kind}") for kind in stays)
    back = words("bag.back", slip=words("title.slip"))
    labels = said["labels"].count(words("bag.how"))  # with what fills the sheet
    assert labels >= 3
    for told in (words("bag.home", things=keep), back, words("bag.care")):
        assert said["labels"].count(told) == labels
    # the first lesson, four weeks, those that come back, later lessons, guide, road, differently
    assert said["print_run"].count(words("run.home")) == 10
    assert said["print_run"].count(words("run.home_back")) == 1
    assert words("slip.note") in kit.of("slip")[0]
    if paper != "a5":
        check_label(kit, words, again=True)
        check_weeks(kit.of("week"), words)


def pages_said(text: str) -> list[int]:
    runs = re.findall(r"(\d+)(?:–(\d+))?", text)
    return [n for a, b in runs for n in range(int(a), int(b or a) + 1)]


def check_label(kit: Made, words: designs.Words, *, again: bool) -> None:
    """Check that a bag's label says whether it goes out again, and the run what is kept."""
    text = kit.of("labels")[0]
    assert [words(f"bag.{key}") in text for key in ("again", "more")] == [again, again]
    first = " ".join(kit.said[:2])
    pattern = re.escape(words("run.own", pages="@")).replace("@", r"([\d–, ]+)")
    (own,) = re.findall(pattern, first)
    kept = {
        n
        for n, kind in kit.kinds.items()
        if kind in ("week", "worksheet_key", "lesson", "guide", "answers")
    }
    assert kept <= set(pages_said(own))


def check_weeks(pages: list[str], words: designs.Words) -> None:
    """Check that each week that goes home says how its days go."""
    assert len(pages) == 5
    keys = ["script.guess", "week.note", "week.facts_how", "week.on", "road.back_told"]
    keys += [f"stages.{stage}" for stage in STAGES]
    keys += [f"week.daily_{name}" for name in ("facts", "take", "push")]
    for week, text in enumerate(pages[:4], 1):
        assert words("week.title", week=week) in text
        for key in keys:
            assert words(key) in text, (week, key)


@pytest.mark.parametrize(("weeks", "copies"), [(2, [15]), (6, [29, 29])])
def test_a_child_gets_a_slip_for_each_week(weeks: int, copies: list[int]) -> None:
    # Four on a page: 58 slips are cut apart for all; with more each child has own pages,
    # which go into the bags whole.
    kit = goes_home(weeks, children=29)
    slips = {s["page"]: s["copies"] for s in kit.record["sheets"] if s["kind"] == "slip"}
    assert list(slips.values()) == copies
    text = " ".join(kit.said[:2])
    apart = f"Slips from page {min(slips)}, cut apart: {weeks} for each child."
    assert (apart in text) is (weeks <= 2)
    bagged = re.search(r"Of pages? ([\d–, ]+), one(?: each)?\.", text)
    assert bagged
    assert (set(slips) <= set(pages_said(bagged[1]))) is (weeks > 2)


def test_bags_are_filled_week_by_week_with_all_that_was_printed_for_them(tmp_path: Path) -> None:
    kit = goes_home(4, children=29)
    record, kinds, read = kit.record, kit.kinds, kit.said
    text = " ".join(kit.of(RUN))
    filled = text[text.index("Fill each bag") :]
    listed = [
        pages_said(found) for found in re.findall(r"Of pages? ([\d–, ]+), one(?: each)?\.", filled)
    ]
    papers = {
        sheet["page"]
        for sheet in record["sheets"]
        if sheet["stock"] == "paper" and sheet["copies"] == 29
    }
    assert sorted(page for pages in listed for page in pages) == sorted(papers)
    assert len(listed) == 5 and filled.count("Week ") == 3  # at once, weeks 2 to 4, the returns
    for week, pages in enumerate(listed, 1):
        held = [kinds[page] for page in pages]
        assert held.count("week") == 1 and held.count("worksheet") == held.count("worksheet_key")
        names = [f"Week {week}"] if week < 5 else ["Week 5", "Week 10", "Week 30"]
        for page in pages:
            if kinds[page].startswith("worksheet"):
                assert any(name in read[page - 1] for name in names)
    # those of a family: 1, 2, 2, 3 and 4 worksheets, and as many keys
    family = tmp_path / "family"
    assert run("kit", "--weeks", "4", "--out", str(family)).exit_code == 0
    for kind in ("worksheet", "worksheet_key"):
        assert list(kinds.values()).count(kind) == len(copies_of(family)[kind]) == 12
    # 431 - 257 teaches the second week's kinds and the third's, 305 - 148 begins in the third
    lessons = [page for page, kind, _ in kinds_of(family) if kind == "lesson"]
    both, zero = lessons[2:4], lessons[4:]
    told = [f"{both[0]}–{both[1]}", f"{both[0]}–{zero[0]}", f"{zero[0]} ", f"{both[0]}–{zero[0]}"]
    weeks = [text for text in said_on(family) if "Lessons: p. " in text][1:]
    assert all(f"Lessons: p. {at}" in text for at, text in zip(told, weeks, strict=True))
    assert record["estimate"]["paper_sheets"] < 45 * 29


@pytest.mark.parametrize(
    ("words", "args", "told"),
    [
        ("es", ("--only", "week,guide"), ("worksheet", "worksheet_key", "guide")),
        ("es", ("--children", "5", "--home"), ("worksheet", "worksheet_key", "guide")),
        ("en-US", ("--children", "5"), ("worksheet",)),  # the others are the teacher's
        ("en-GB", ("--only", "week"), ("worksheet", "worksheet_key")),
    ],
)
def test_a_weeks_page_tells_the_pages_that_it_needs(
    words: str, args: tuple[str, ...], told: tuple[str, ...], tmp_path: Path
) -> None:
    command = ("kit", "--weeks", "2", "--words", words, "--out", str(tmp_path), *args)
    assert run(*command).exit_code == 0
    read = said_on(tmp_path)
    pages = {page: kind for page, kind, _ in kinds_of(tmp_path)}
    said = designs.words(words)
    weeks = [page for page, kind in pages.items() if kind == "week"]
    for number, week in enumerate(weeks[:2], 1):
        name = said("plan.week", week=number)
        for kind in ("worksheet", "worksheet_key", "guide"):
            found = re.search(
                rf"{re.escape(said(f'week.at_{kind}'))} (\d+)(?:–(\d+))?", read[week - 1]
            )
            assert bool(found) is (kind in told)
            if found:
                first, last = int(found[1]), int(found[2] or found[1])
                own = [p for p, k in pages.items() if k == kind]
                if kind != "guide":
                    own = [p for p in own if name in read[p - 1]]
                assert list(range(first, last + 1)) == own


@pytest.mark.parametrize("part", ["guide", "progress", "week", "differently"])
def test_pages_to_read_alone_are_printed_for_every_child(part: str, tmp_path: Path) -> None:
    args = ("kit", "--only", part, "--children", "29", "--out", str(tmp_path))
    assert run(*args).exit_code == 0
    named = {
        "guide": ("guide",),
        "differently": ("differently",),
        "progress": ("progress",),
        "week": ("week", "worksheet"),
    }
    found = copies_of(tmp_path)
    for kind in named[part]:
        assert set(found[kind]) == {29}


@pytest.mark.parametrize(
    ("paper", "language"), [("a4", "en-GB"), ("letter", "en-US"), ("letter", "es"), ("a4", "es")]
)
def test_pages_for_adults_are_one_page_each(paper: str, language: str, tmp_path: Path) -> None:
    args = ("kit", "--only", "evening,outline", "--words", language, "--paper", paper)
    assert run(*args, "--out", str(tmp_path)).exit_code == 0
    kinds = [kind for _, kind, _ in kinds_of(tmp_path)]
    assert kinds.count("evening") == kinds.count("outline") == 1


def test_four_pictures_for_a_parents_evening_show_every_exchange_of_their_sum() -> None:
    words = designs.words("en-GB")
    assert evening([Sum(305, 148), Sum(254, 38)], words).sum == Sum(254, 38)
    assert evening([Sum(4321, 2987)], words).sum == evening([Sum(48, 23)], words).sum == Sum(43, 17)


def test_a_week_asks_every_sum_that_is_given_for_it(tmp_path: Path) -> None:
    args = ("kit", "43-17", "62-35", "81-24", "--weeks", "1", "--only", "week")
    assert run(*args, "--out", str(tmp_path)).exit_code == 0
    record = json.loads((tmp_path / "kit.json").read_text())
    assert [tuple(found.values())[:2] for found in record["sums"]][:3] == [
        (43, 17), (62, 35), (81, 24),
    ]  # fmt: skip


def test_pages_that_were_not_asked_for_stay_away(tmp_path: Path) -> None:
    assert run("kit", "--weeks", "1", "--only", "evening", "--out", str(tmp_path)).exit_code == 0
    assert {kind for _, kind, _ in kinds_of(tmp_path)} == {"cover", "evening"}
    assert run("kit", "--only", "guide", "--children", "29", "--out", str(tmp_path)).exit_code == 0
    assert "labels" not in {kind for _, kind, _ in kinds_of(tmp_path)}


def test_a_kit_that_goes_home_alone_has_a_label_for_one_name(tmp_path: Path) -> None:
    words = designs.words("es")  # the longest
    for args, named in (
        (("--home",), "name"),
        (("--home", "--children", "4", "--share", "2"), "turns"),
    ):
        parts = ("--only", "pieces,cards", "--words", "es", "--out", str(tmp_path))
        assert run("kit", *args, *parts).exit_code == 0
        (label,) = [page for page, kind, _ in kinds_of(tmp_path) if kind == "labels"]
        text = said_on(tmp_path)[label - 1]
        said = text.split()  # one child's own kit goes nowhere and is not given back
        assert (words("bag.how") in text, words("bag.alone_how") in text) == (
            named == "turns",
            named == "name",
        )
        assert (words("bag.name") in said, words("bag.turns") in text) == (
            named == "name",
            named == "turns",
        )


def test_a_bag_label_names_what_goes_home(tmp_path: Path) -> None:
    words = designs.words("es")  # the longest
    weeks = ("--weeks", "1", "--children", "3", "--words", "es", "--out", str(tmp_path))
    assert run("kit", *weeks).exit_code == 0
    (stays,) = [page for page, kind, _ in kinds_of(tmp_path) if kind == "labels"]
    (goes,) = goes_home(1, "es").of("labels")
    check_label(goes_home(1, "es"), words, again=False)
    for text, there in ((said_on(tmp_path)[stays - 1], False), (goes, True)):
        for kind in ("lesson", "guide", "worksheet_key", "slip", "differently"):
            assert (words(f"title.{kind}") in text) is there, kind


@pytest.mark.parametrize("language", designs.names("words"))
def test_a_week_of_several_kinds_says_each_count_on_a_line_of_its_own(language: str) -> None:
    words = designs.words(language)
    (told,) = [said for stage, said in week_pages(TASKS, words)[1].on if stage == "pieces"]
    _, *counts = told.split("\n")
    assert len(counts) > 1 and all(count.count("(") == 1 for count in counts)


@pytest.mark.parametrize("language", designs.names("words"))
def test_the_readiness_check_is_called_that_on_its_worksheets(language: str) -> None:
    words = designs.words(language)
    for sheet in (sheet for both in worksheets(TASKS, words, daily=False) for sheet in both):
        checked = [one for one in sheet.asked if one.day == words("plan.check")]
        assert all(one.stage == "written" for one in checked)
    asked = [one for sheet in worksheets(TASKS, words, daily=False)[0] for one in sheet.asked]
    assert sum(one.day == words("plan.check") for one in asked) == 10


@pytest.mark.parametrize("daily", [False, True])
def test_only_where_pieces_and_pencil_go_together_is_each_move_written_at_once(
    daily: bool,
) -> None:
    sheets, _ = worksheets(TASKS, WORDS, daily=daily)
    at_once = [sheet.foot.startswith("Move first") for sheet in sheets]
    assert at_once == [any(one.stage == "both" for one in sheet.asked) for sheet in sheets]
    assert True in at_once and False in at_once


def test_a_kind_whose_lesson_the_weeks_leave_out_says_where_it_is() -> None:
    tasks = plan(PlanWish(Span(3))).tasks
    wish = KitWish(plan_sums(tasks), ("guide", "week"), (Sum(43, 17),), plan=tasks)
    page = contents(wish, WORDS).course.road
    told = WORDS("road.more_weeks", sum=Sum(305, 148))
    assert page and [row.told for row in page.rows] == [*[""] * 4, told]


def test_a_kind_after_that_of_an_own_sum_says_where_its_lesson_is() -> None:
    wish = KitWish((Sum(254, 38),), ("guide", "week"), (Sum(43, 17),), limit=1000)
    page = contents(wish, WORDS).course.road
    assert page and [row.told for row in page.rows] == [*[""] * 2, *[WORDS("road.own_kit")] * 3]


@pytest.mark.parametrize("sum_", [Sum(634, 258), Sum(20, 11), Sum(4002, 1768)])
def test_a_lesson_with_a_class_begins_with_five_facts_through_ten(sum_: Sum) -> None:
    found = outline_page(sum_).facts
    assert len({*found}) == len(found) == 5
    assert all(fact.crosses_ten for fact in found)
    assert {fact for fact in facts(sum_) if fact.crosses_ten} <= {*found}


def test_how_far_we_are_says_where_to_begin_unless_at_the_top() -> None:
    words = designs.words("en-GB")
    assert road((Sum(43, 17),), (), READY_PIECES, words).begins == ""
    assert road((Sum(634, 258),), (), READY_PIECES, words).begins == "both"


def test_children_who_share_a_bag_have_weeks_without_dates(tmp_path: Path) -> None:
    args = ("--home", "--children", "4", "--share", "2", "--weeks", "3", "--start", "2027-01-11")
    made = run("kit", *args, "--only", "week", "--out", str(tmp_path))
    assert "--start changes nothing" in made.stderr
    read = " ".join(said_on(tmp_path))
    assert "January" not in read and "11 Jan" not in read
