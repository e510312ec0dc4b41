"""What children's answers say, as the screen shows it, and the pack to give them next."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any

from kitbuilder.design import load as designs
from kitbuilder.design.load import Words
from kitbuilder.draw.draw_sheet import draw_items
from kitbuilder.errors import Said
from kitbuilder.kit.card_records import Pupil, Task
from kitbuilder.kit.child_words import ALSO, BESIDE, child_words, practised
from kitbuilder.kit.class_marks import ChildMarks, ClassMarks, class_marks
from kitbuilder.kit.class_words import others_said
from kitbuilder.kit.lesson.mistaken import mistaken_step
from kitbuilder.kit.phrases import capital, mistaken
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.reading import Verdict
from kitbuilder.page.preview import preview
from kitbuilder.page.read_back import kept, out_of, read_back, taken_out
from kitbuilder.page.refusal import note_told
from kitbuilder.page.table.pasted import pasted_answers
from kitbuilder.press.printing import Press
from kitbuilder.request.answers import decimals_of, on_one_scale

OF_TERMINAL = ("answers.telling",)
"""Notes that name a command."""

WIDE, HIGH, LEAST_ONE = 80.0, 60.0, 1.0
"""A picture's width and most height, and the least width of a one in it, in mm."""


def read_marks(text: str, language: str = "en-GB", out: tuple[str, ...] = ()) -> ClassMarks:
    """Return what a pasted table of answers says, its decimals written as in ``language``.

    ``out`` names rows that were taken out. Raises ``RefusedRowsError`` by row.
    """
    return _read(text, language, out)[0]


@lru_cache(2)
def _read(
    text: str, language: str, out: tuple[str, ...]
) -> tuple[ClassMarks, tuple[Said, ...], tuple[str, ...]]:
    """Return what a pasted table of answers says, what was read otherwise than it stands, and who
    was taken ``out``."""
    words, notes = designs.words(language), list[Said]()
    whole = pasted_answers(text, words("number.point"), words("marks.asked"), notes)
    papers = kept(whole, out)
    if decimals := decimals_of(papers):  # then all have
        papers = on_one_scale(papers, words.counting(decimals).scale)
    marks = class_marks([(paper.name, paper.cells) for paper in papers])
    told = zip(marks.children, papers, strict=True)
    marks = replace(marks, children=tuple(replace(one, named=p.named) for one, p in told))
    noted = tuple(note for note in notes if note.code not in OF_TERMINAL)
    return marks, noted, tuple(taken_out(whole, out))


def wording(marks: ClassMarks, words: Words) -> Words:
    """Return ``words``, those of tenths and smaller places where the sums have decimals."""
    decimals = max((sum_.scale.decimals for sum_ in marks.sums), default=0)
    return words.counting(decimals) if decimals else words


def next_pupils(marks: ClassMarks, words: Words) -> tuple[Pupil, ...]:
    """Return a pack for each child that needs one: sums that tell more, then sums to practise.

    Whoever answered too little is asked first. Whoever has each kind right needs no pack, nor does
    who answered nothing: the table's sums come first. Each tells the adult why, in ``words``.
    """
    found, words = [], wording(marks, words)
    for child in marks.children:
        own = practised(child)
        tasks = [Task(sum_, "written", practises=own) for sum_ in child.next.telling]
        tasks += [Task(sum_, "pieces", practises=own) for sum_ in child.next.practice]
        if tasks:
            found.append(Pupil(child.name, tuple(tasks), _why(child, words)))
    return tuple(found)


def _why(child: ChildMarks, words: Words) -> str:
    """Return what a child's pack is for: the mistake it practises, or what it asks."""
    said = child_words(child, words)
    if said is None:
        return words("pack_why.asks")
    key = "pack_why.practises" if said.key else "pack_why.watches"
    return words(key, mistake=said.mistake, sum=said.shown, answer=said.answer)


