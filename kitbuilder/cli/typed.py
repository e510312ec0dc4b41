"""The options about mats, cards, weeks and a class set; the command gets a table a group.

What was typed stands in it under the names of the arguments of the function that reads it.
"""

from collections.abc import Callable, Mapping
from functools import wraps
from typing import TYPE_CHECKING, Any

import click
from click.core import ParameterSource

from kitbuilder.cli.options import NUMBER, WHOLE

if TYPE_CHECKING:
    from kitbuilder.request.file import Wishes

Typed = dict[str, Any]
Command = Callable[..., Any]
Option = Callable[[Command], Command]

_KINDS = "two,ones,tens,both,across-zero"
_STAGES = "pieces, both, drawn or written"

_CUTTING = {
    "children": click.option(
        "--children", type=WHOLE, metavar="N", help="Children in the class, a kit for each."
    ),
    "share": click.option("--share", type=WHOLE, metavar="M", help="Children who share one kit."),
    "spares": click.option(
        "--spares", type=NUMBER, default=0.0, metavar="PERCENT", help="Ones and tens to add."
    ),
    "layers": click.option(
        "--layers", type=WHOLE, default=1, metavar="K", help="Layers cut in one stroke."
    ),
    "home": click.option(
        "--home", is_flag=True, help="Lesson, answers, slip and label for each bag."
    ),
}

_CARDS = {
    "kinds": click.option(
        "--kinds",
        metavar="KINDS",
        help="Kinds of cards: exchange,tasks,stories,additions,facts (36),"
        " facts-from-ten (45),arrows,digits,record,sheet.",
    ),
    "stage": click.option(
        "--stage", default="pieces", metavar="STAGE", help="pieces, both, drawn or written."
    ),
    "backs": click.option(
        "--backs",
        default="separate",
        metavar="WAY",
        help="Where answers go: separate, long-edge, short-edge or fold.",
    ),
}

_WEEKS = {
    "start": click.option("--start", metavar="DATE", help="The first day, such as 2027-01-11."),
    "days": click.option("--days", type=WHOLE, default=5, show_default=True, help="Days a week."),
    "skip": click.option("--skip", metavar="KINDS", help=f"Kinds of sums done before: {_KINDS}."),
    "first": click.option(
        "--from", "first", metavar="STAGE", help=f"Where the first begins: {_STAGES}."
    ),
}

_MATS = {
    "mat": click.option(
        "--mat",
        default="two",
        metavar="WAYS",
        help="Zones: two, three or beside; mats: subtract, add, exchange.",
    ),
    "headings": click.option(
        "--headings", default="words", metavar="WAY", help="words, numbers, letters."
    ),
}


def gathered(name: str, *options: str) -> Option:
    """Return what hands a command its ``options`` as one table called ``name``."""

    def add(command: Command) -> Command:
        @wraps(command)
        def gathering(**given: Any) -> Any:
            said = {option: given.pop(option) for option in options}
            return command(**{name: said}, **given)

        return gathering

    return add


def _group(name: str, options: Mapping[str, Option]) -> Option:
    """Return what adds ``options``; the command gets them as one table called ``name``."""

    def add(command: Command) -> Command:
        wrapped = gathered(name, *options)(command)
        for option in reversed([*options.values()]):
            wrapped = option(wrapped)
        return wrapped

    return add


cutting_options = _group("cutting", _CUTTING)
"""Adds the options of a class set, for ``cut_wish``."""

card_options = _group("card", _CARDS)
"""Adds the options of cards, for ``card_wish``."""

mat_options = _group("mat", _MATS)
"""Adds the options of mats, for ``mat_wish``."""


def weeks_options(usual: int | None) -> Option:
    """Return what adds the options of weeks, for ``plan_wish``; ``usual`` many unless said."""
    weeks = click.option(
        "--weeks",
        type=WHOLE,
        default=usual,
        metavar="N",
        help="Weeks of practice.",
        show_default=usual is not None,
    )
    return _group("practice", {"weeks": weeks, **_WEEKS})


def wished(wishes: "Wishes") -> Typed:
    """Return the request file's options that were not given on the command line."""
    source = click.get_current_context().get_parameter_source
    return {
        name: value
        for name, value in wishes.options.items()
        if source(name) in (None, ParameterSource.DEFAULT)
    }


def typed() -> set[str]:
    """Return the options that were given on the command line, as they are typed."""
    here = click.get_current_context()
    given = ParameterSource.COMMANDLINE
    return {
        option.opts[0].removeprefix("--")
        for option in here.command.params
        if option.name and here.get_parameter_source(option.name) is given
    }


def filled(typed: Typed, said: Typed) -> Typed:
    """Return ``typed`` with what a request file ``said`` and nobody typed."""
    return {name: said.get(name, value) for name, value in typed.items()}
