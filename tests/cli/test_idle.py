"""Wishes that change nothing: said in a note, and not said where they do change something."""

from dataclasses import fields, replace
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.cli.idle import idle
from kitbuilder.formats.plan_csv import read_plan
from kitbuilder.kit.card_records import CardWishes, Pupil, Task
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.records import CutWish, EstimateWish
from kitbuilder.layout.estimate import Estimate
from kitbuilder.number import Sum
from kitbuilder.number.course.schedule import Task as PlanTask
from kitbuilder.press.printing import Press
from kitbuilder.request.request import Part, Request, fitted_paper

SUM = Sum(71, 48)
HELD = Estimate(EstimateWish(), 3, 5, 40, 100.0, 1.0, None, None)
NOTHING_CUT = replace(HELD, cuts=0)
NO_CARD = replace(HELD, card=0)
PLAN: tuple[PlanTask, ...] = read_plan(
    "date,week,day,phase,kind,whole,part,seconds\n2027-01-11,1,1,practice,pieces,71,48,300\n"
)


def said(takes: Estimate = HELD, **wished: Any) -> list[str]:  # noqa: ANN401 - fields of a request
    return [str(note) for note in idle(Request((SUM,), fitted_paper("a4"), **wished), takes)]


@pytest.mark.parametrize(
    ("wished", "options", "why"),
    [
        # What is for a part that is not printed; the guide's pictures show the mat's arrangement.
        (
            {
                "parts": ("pieces",),
                "cards": CardWishes("both", "fold", ("facts",), "ten-and-crossing"),
            },
            "--stage, --backs and --kinds change",
            "no cards",
        ),
        (
            {"parts": ("pieces",), "mats": MatWish(("add",), "three", "letters")},
            "--mat and --headings change",
            "no mats",
        ),
        (
            {"parts": ("guide",), "mats": MatWish(("add",), "three", "letters")},
            "--mat and --headings change",
            "no mats",
        ),
        (
            {"parts": ("mats",), "mats": MatWish(("add", "exchange"), "three")},
            "--mat changes",
            "no subtraction mat",
        ),
        (
            {
                "parts": ("cards",),
                "cutting": CutWish(same_sheets=True, spares=5.0),
                "press": Press(sturdy="fold"),
            },
            "--spares, same_sheets and --sturdy change",
            "no pieces",
        ),
        ({"parts": ("cards",), "press": Press(kerf_mm=0.1)}, "--cutter changes", "no pieces"),
        (
            {"press": Press(sturdy="fold"), "cutting": CutWish(same_sheets=True)},
            "same_sheets changes",
            "one way alone",
        ),
        ({"parts": ("guide",), "within": 100}, "--within changes", "for pieces and mats"),
        # What only some kinds of cards have.
        ({"cards": CardWishes("both", kinds=("facts",))}, "--stage changes", "no card asks a sum"),
        (
            {"cards": CardWishes(backs="fold", kinds=("arrows",))},
            "--backs changes",
            "asks anything",
        ),
        ({"cards": CardWishes(headings=False)}, "--no-headings changes", "columns to write in"),
        # A plan's cards are its sums, each with pieces or written as it says.
        ({"plan": PLAN, "cards": CardWishes("both")}, "--stage changes", "the plan says"),
        (
            {"plan": PLAN, "cards": CardWishes(kinds=("tasks", "record"))},
            "--kinds changes",
            "its own cards",
        ),
        # Pupils' table may say it of every sum.
        (
            {
                "parts": ("cards",),
                "cards": CardWishes("both", kinds=("tasks",)),
                "pupils": (
                    Pupil("Ada", (Task(SUM, staged=True), Task(SUM, "written", staged=True))),
                ),
            },
            "--stage changes",
            "the table says",
        ),
        # What an estimate has no use for.
        (
            {
                "takes": NOTHING_CUT,
                "cutting": CutWish(layers=3),
                "estimate": EstimateWish(cuts_per_minute=3.0),
            },
            "--layers and cuts_per_minute change",
            "nothing is cut by hand",
        ),
        (
            {"takes": NO_CARD, "estimate": EstimateWish(grammage=160)},
            "grammage changes",
            "on card",
        ),
    ],
)
def test_what_changes_nothing_is_said(wished: dict[str, Any], options: str, why: str) -> None:
    (line,) = said(**wished)
    assert line.startswith(f"Note: {options} nothing here, because ") and why in line


