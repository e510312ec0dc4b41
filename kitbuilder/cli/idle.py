"""Notes on the wishes of a request that change nothing in it."""

from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING

from kitbuilder.errors import Said

if TYPE_CHECKING:
    from kitbuilder.layout.estimate import Estimate
    from kitbuilder.request.request import Request

Idle = tuple[str, bool, bool, Said]
"""An option, whether it is wished otherwise than usual, whether it changes nothing, and why."""


def idle(request: "Request", takes: "Estimate", typed: Collection[str] = ()) -> list[Said]:
    """Return a note for each reason why something wished for changes nothing.

    It is noted and not refused: a request file may hold wishes for more than ``--only`` asks for
    today. What is wished as it is usual counts only for the options that were ``typed``.
    """
    why: dict[str, tuple[Said, list[Said]]] = {}
    for wishes in (_of_cards(request), _of_mats(request), _of_pieces(request, takes)):
        for option, wished, in_vain, reason in wishes:
            if in_vain and (wished or option in typed):
                why.setdefault(reason.code, (reason, []))[1].append(
                    Said("option.name", option=option)
                )
    notes = [
        Said("note.idle-one", options=options, reason=reason)
        if len(options) == 1
        else Said("note.idle", options=options, reason=reason)
        for reason, options in why.values()
    ]
    if {"guide", "mats"} <= set(request.parts) and "subtract" not in request.mats.kinds:
        notes.append(Said("note.guide-mat", option="mat"))
    return notes


def _of_cards(request: "Request") -> Iterator[Idle]:
    from kitbuilder.kit.card_records import CardWishes

    cards, usual = request.cards, CardWishes()
    stage, backs = cards.stage != usual.stage, cards.backs != usual.backs
    kinds = cards.kinds != usual.kinds
    own = {"exchange", "tasks"} if request.plan else set(cards.kinds)
    if "cards" not in request.parts:
        for option, wished in (("stage", stage), ("backs", backs), ("kinds", kinds)):
            yield option, wished, True, Said("idle.no-cards")
        return
    if request.plan:
        yield "stage", stage, True, Said("idle.plan-says")
        yield "kinds", kinds, bool(set(cards.kinds) - own), Said("idle.plan-cards")
    yield "stage", stage, not own & {"tasks"}, Said("idle.no-sum")
    yield "backs", backs, not own & {"tasks", "facts"}, Said("idle.no-question")
    tasks = [task for pupil in request.pupils for task in pupil.tasks]
    told = bool(tasks) and all(task.staged for task in tasks)
    yield "stage", stage, told, Said("idle.table-says")
    stages = {task.stage for task in tasks} or {cards.stage}
    headed = "tasks" in own and stages != {"pieces"}
    yield "no-headings", not cards.headings, not headed, Said("idle.no-columns")


def _of_mats(request: "Request") -> Iterator[Idle]:
    from kitbuilder.kit.mat_needs import MatWish

    mats, usual, parts = request.mats, MatWish(), request.parts
    guided, arranged = "guide" in parts, mats.arrangement != usual.arrangement
    if "mats" not in parts:
        others = mats.kinds != usual.kinds
        yield "mat", others or arranged, others or not guided, Said("idle.no-mats")
        yield "headings", mats.headings != usual.headings, True, Said("idle.no-mats")
    elif arranged and not guided:  # a mat that is typed may name its kind alone
        yield "mat", True, "subtract" not in mats.kinds, Said("idle.no-subtraction-mat")


def _of_pieces(request: "Request", takes: "Estimate") -> Iterator[Idle]:
    from kitbuilder.layout.demonstration.large_unit import LEAST_BOARD

    cutting, press, parts = request.cutting, request.press, request.parts
    if "pieces" not in parts:
        for option, wished in (
            ("spares", cutting.spares > 0),
            ("same-sheets", cutting.same_sheets),
            ("sturdy", press.sturdy is not None),
            ("kerf", press.kerf_mm > 0),
        ):
            yield option, wished, True, Said("idle.no-pieces")
    elif press.sturdy == "fold":
        yield "same-sheets", cutting.same_sheets, True, Said("idle.folded")
    sized = {"pieces", "mats"} & {*parts} or (
        "cards" in parts and "exchange" in request.cards.kinds
    )
    small = request.paper.unit_mm < LEAST_BOARD
    large = "demonstration" in parts and not sized
    yield "unit", press.unit_asked, large and small, Said("idle.large", least=LEAST_BOARD)
    yield "within", request.within is not None, not sized, Said("idle.within")
    paced = request.estimate.cuts_per_minute != type(request.estimate)().cuts_per_minute
    yield "layers", cutting.layers > 1, not takes.cuts, Said("idle.no-cuts")
    yield "cuts-per-minute", paced, not takes.cuts, Said("idle.no-cuts")
    weighed = request.estimate.grammage is not None
    yield "grammage", weighed, not takes.card, Said("idle.no-card")
