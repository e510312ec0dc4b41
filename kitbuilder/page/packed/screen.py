"""The page as one HTML document: its words, style and script put together, and its policy."""

import json
from base64 import b64encode
from hashlib import sha256
from importlib.resources import files
from importlib.util import find_spec
from typing import Any

from kitbuilder.design.saying import LANGUAGES
from kitbuilder.page.inside import MOST_ANSWERS, MOST_TASKS
from kitbuilder.page.packed.faces import face_rules
from kitbuilder.page.screen_words import screen_words
from kitbuilder.request.file import first_wishes
from kitbuilder.request.pupils import MOST_ROWS
from kitbuilder.request.request import CLASS_PARTS, DEFAULT_PARTS

SCRIPTS = (
    "say",
    "make",
    "icons",
    "engine",
    "state",
    "fields",
    "sums",
    "read",
    "cells",
    "tables",
    "desk",
    "dialogs",
    "found",
    "more",
    "jobs",
    "home",
    "saved",
    "main",
)
"""The modules of the script, in the order of their use; they share one scope."""

EXAMPLES = {
    "none": (57, 23),
    "ones": (53, 27),
    "tens": (328, 163),
    "both": (431, 256),
    "across-zero": (305, 148),
}
"""A sum of each kind that may be chosen."""

FOR_CLASSES = ("demonstration", "evening", "differently")
"""Parts that a class set has when they are asked for."""

POLICY = (
    "default-src 'none'; script-src {script}; style-src {style}; img-src data: blob:; "
    "font-src data:; connect-src {connect}; base-uri 'none'; form-action 'none'{more}"
)


def page(
    engine: str,
    connect: str,
    script: str = "",
    more: str = "",
    first: tuple[str, ...] = (),
    dxf: bool = False,
) -> tuple[str, str]:
    """Return the page and its policy.

    ``engine`` is the markup that holds the engine, ``connect`` what the page may fetch from,
    ``script`` further sources of scripts, ``more`` further directives. ``first`` names modules of
    the script that stand before the last. ``dxf`` tells whether the engine can write DXF.
    """
    room = files("kitbuilder.page") / "screen"
    style = face_rules() + (room / "style.css").read_text("utf-8")
    code = "\n".join(
        (room / f"{name}.js").read_text("utf-8") for name in (*SCRIPTS[:-1], *first, SCRIPTS[-1])
    )
    policy = POLICY.format(
        script=f"{_hash(code)} {script}".strip(), style=_hash(style), connect=connect, more=more
    )
    html = (room / "index.html").read_text("utf-8")
    for slot, text in (
        ("{policy}", policy),
        ("{faces}{style}", style),
        ("{words}", json.dumps(_data(dxf), ensure_ascii=False).replace("</", "<\\/")),
        ("{script}", code),
        ("{engine}", engine),
    ):
        html = html.replace(slot, text, 1)
    return html, policy


def _data(dxf: bool) -> dict[str, Any]:
    """Return what the script knows from the start: words, examples, limits, parts of kits."""
    return {
        "words": {language: screen_words(language) for language in LANGUAGES},
        "ready": [[sum_.whole, sum_.part] for sum_ in first_wishes().sums],
        "examples": EXAMPLES,
        "dxf": dxf,
        "rows": {
            "native": {"pupils": MOST_ROWS, "answers": MOST_ROWS},
            "inside": {"pupils": MOST_TASKS, "answers": MOST_ANSWERS},
        },
        "parts": DEFAULT_PARTS,
        "class": {"usual": CLASS_PARTS, "more": FOR_CLASSES},
    }


def native_page() -> tuple[bytes, str]:
    """Return the page for the local server, and its policy."""
    dxf = find_spec("ezdxf") is not None
    html, policy = page('<meta name="engine" content="native">', "'self'", dxf=dxf)
    return html.encode(), policy


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"
