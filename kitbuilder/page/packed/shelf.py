"""The ready-made kits that are built into the packed page: plan, pictures and file of each."""

from base64 import b64encode
from typing import Any

from kitbuilder.page.contract import Engine

SHELVED = (("en-GB", "a4"), ("en-US", "letter"), ("es", "a4"), ("es", "letter"))
"""The languages and papers that a ready-made kit is built in for."""


def shelf() -> dict[str, dict[str, Any]]:
    """Return the answer of each ready-made kit, with its file as base64, by language and paper."""
    return {f"{words}-{paper}": _entry(words, paper) for words, paper in SHELVED}


def _entry(words: str, paper: str) -> dict[str, Any]:
    engine = Engine()
    answer = engine.ask({"job": "kit", "lang": words, "paper": paper})
    ready = {"job": "kit", "lang": words, "sums": answer["plan"]["sums_used"]}
    answer["sums"] = Engine().ask(ready)["sums"]  # they stand in its rows

    def done(method: str) -> tuple[dict[str, Any], bytes]:
        return engine.call(method, [answer["id"]], lambda done, total: None)

    named, file = done("file")
    return {**done("draw")[0], **named, "answer": answer, "bytes": b64encode(file).decode()}
