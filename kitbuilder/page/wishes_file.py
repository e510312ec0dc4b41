"""The screen's wishes as a request file (TOML), and a request file as wishes."""

import json
from typing import Any

from kitbuilder.formats.textfile import parse_toml
from kitbuilder.page.readings import Typed, Wished, number, whole_number, words_name
from kitbuilder.page.wishes import cutter, opening, sums_of
from kitbuilder.press.printing import read_cutter
from kitbuilder.request.file import first_wishes
from kitbuilder.request.file import wishes as request_wishes
from kitbuilder.request.request import DEFAULT_PARTS, Request

_NUMBERS = ("margin", "unit", "spares")
_WORDS = ("look", "sturdy", "mat", "stage", "backs")
_OF_CLASS = ("children", "share", "layers")
_OF_PLAN = ("weeks", "days")
HEAD = "# Wishes for kitbuilder: open this file on its page, or type: kitbuilder kit FILE\n"


def wishes_toml(wishes: Wished, request: Request) -> str:
    """Return wishes as a file that ``kitbuilder kit`` reads: the sums of ``request``, no names.

    Of weeks it holds the sums that open them, if any do.
    """
    more = wishes.get("more", {})
    sums = request.sums
    if request.plan:
        sums, ready_made = sums_of(wishes, Typed())
        sums = () if ready_made else opening(sums) if wishes["job"] == "class" else sums
    table: dict[str, Any] = {"sums": [sum_.typed for sum_ in sums]}
    table |= {"words": words_name(wishes), "paper": wishes.get("paper")}
    if wishes["job"] == "tonight":
        table["mini"] = True
    if wishes["job"] == "class":
        table |= {key: whole_number(wishes["class"].get(key), key) for key in _OF_CLASS}
        table["home"] = bool(wishes["class"].get("home"))
    if wishes.get("plan"):
        table |= {key: whole_number(wishes["plan"].get(key), key) for key in _OF_PLAN}
        table["start"] = str(wishes["plan"].get("start") or "")
    table |= {key: number(more.get(key), key) for key in _NUMBERS}
    table |= {"within": whole_number(more.get("within"), "within")}
    table |= {key: more.get(key) for key in _WORDS}
    table["cutter"] = cutter(more)
    if request.parts != DEFAULT_PARTS and not request.mini:
        table["only"] = list(request.parts)
    held = {key: value for key, value in table.items() if value}
    return HEAD + "".join(f"{key} = {_toml(value)}\n" for key, value in held.items())


def opened(text: str) -> dict[str, Any]:
    """Return a request file's ``text`` as wishes. Raises ``RefusedError``."""
    found = request_wishes(parse_toml(text, "wishes.toml"), "wishes.toml")
    options, printing = found.options, found.printing
    more = {key: printing[key] for key in (*_NUMBERS, *_WORDS) if key in printing}
    more |= {key: options[key] for key in ("spares", *_WORDS) if key in options}
    files, kerf = read_cutter(printing.get("cutter"))
    more |= dict.fromkeys(files, True) | ({"kerf": kerf} if kerf else {})
    if found.parts != DEFAULT_PARTS:
        more["only"] = list(found.parts)
    if found.within is not None:
        more["within"] = found.within
    of_class = {key: str(options[key]) for key in _OF_CLASS if key in options}
    of_plan = {key: str(options[key]) for key in (*_OF_PLAN, "start") if key in options}
    kind = "class" if of_class else "weeks" if "weeks" in of_plan else "kit"
    sums = found.sums or (() if kind == "weeks" else first_wishes().sums)
    wishes: dict[str, Any] = {
        "job": "tonight" if options.get("mini") else kind,
        "sums": [[str(sum_.whole), str(sum_.part)] for sum_ in sums],
        "more": {key: _typed(value) for key, value in more.items()},
    }
    if of_class:
        wishes["class"] = {"children": "1", "share": "1", "layers": "1", **of_class}
        wishes["class"]["home"] = bool(options.get("home"))
    if "weeks" in of_plan:
        wishes["plan"] = {"days": "5", "start": "", **of_plan}
    wishes |= {
        name: printing[key]
        for key, name in (("paper", "paper"), ("words", "page_words"))
        if key in printing
    }
    return wishes


def _toml(value: Any) -> str:  # noqa: ANN401  (words, a number, a tick or a list of words)
    if isinstance(value, float):
        return f"{value:g}"
    return json.dumps(value, ensure_ascii=False)


def _typed(value: Any) -> Any:  # noqa: ANN401  (as above)
    """Return a number as it would be typed; ticks, words and lists as they are."""
    return f"{value:g}" if isinstance(value, int | float) and not isinstance(value, bool) else value
