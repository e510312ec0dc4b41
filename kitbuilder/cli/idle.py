"""Turns a request into notes on the wishes that change nothing in it."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from kitbuilder.cli.outcome import joined

if TYPE_CHECKING:
    from kitbuilder.layout.estimate import Estimate
    from kitbuilder.request.request import Request

Idle = tuple[str, bool, str]
"""An option, whether it was wished for and changes nothing, and why."""


def idle(request: "Request", takes: "Estimate") -> list[str]:
    """Return a sentence for each reason why something wished for changes nothing.

    It is noted and not refused: a request file may hold wishes for more than ``--only`` asks for
    today. What was wished as it is usual counts as not wished for.
    """
    why: dict[str, list[str]] = {}
    for wishes in (_of_cards(request), _of_mats(request), _of_pieces(request, takes)):
        for option, in_vain, reason in wishes:
            if in_vain:
                why.setdefault(reason, []).append(option)
    notes = [
        f"Note: {joined(options)} {'changes' if len(options) == 1 else 'change'} nothing here, "
        f"because {reason}."
        for reason, options in why.items()
    ]
    if {"guide", "mats"} <= set(request.parts) and "subtract" not in request.mats.kinds:
        notes.append("Note: the guide uses the subtraction mat, which --mats leaves out.")
    return notes


def _of_cards(request: "Request") -> Iterator[Idle]:
    from kitbuilder.kit.card_records import CardWishes

    cards, usual = request.cards, CardWishes()
    stage, backs = cards.stage != usual.stage, cards.backs != usual.backs
    kinds, facts = cards.kinds != usual.kinds, cards.facts != usual.facts
    own = {"exchange", "tasks"} if request.plan else set(cards.kinds)
    if "cards" not in request.parts:
        for option, wished in (
            ("--stage", stage),
            ("--backs", backs),
            ("--kinds", kinds),
            ("--facts", facts),
        ):
            yield option, wished, "there are no cards"
        return
    if request.plan:
        yield "--stage", stage, "the plan says how each sum is asked"
        yield "--kinds", bool(set(cards.kinds) - own), "a plan brings its own cards"
    yield "--stage", stage and not own & {"tasks"}, "no card asks a sum"
    yield "--backs", backs and not own & {"tasks", "facts"}, "no card asks anything"
    yield "--facts", facts and "facts" not in own, "no cards with facts are among the --kinds"
    tasks = [task.stage for pupil in request.pupils for task in pupil.tasks] or [cards.stage]
    yield "--stage", stage and cards.stage not in tasks, "the table says how each sum is asked"
    headed = "tasks" in own and set(tasks) != {"pieces"}
    yield "--no-headings", not cards.headings and not headed, "no card has columns to write in"


def _of_mats(request: "Request") -> Iterator[Idle]:
    from kitbuilder.kit.mat_needs import MatWish

    mats, usual, parts = request.mats, MatWish(), request.parts
    arranged = mats.arrangement != usual.arrangement and "guide" not in parts
    if "mats" not in parts:
        yield "--mat", arranged, "there are no mats"
        yield "--mats", mats.kinds != usual.kinds, "there are no mats"
        yield "--headings", mats.headings != usual.headings, "there are no mats"
    else:
        yield "--mat", arranged and "subtract" not in mats.kinds, "there is no subtraction mat"


def _of_pieces(request: "Request", takes: "Estimate") -> Iterator[Idle]:
    cutting, press, parts = request.cutting, request.press, request.parts
    if "pieces" not in parts:
        for option, wished in (
            ("--spares", cutting.spares > 0),
            ("--same-sheets", cutting.same_sheets),
            ("--sturdy", press.sturdy is not None),
            ("--kerf", press.kerf_mm > 0),
        ):
            yield option, wished, "there are no pieces"
    elif press.sturdy == "fold":
        yield "--same-sheets", cutting.same_sheets, "pieces to fold are laid out in one way alone"
    sized = {"pieces", "mats"} & {*parts} or (
        "cards" in parts and "exchange" in request.cards.kinds
    )
    yield "--within", request.within is not None and not sized, "it is for pieces and mats"
    paced = request.estimate.cuts_per_minute != type(request.estimate)().cuts_per_minute
    yield "--layers", cutting.layers > 1 and not takes.cuts, "nothing is cut by hand"
    yield "--cuts-per-minute", paced and not takes.cuts, "nothing is cut by hand"
    weighed = request.estimate.grammage is not None
    yield "--grammage", weighed and not takes.card, "nothing is printed on card"
