"""Practice weeks on paper: every day a box to tick, every sum a card in the plan's order."""

from datetime import date
from pathlib import Path

from click.testing import CliRunner
from pypdf import PdfReader

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.formats.plan_csv import plan_table
from kitbuilder.kit.card_records import CardWishes
from kitbuilder.kit.plan_page import plan_pack, plan_page, plan_sums
from kitbuilder.kit.records import Say, Ticked
from kitbuilder.number import Sum
from kitbuilder.number.course.outline import Span
from kitbuilder.number.course.schedule import PlanWish, plan

WORDS = designs.words()
TASKS = plan(PlanWish(Span(4, 5, date(2027, 1, 11)))).tasks


def test_every_day_has_a_box_and_every_task_is_named() -> None:
    days = [block for block in plan_page(TASKS, WORDS) if isinstance(block, Ticked)]
    assert [day.title[4:14] for day in days] == sorted(
        {t.when.isoformat() for t in TASKS if t.when}
    )
    assert days[0].title == "Mon 2027-01-11"  # 11 January 2027 is a Monday
    said = " ".join(line for day in days for line in day.lines).replace("\xa0", " ")
    assert all(str(task.item) in said for task in TASKS)
    assert said.count("−") == len(TASKS)


def test_cards_follow_the_plan_with_the_day_on_each() -> None:
    pack = plan_pack(TASKS, CardWishes(), WORDS)
    due = [
        (t.item, t.kind, t.when and t.when.isoformat()) for t in TASKS if isinstance(t.item, Sum)
    ]
    cards = [(card.sum, card.stage, card.day[4:]) for card in pack.tasks]
    assert cards == [(sum_, kind, day) for sum_, kind, day in due]
    assert [found.sum for found in pack.answers] == list(dict.fromkeys(s for s, _, _ in due))
    assert len(plan_sums(TASKS)) == len(pack.answers)


def test_a_kit_with_a_plan(tmp_path: Path) -> None:
    few = [task for task in TASKS if task.when and task.when <= date(2027, 1, 12)]
    (tmp_path / "plan.csv").write_text(plan_table(tuple(few)))
    out = tmp_path / "kit"
    args = ["kit", "--plan", str(tmp_path / "plan.csv"), "--out", str(out)]
    result = CliRunner().invoke(main, args)
    assert result.exit_code == 0, result.stderr
    texts = [page.extract_text() for page in PdfReader(out / "kit.pdf").pages]
    sums = [task for task in few if isinstance(task.item, Sum)]
    dated = sum(text.count(" 2027-01-1") for text in texts)
    assert dated == len(sums) + 2  # a card each, and two days to tick
    assert any(text.startswith("Practice plan") for text in texts)


def test_a_plan_brings_its_own_sums(tmp_path: Path) -> None:
    (tmp_path / "plan.csv").write_text(plan_table(TASKS[:8]))
    given = ["kit", "71-48", "--plan", str(tmp_path / "plan.csv"), "--out", str(tmp_path / "k")]
    result = CliRunner().invoke(main, given)
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert "not both" in result.stderr
    (tmp_path / "plan.csv").write_text("date,week\n")
    result = CliRunner().invoke(main, ["kit", *given[2:]])
    assert result.exit_code == 2
    assert "lacks the column" in result.stderr


def test_weeks_that_come_back_and_the_days_of_the_check_are_told() -> None:
    # Practice first, checks at its end, returns weeks after it: each is named where it is.
    blocks = plan_page(TASKS, WORDS)
    headings = [b.text for b in blocks if isinstance(b, Say) and b.style == "heading"]
    weeks = list(dict.fromkeys((task.week, task.phase == "return") for task in TASKS))
    assert [WORDS("plan.return") in heading for heading in headings] == [
        *(later for _, later in weeks),
        False,  # the heading of the check's steps
    ]
    days = list(dict.fromkeys(task.when for task in TASKS))
    checked = {task.when for task in TASKS if task.phase == "check"}
    ticked = [block.title for block in blocks if isinstance(block, Ticked)]
    assert 0 < len(checked) < len(days)
    assert [WORDS("plan.check") in title for title in ticked] == [day in checked for day in days]
