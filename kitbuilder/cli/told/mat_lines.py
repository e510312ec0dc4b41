"""Planned mats told in the terminal: how large each is, and why."""

from kitbuilder.errors import Said
from kitbuilder.kit.mat_needs import Holding, roles
from kitbuilder.layout.mat.mat_plan import MatPlan
from kitbuilder.number.steps import Act

_NAMES = {
    "two": Said("mat.two"),
    "three": Said("mat.three"),
    "beside": Said("mat.beside"),
    "add": Said("mat.add"),
}

_PLACES = (Said("mat.ones"), Said("mat.tens"), Said("mat.hundreds"), Said("mat.thousands"))
_DECIMALS = (Said("mat.hundredths"), Said("mat.tenths"))


def mat_said(plan: MatPlan) -> Said:
    """Return a mat's sheets and size, and the moments that ask for it.

    It is to be said before printing, above all where the mat takes several sheets.
    """
    mat, needs = plan.mat, plan.needs
    role = roles(needs.arrangement)[0]
    holdings = [needs.holding(role, k) for k in range(needs.places - 1, -1, -1)]
    return Said(
        "mat.told",
        mat=_NAMES[needs.arrangement],
        width=round(mat.width / 10),
        height=round(mat.height / 10),
        sheets=_sheets(plan),
        holds=[_held(h) for h in holdings if h.most],
    )


def _sheets(plan: MatPlan) -> Said:
    count, turned, paper = len(plan.sheets), plan.mat.turned, plan.paper.name
    if count == 1 and turned:
        return Said("mat.one-turned", paper=paper)
    if count == 1:
        return Said("mat.one-sheet", paper=paper)
    if turned:
        return Said("mat.all-turned", count=count, paper=paper)
    return Said("mat.sheets", count=count, paper=paper)


def _held(holding: Holding) -> Said:
    """Return how many pieces of one kind lie in a zone at once at the most, and when."""
    moment = holding.moment
    if moment is None:
        raise ValueError("mat_said: a zone that holds nothing has no moment")
    places = (*_DECIMALS, *_PLACES) if moment.sum_.scale.decimals else _PLACES
    when = Said("mat.in", sum=moment.sum_)
    if holding.role == "together":
        when = Said("mat.in", sum=f"{moment.sum_.part} + {moment.sum_.rest}")
    elif moment.act in (Act.TOGETHER, Act.EXCHANGE_BACK, Act.CHECK):
        when = Said("mat.together", sum=moment.sum_)
    elif moment.first is not None:
        when = Said("mat.taken-first", sum=moment.sum_, place=places[moment.first])
    if moment.sum_.scale.decimals:
        return (
            Said("mat.holds-hundredths", count=holding.most, when=when),
            Said("mat.holds-tenths", count=holding.most, when=when),
            Said("mat.holds-ones", count=holding.most, when=when),
        )[holding.place]
    return (
        Said("mat.holds-ones", count=holding.most, when=when),
        Said("mat.holds-tens", count=holding.most, when=when),
        Said("mat.holds-hundreds", count=holding.most, when=when),
        Said("mat.holds-thousands", count=holding.most, when=when),
    )[holding.place]
