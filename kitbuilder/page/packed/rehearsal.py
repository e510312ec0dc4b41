"""The engine rehearsed inside Python for browsers, and the modules it used compiled.

Run while the page is packed: the packed page then starts without compiling anything.
"""

import json
import sys
import zipimport
from collections.abc import Mapping
from importlib import import_module
from io import BytesIO
from types import CodeType
from zipfile import ZIP_STORED, ZipFile, ZipInfo

_SUMS = [["42", "17"], ["305", "148"]]
_MORE = {"sturdy": "fold", "mat": "three"}
_TABLE = "Ada\t53 − 27\nŽofie\t604 − 167\n"

REHEARSED = (
    {"job": "kit", "lang": "en-GB", "paper": "a4"},
    {"job": "kit", "lang": "es", "paper": "letter", "sums": _SUMS, "more": _MORE},
    {"job": "kit", "choose": {"kind": "both", "count": "6", "seed": 3}},
    {"job": "kit", "sums": [["27", "53"], ["1200", "30"], ["4k", ""]], "more": {"unit": "x"}},
    {"job": "tonight", "lang": "en-US", "paper": "letter", "sums": [["53", "27"]]},
    {"job": "weeks", "plan": {"weeks": "1", "days": "3", "start": "2027-01-11"}},
    {"job": "class", "sums": _SUMS, "class": {"children": "29", "share": "2", "layers": "3"}},
    {"job": "packs", "pupils": _TABLE, "each": True, "more": {"stage": "both", "backs": "fold"}},
    {"job": "packs", "pupils": "Ada"},
    {"job": "wrong", "answers": "Ada\t53 − 27\t34\nBen\t72 − 48\t34\nFay\t90 − 36\t54"},
    {"job": "lost", "pieces": {"tens": "2", "ones": "10"}, "more": {"svg": True}},
    {"job": "measure", "paper": "a4", "measures": {"across": "147.3", "down": "147,2"}},
    {"job": "wrong", "print": "pages", "answers": "Ada\t53 − 27\t34\nBen\t72 − 48\t34"},
)
"""Wishes of every job; each is asked for and, where it can be, drawn."""

OWN = ("kitbuilder", "_pyodide", "pyodide")
"""Packages that are compiled whole."""


def rehearse() -> dict[str, CodeType]:
    """Run every job; return the code of each module imported for it, by its place in its archive.

    It is compiled once: what runs here is what is packed, but for its line numbers.
    """
    made: dict[str, CodeType] = {}

    def compile_once(path: str, source: bytes) -> CodeType:
        name = path.rpartition(".zip/")[2]
        made[name] = _compiled(source, name)
        return made[name]

    vars(zipimport)["_compile_source"] = compile_once
    for wishes in REHEARSED:
        answer = json.loads(_called("ask", wishes))
        if answer["id"]:
            for method in ("draw", "file"):
                _called(method, answer["id"])
    text = json.loads(_called("keep", REHEARSED[1]))["text"]
    _called("open", text, "es")
    return made


def _called(method: str, *given: object) -> str:
    from kitbuilder.page.inside import call  # with all that it imports

    return call(method, json.dumps(given), lambda done, total: None)[0]


def compiled(path: str, made: Mapping[str, CodeType]) -> bytes:
    """Return the archive at ``path`` with the modules that were used, and our own, compiled.

    Those that were used are ``made`` already, but for those that Python began with. Others stay
    as they are, but for those of packages that the engine brings along.
    """
    bootstrap = import_module("importlib._bootstrap_external")
    held = BytesIO()
    with ZipFile(path) as whole, ZipFile(held, "w", ZIP_STORED) as packed:
        names = whole.namelist()
        engine = any(name.startswith("kitbuilder/") for name in names)
        for name in sorted(names):
            data = whole.read(name)
            module = name.removesuffix(".py").replace("/", ".").removesuffix(".__init__")
            ours = module in sys.modules or module.partition(".")[0] in OWN
            if name.endswith(".py") and ours:
                code = _bare(made.get(name) or _compiled(data, name))
                name, data = f"{name}c", bytes(bootstrap._code_to_hash_pyc(code, bytes(8), False))
            elif name.endswith(".py") and engine:
                continue
            packed.writestr(ZipInfo(name), data)
    return held.getvalue()


def _compiled(source: bytes, name: str) -> CodeType:
    return compile(source, name, "exec", 0, True, optimize=2)


def _bare(code: CodeType) -> CodeType:
    """Return ``code``, and all code in it, without its line numbers."""
    held = tuple(_bare(one) if isinstance(one, CodeType) else one for one in code.co_consts)
    return code.replace(co_linetable=b"", co_consts=held)