def marks_told(wishes: Mapping[str, Any]) -> dict[str, Any]:
    """Return what the screen shows of the answers: each child, and of a class what its page says:
    groups to teach together, and in ``others`` what the rest need. ``notes`` tell what was read
    otherwise than it stands, ``read`` what was read, ``out`` who was taken out of it."""
    language = str(wishes.get("lang") or "en-GB")
    marks, notes, out = _read(str(wishes.get("answers") or ""), language, out_of(wishes))
    words = wording(marks, designs.words(language))
    names = [child.name for child in marks.children]
    told: dict[str, Any] = {"children": [_child(child, words) for child in marks.children]}
    told["notes"] = [note_told(note, language) for note in notes]
    told |= {"read": read_back(map(_given, marks.children)), "out": [*out]}
    if len(names) == 1:
        return told | {"together": "", "groups": [], "others": []}
    groups = [
        {
            "says": capital(words(f"mistake.{group.key}.name")),
            "names": [names[at] for at in group.children],
        }
        for group in marks.groups.together
    ]
    others = [*others_said(marks.groups, names, words)]
    return told | {"together": words("marks.together"), "groups": groups, "others": others}


def _given(child: ChildMarks) -> tuple[str, Iterator[Sequence[object]]]:
    """Return a child's name, and each sum with the answer that was read."""
    return child.name, ((cell.sum.whole, cell.sum.part, cell.answer) for cell in child.given)


def _child(child: ChildMarks, words: Words) -> dict[str, Any]:
    """Return what is said of one child.

    ``wrong`` is whole, part, answer and rest of the answer that is shown, or nothing; ``others``
    are the other wrong ones, each with the mistake that alone explains it, ``untried`` the sums
    without an answer, ``further`` those that would tell more.
    """
    said = child_words(child, words)
    told: dict[str, Any] = {
        "name": child.name,
        "tried": len(child.reading.reads),
        "further": [_written(sum_) for sum_ in child.next.telling],
        "untried": [_written(cell.sum) for cell in child.given if cell.answer is None],
        "wrong": None,
        "others": [],
    }
    if said is None:
        return told | {"asks": []}
    sum_ = said.shown
    keys = [one.key for one in child.reading.habits if one.probability >= ALSO]
    more = child.reading.verdict is Verdict.MORE
    also = [key for key in keys if more and key != said.key] or child.reading.rivals
    return told | {
        "wrong": [*_written(sum_), str(said.answer), str(sum_.rest)],
        "others": [
            [
                *_written(cell.sum),
                str(cell.answer),
                str(cell.sum.rest),
                _explained(child, at, words),
            ]
            for at, cell in enumerate(child.given)
            if cell.answer not in (None, cell.sum.rest)
            and (cell.sum, cell.answer) != (sum_, said.answer)
        ],
        "says": capital(said.mistake),
        "happened": said.happened,
        "asks": list(said.asks),
        "also": "; ".join(words(f"mistake.{key}.name") for key in also[:BESIDE]),
        "picture": mistake_picture(sum_, said.key, said.place, words.language),
    }


def _explained(child: ChildMarks, at: int, words: Words) -> str:
    """Return the name of the mistake that gave the answer at ``at``, if one known one explains it,
    as the class page has it."""
    read = child.read_of(at)
    key, place = child.mistake_of(read) if read else ("", None)
    return mistaken(words, key, place) if key else ""


def _written(sum_: Sum) -> list[str]:
    return [str(sum_.whole), str(sum_.part)]


@lru_cache(200)
def mistake_picture(sum_: Sum, key: str, place: int | None, language: str) -> dict[str, str] | None:
    """Return the lesson's picture of the moment at which a mistake shows, and what it says.

    None where there is no piece for ten ones beside hundredths, or no room.
    """
    if sum_.places > 3 and sum_.scale.decimals:
        return None
    words = designs.words(language)
    words = words.decimal if sum_.scale.decimals else words
    style = Press(words=words).style(designs.paper("a4"))
    step = mistaken_step(sum_, key, place, words)
    frame = mat_frame([step.scene], WIDE, style, high=HIGH, least=LEAST_ONE)
    if frame is None:
        return None
    block = mat_picture(step.scene, frame, style)
    drawing = draw_items(block.at(1, 1), block.width + 2, block.height + 2, style)
    return {"svg": preview(drawing, 0), "says": step.title}
