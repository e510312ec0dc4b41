"""The engine rehearsed inside Python for browsers, and the modules it used compiled.

Run while the page is packed: the packed page then starts without compiling anything.
"""

import ast
import json
import sys
from collections.abc import Set
from importlib import import_module
from io import BytesIO
from types import CodeType
from zipfile import ZIP_STORED, ZipFile, ZipInfo

from kitbuilder.page.inside import call

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
)
"""Wishes of every job; each is asked for and, where it can be, drawn."""

OWN = ("kitbuilder", "_pyodide", "pyodide")
"""Packages that are compiled whole."""


def rehearse() -> frozenset[str]:
    """Run every job and return the names of all modules that Python holds then."""
    for wishes in REHEARSED:
        answer = json.loads(_called("ask", wishes))
        if answer["id"]:
            for method in ("draw", "file"):
                _called(method, answer["id"])
    text = json.loads(_called("keep", REHEARSED[1]))["text"]
    _called("open", text, "es")
    return frozenset(sys.modules)


def _called(method: str, *given: object) -> str:
    return call(method, json.dumps(given), lambda done, total: None)[0]


def compiled(path: str, used: Set[str]) -> bytes:
    """Return the archive at ``path`` with the modules ``used``, and our own, compiled.

    Others stay as they are, but for those of packages that the engine brings along.
    """
    bootstrap = import_module("importlib._bootstrap_external")
    held = BytesIO()
    with ZipFile(path) as whole, ZipFile(held, "w", ZIP_STORED) as made:
        names = whole.namelist()
        engine = any(name.startswith("kitbuilder/") for name in names)
        for name in sorted(names):
            data = whole.read(name)
            module = name.removesuffix(".py").replace("/", ".").removesuffix(".__init__")
            ours = module in used or module.partition(".")[0] in OWN
            if name.endswith(".py") and ours:
                code = _bare(compile(_unannotated(data), name, "exec", 0, True, optimize=2))
                name, data = f"{name}c", bytes(bootstrap._code_to_hash_pyc(code, bytes(8), False))
            elif name.endswith(".py") and engine:
                continue
            made.writestr(ZipInfo(name), data)
    return held.getvalue()


def _unannotated(source: bytes) -> ast.Module:
    """Return a module without the annotations of its functions, which nothing reads here.

    Only a decorator may: ``singledispatch`` goes by them.
    """
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) or node.decorator_list:
            continue
        node.returns = None
        given = node.args
        for one in (*given.posonlyargs, *given.args, *given.kwonlyargs, given.vararg, given.kwarg):
            if one:
                one.annotation = None
    return tree


def _bare(code: CodeType) -> CodeType:
    """Return ``code``, and all code in it, without its line numbers."""
    held = tuple(_bare(one) if isinstance(one, CodeType) else one for one in code.co_consts)
    return code.replace(co_linetable=b"", co_consts=held)
