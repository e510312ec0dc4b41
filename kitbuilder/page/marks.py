"""What children's answers say, as the screen shows it, and the pack to give them next."""

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from kitbuilder.design import load as designs
from kitbuilder.design.load import Words
from kitbuilder.draw.draw_sheet import draw_items
from kitbuilder.errors import RefusedError
from kitbuilder.kit.card_records import Pupil, Task
from kitbuilder.kit.child_words import child_words
from kitbuilder.kit.class_marks import ChildMarks, ClassMarks, class_marks
from kitbuilder.kit.lesson.mistaken import mistaken_step
from kitbuilder.layout.parts.mat_frame import mat_frame
from kitbuilder.layout.parts.mat_picture import mat_picture
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.reading import Verdict
from kitbuilder.page.pasted import PASTED, cell_rows, csv_line
from kitbuilder.page.preview import preview
from kitbuilder.press.printing import Press
from kitbuilder.request.answers import read_answers

ALSO = 0.15
"""How likely a second mistake must be to be told as well."""

WIDE, HIGH, LEAST_ONE = 80.0, 60.0, 1.0
"""A picture's width and most height, and the least width of a one in it, in mm."""


@lru_cache(1)
def read_marks(text: str) -> ClassMarks:
    """Return what a pasted table of answers says. Raises ``RefusedError`` with the row.

    Columns are name, sum and answer, or sum and answer alone; a heading row is not needed, nor
    is it in the way. Or the sums stand in the first row, and a name and answers in each other.
    """
    headed, added = _headed(text)
    try:
        papers = read_answers(headed, PASTED)
    except RefusedError as error:
        error.row = error.row and error.row - added
        raise
    return class_marks([(paper.name, paper.cells) for paper in papers])


def _headed(text: str) -> tuple[str, int]:
    """Return the table with the heads that are read, and how many rows that adds before it.

    A table with its sums in the first row is left as it is.
    """
    rows = list(cell_rows(text))
    if not rows or len(rows[0][1]) > 3 or not rows[0][1][0]:
        return text, 0
    lines = ["name,sum,answer"]
    for number, cells in rows:
        three = len(cells) > 2 or not any(sign in cells[0] for sign in "-−–")
        lines += [""] * (number - len(lines))  # so that a refusal names the row as it was typed
        lines.append(csv_line(*(cells if three else [str(number), *cells])))
    return "\n".join(lines), 1


def next_pupils(marks: ClassMarks) -> tuple[Pupil, ...]:
    """Return a pack for each child that needs one: sums that tell more, then sums to practise."""
    found = []
    for child in marks.children:
        tasks = [Task(sum_, "written") for sum_ in child.next.telling]
        tasks += [Task(sum_, "pieces") for sum_ in child.next.practice]
        if tasks:
            found.append(Pupil(child.name, tuple(tasks)))
    return tuple(found)


def marks_told(wishes: Mapping[str, Any]) -> dict[str, Any]:
    """Return what the screen shows of the answers: children, and groups to teach together."""
    marks = read_marks(str(wishes.get("answers") or ""))
    words = designs.words(str(wishes.get("lang") or "en-GB"))
    children = [_child(child, words) for child in marks.children]
    alike: dict[str, list[str]] = {}
    for child in children:
        if child["asks"]:
            alike.setdefault(child["named"], []).append(child["name"])
    groups = [{"says": says, "names": names} for says, names in alike.items() if names[1:]]
    return {"children": children, "groups": groups}


def _child(child: ChildMarks, words: Words) -> dict[str, Any]:
    """Return what is said of one child; ``wrong`` is whole, part, answer and rest, or nothing."""
    said = child_words(child, words)
    told: dict[str, Any] = {"name": child.name, "wrong": None, "picture": None}
    if said is None:
        right = words(f"marks.verdict.{Verdict.RIGHT.value}")
        return told | {"says": right, "asks": [], "also": "", "happened": ""}
    sum_ = said.shown
    keys = [one.key for one in child.reading.habits if one.probability >= ALSO]
    also = keys[1:2] if child.reading.verdict is Verdict.MORE else []
    return told | {
        "wrong": [sum_.whole, sum_.part, said.answer, sum_.rest],
        "named": words(f"mistake.{said.key}.name") if said.key else said.mistake,
        "says": said.mistake,
        "happened": said.happened,
        "asks": list(said.asks),
        "also": words(f"mistake.{also[0]}.name") if also else "",
        "picture": mistake_picture(sum_, said.key, said.place, words.language),
    }


@lru_cache(200)
def mistake_picture(sum_: Sum, key: str, place: int | None, language: str) -> dict[str, str] | None:
    """Return the lesson's picture of the moment at which a mistake shows, and what it says.

    None where there is no piece for a thousand.
    """
    if sum_.places > 3:
        return None
    words = designs.words(language)
    style = Press(words=words).style(designs.paper("a4"))
    step = mistaken_step(sum_, key, place, words)
    frame = mat_frame([step.scene], WIDE, style, high=HIGH, least=LEAST_ONE)
    if frame is None:
        return None
    block = mat_picture(step.scene, frame, style)
    drawing = draw_items(block.at(1, 1), block.width + 2, block.height + 2, style)
    return {"svg": preview(drawing, 0), "says": step.title}
