"""Turns planned mats into plain words: how large each is, and why."""

from kitbuilder.kit.mat_needs import Holding, roles
from kitbuilder.layout.mat.mat_plan import MatPlan
from kitbuilder.number.steps import Act
from kitbuilder.number.sums import PLACES

_NAMES = {
    "two": "The mat",
    "three": "The mat of three zones",
    "beside": "The mat with the parts side by side",
    "add": "The addition mat",
}


def said(plan: MatPlan) -> str:
    """Return one sentence on a mat's sheets and size, and the moments that ask for it.

    It is to be said before printing, above all where the mat takes several sheets.
    """
    mat, needs = plan.mat, plan.needs
    role = roles(needs.arrangement)[-1 if needs.arrangement == "add" else 0]
    holdings = [needs.holding(role, k) for k in range(needs.places - 1, -1, -1)]
    why = "; ".join(_held(h) for h in holdings if h.most)
    size = f"{mat.width / 10:.0f} by {mat.height / 10:.0f} cm"
    return f"{_NAMES[needs.arrangement]} is {size} on {_sheets(plan)}: it holds {why}."


def said_board(sheets: int) -> str:
    """Return one sentence on an exchange board of so many sheets."""
    count = "one sheet" if sheets == 1 else f"{sheets} sheets"
    return f"The exchange board is {count}: a bank for spare pieces, and frames to fill."


def _sheets(plan: MatPlan) -> str:
    count, turned = len(plan.sheets), sum(plan.mat.turned)
    if count == 1:
        return f"one sheet of {plan.paper.name}" + (", turned" if turned else "")
    how = "turned, " if turned == count else f"{turned} of them turned, " if turned else ""
    return f"{count} sheets of {plan.paper.name}, {how}joined edge to edge"


def _held(holding: Holding) -> str:
    moment = holding.moment
    if moment is None:
        raise ValueError("said: a zone that holds nothing has no moment")
    place = PLACES[holding.place][:-1] if holding.most == 1 else PLACES[holding.place]
    when = f"in {moment.sum_}"
    if holding.role == "together":
        when = f"in {moment.sum_.part} + {moment.sum_.rest}"
    elif moment.act in (Act.TOGETHER, Act.EXCHANGE_BACK, Act.CHECK):
        when += " when the parts are pushed together"
    elif moment.first is not None:
        when += f" if the {PLACES[moment.first]} are taken first"
    return f"{holding.most} {place} at once {when}"