@pytest.mark.parametrize(
    "wished",
    [
        # As usual, whatever is printed: nobody need have typed it.
        {"takes": replace(HELD, cuts=0, card=0), "parts": ("guide",)},
        {"parts": ("pieces",)},
        # Each where it is of use.
        {"parts": ("cards",), "cards": CardWishes("both", "fold", ("tasks",), headings=False)},
        {"cards": CardWishes(backs="fold", kinds=("facts",), facts="ten-and-crossing")},
        {"parts": ("mats",), "mats": MatWish(("subtract", "exchange"), "three", "letters")},
        {"parts": ("guide",), "mats": MatWish(arrangement="beside")},
        {"parts": ("pieces",), "cutting": CutWish(4, 3, same_sheets=True, spares=5.0)},
        {"parts": ("pieces",), "press": Press(sturdy="fold")},
        {"press": Press(sturdy="backs"), "cutting": CutWish(same_sheets=True)},
        {"press": Press(kerf_mm=0.1), "within": 100},
        {"parts": ("mats",), "within": 100},
        {"parts": ("cards",), "within": 100},  # it says which exchange cards there are
        {"estimate": EstimateWish(cuts_per_minute=3.0, grammage=160, per_sheet=0.1)},
        {"plan": PLAN, "cards": CardWishes(backs="fold")},
        {
            "mini": True,
            "cards": CardWishes("written"),
            "mats": MatWish(("subtract", "exchange"), "three"),
        },
        {
            "parts": ("cards",),
            "cards": CardWishes(kinds=("tasks",), headings=False),
            "pupils": (Pupil("Ada", (Task(SUM, staged=True), Task(SUM, "written", staged=True))),),
        },
    ],
)
def test_what_is_of_use_is_not_noted(wished: dict[str, Any]) -> None:
    assert said(**wished) == []


def test_a_note_goes_with_a_kit_that_is_made_all_the_same(tmp_path: Path) -> None:
    # A request file keeps what it says of cards for another day.
    file = tmp_path / "ours.toml"
    file.write_text('sums = ["71 - 48"]\nstage = "both"\n')
    args = ["kit", str(file), "--only", "pieces", "--out", str(tmp_path / "kit")]
    done = CliRunner().invoke(main, args)
    assert done.exit_code == 0 and (tmp_path / "kit" / "kit.pdf").is_file()
    assert "Note: --stage changes nothing here, because there are no cards.\n" in done.stderr


def test_what_is_typed_as_it_is_usual_is_noted_too(tmp_path: Path) -> None:
    # The table says the stage of every sum, so what was typed is not what is printed.
    table = tmp_path / "class.csv"
    table.write_text("name,sum,stage\nAda,71 - 48,written\n")
    args = ["cards", "--pupils", str(table), "--out", str(tmp_path / "cards")]
    done = CliRunner().invoke(main, [*args, "--stage", "pieces"])
    assert done.exit_code == 0
    assert "Note: --stage changes nothing here, because the table says" in done.stderr
    assert "changes nothing" not in CliRunner().invoke(main, args).stderr


def test_a_typed_mat_that_the_pages_show_is_not_noted() -> None:
    request = Request((SUM,), fitted_paper("a4"), parts=("guide",))
    assert idle(request, HELD, ("mat",)) == []
    mats = Request((SUM,), fitted_paper("a4"), parts=("mats",), mats=MatWish(("add",)))
    assert idle(mats, HELD, ("mat",)) == []


def test_every_option_of_a_kit_has_been_thought_of() -> None:
    # Each wish of the cards, the mats and the cutting is an option: when one is added, idle.py
    # has to say where it is of no use, and this list grows.
    known = {"stage", "backs", "kinds", "facts", "headings", "arrangement", "each"}
    known |= {"kits", "layers", "same_sheets", "spares", "children", "home"}  # every kit takes kits
    known |= {"piled"}  # what --piles asks for is also told on the print run
    for record in (CardWishes, MatWish, CutWish):
        assert {f.name for f in fields(record)} <= known


def test_a_guide_without_the_mat_it_uses_is_noted() -> None:
    # Its lessons build the whole and take the part out, which no other mat has zones for.
    assert said(mats=MatWish(("add",))) == [
        "Note: the guide uses the subtraction mat, which --mat leaves out."
    ]
    assert said(mats=MatWish(("add",)), parts=("pieces", "mats")) == []
    assert said(mats=MatWish(("subtract", "add"))) == []


@pytest.mark.parametrize(
    ("parts", "unit", "noted"),
    [
        (("demonstration",), 10, True),  # its ones are 20 mm at least
        (("demonstration",), 20, False),
        (("demonstration", "pieces"), 10, False),  # the small pieces are of that size
        (("guide",), 10, False),
    ],
)
def test_a_unit_too_small_for_large_pieces_is_noted(
    parts: tuple[Part, ...], unit: float, noted: bool
) -> None:
    paper, asked = fitted_paper("a4", unit=unit), Press(unit_asked=True)
    notes = idle(Request((SUM,), paper, parts=parts, press=asked), HELD)
    assert any("large pieces" in str(note) and "20 mm" in str(note) for note in notes) is noted


def test_more_children_to_a_kit_than_there_are_is_noted(tmp_path: Path) -> None:
    notes = []
    for share in ("30", "29"):
        args = ["53-27", "--only", "pieces", "--children", "29", "--share", share]
        notes.append(CliRunner().invoke(main, ["kit", *args, "--out", str(tmp_path)]).stderr)
    assert "only one kit is made: --share is 30 and --children 29" in notes[0]
    assert "--share" not in notes[1]
