"""Turns a seed into one case for the command line: words typed, files beside them, and input.

A grammar of our own: most of a case is right, so that it comes far, and a few places are bent.
"""

import csv
import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from random import Random
from typing import Any, cast

import click

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.kit.card_records import BACKS, KINDS, STAGES
from kitbuilder.number.choice.patterns import PATTERNS
from kitbuilder.number.course.rungs import RUNG_KEYS
from kitbuilder.request.request import ALL_FACTS, PARTS

NASTY = (
    *("\n", "\r", "\t", "\x1b[31m", "\x7f", "\u202e", "\u2066", "\ufeff", "\u200b", "\u00ad"),
    *("<b>", "&amp;", "]]>", "=1+1", "@x", "+1", "../../x", "/etc/passwd", "\\", '"', "'", ","),
    *("url(file:///etc/passwd)", "{count}", "{0.__class__}", "%s", "−", "—", "٣", "½", "é"),
    *("e\u0301", "ğ", "İ", "ı", "漢", "😀", "\U0010ffff", "1e999", "nan", "inf", "-0", "1_0"),
    *("9" * 4, "9" * 5000, " " * 100, "[" * 2000, ".a" * 3000, "", "-", "--", "#", "=", ";"),
)
"""What may do harm in text: signs of markup, formulas and paths, hidden and rare letters."""


@dataclass(frozen=True, slots=True)
class Case:
    """What is typed after ``kitbuilder``, the files that lie in its folder, and its input."""

    args: tuple[str, ...]
    files: tuple[tuple[str, bytes], ...] = ()
    given: bytes = b""


class Maker:
    """Makes one case from a seed; ``bends`` is how likely a piece of it is bent."""

    def __init__(self, seed: int) -> None:
        self.seed = seed
        self.rng = Random(seed)
        self.bends = self.rng.choice((0.0, 0.02, 0.1, 0.3))
        self.files: list[tuple[str, bytes]] = []

    def case(self) -> Case:
        name = self.rng.choice(sorted({*main.commands} - {"page"}))  # which serves until stopped
        command = main.commands[name]
        args = [name]
        options = [p for p in command.params if isinstance(p, click.Option) and p.name != "help"]
        for option in self.rng.sample(options, min(len(options), self._few())):
            args += self._option(option)
        if name in ("kit", "cards", "sizes", "show", "marks"):
            args += self._what(name)
        if self._bent():
            args.insert(self.rng.randrange(len(args) + 1), self.rng.choice(NASTY))
        given = self._sums_file() if self.rng.random() < 0.1 else b""
        return Case(tuple(a.replace("\0", "") for a in args), tuple(self.files), given)

    def _few(self) -> int:
        return min(self.rng.randrange(8), self.rng.randrange(8))

    def _bent(self) -> bool:
        return self.rng.random() < self.bends

    def _option(self, option: click.Option) -> list[str]:
        typed = option.opts[-1]
        if option.is_flag:
            return [typed]
        values = [self.bend(VALUES[typed](self)) for _ in range(option.nargs)]
        return [f"{typed}={values[0]}"] if option.nargs == 1 and self._bent() else [typed, *values]

    def _what(self, name: str) -> list[str]:
        if name == "marks":
            return [self.answers()]
        if name == "kit" and self.rng.random() < 0.25:
            return [self.file("request.toml", self.request())]
        count = 1 if name == "show" else self.rng.choice((0, 1, 1, 2, 5))
        return [self.bend(self.sum()) for _ in range(count)]

    def bend(self, text: str) -> str:
        """Return ``text``, or something like it that is wrong in a place or two."""
        while self._bent():
            at = self.rng.randrange(len(text) + 1)
            to = min(len(text), at + self.rng.choice((0, 1, 1, 3, 20)))
            put = self.rng.choice((self.rng.choice(NASTY), self.rng.choice(NASTY), text[at:to] * 2))
            text = text[:at] + put + text[to:]
        return text

    def file(self, name: str, text: str) -> str:
        """Add a file with ``text``, bent, and return its name, new in every case."""
        raw = self.bend(text).encode("utf-8", "replace")
        if self._bent():
            raw = self.rng.choice((b"\xef\xbb\xbf" + raw, text.encode("utf-16"), b"\0", raw[::-1]))
        name = f"{self.seed}-{len(self.files)}-{name}"
        self.files.append((name, raw))
        return name

    def sum(self) -> str:
        whole = self.rng.randrange(1000 if self.rng.random() < 0.9 else 10_000)
        part = self.rng.randrange(whole + 1)
        return f"{whole}{self.rng.choice(('-', ' - ', '−', ' – '))}{part}"

    def _sums_file(self) -> bytes:
        lines = [self.bend(self.sum()) for _ in range(self.rng.randrange(1, 8))]
        return "\n".join((*lines, "# more")).encode("utf-8", "replace")

    def sums(self) -> str:
        return "-" if self._bent() else self.file("sums.txt", self._sums_file().decode())

    def number(self, *usual: float) -> str:
        if self._bent():
            return self.rng.choice(("-1", "0", "1e9", "0.001", "nan", "inf", "12,5", "99999999999"))
        return f"{self.rng.choice(usual):g}"

    def word(self, *known: str) -> str:
        return self.rng.choice(known)

    def words(self, *known: str) -> str:
        return ",".join(self.rng.sample(known, self.rng.randrange(1, min(4, len(known) + 1))))

    def date(self) -> str:
        """Return a day in this millennium."""
        return f"{self.rng.randrange(2000, 2999)}-{self.rng.randrange(1, 13):02}-11"

    def paper(self) -> str:
        usual = ("a4", "A4", "letter", "legal", "a3", "a5", "tabloid", "b4")
        if self.rng.random() < 0.2:
            return self.file("paper.toml", self.design("paper", "a4"))
        if self.rng.random() < 0.2:
            return f"{self.number(150, 215, 600)}x{self.number(210, 330, 900)}mm"
        return self.rng.choice(usual)

    def look(self) -> str:
        if self.rng.random() < 0.5:
            return self.rng.choice(("plain", "spare", "bold", "outline"))
        return self.file("look.toml", self.design("looks", "plain"))

    def language(self) -> str:
        if self.rng.random() < 0.6:
            return self.rng.choice(("en-GB", "en-US", "es"))
        return self.file("words.toml", self.design("words", self.rng.choice(("en-GB", "es"))))

    def printer(self) -> str:
        pairs = {
            "bar_mm": (180, 260),
            "measured_mm": (181, 258.5),
            "back_shift_mm": (1, -0.5),
        }
        text = 'name = "kitchen"\npaper = "A4"\n'
        for name, (across, down) in pairs.items():
            text += f"[{name}]\nacross = {self.bend(str(across))}\ndown = {down}\n"
        text += "[crop_mm]\nleft = 3\nright = 4\ntop = 3\nbottom = 5\n"
        return self.file("printer.toml", text) if self.rng.random() < 0.8 else "kitchen"

    def design(self, kind: str, name: str) -> str:
        """Return a shipped design with the values of a line or two changed."""
        lines = (designs.folder() / kind / f"{name}.toml").read_text("utf-8").split("\n")
        for _ in range(self.rng.randrange(3)):
            at = self.rng.randrange(len(lines))
            key, equals, value = lines[at].partition(" = ")
            if equals and '"' in value:
                put = f'"{self.bend(value.strip(chr(34)))}"'
            else:
                put = self.rng.choice((self.number(0.5, 5, 10, 40, 300), self.bend(value)))
            lines[at] = f"{key}{equals}{put}" if equals else self.bend(lines[at])
        return "\n".join(lines)

    def request(self) -> str:
        """Return a request file: options of ``kit`` by their names in a file."""
        listed = ", ".join(f'"{self.bend(self.sum())}"' for _ in range(self.rng.randrange(1, 5)))
        lines = [f"sums = [{listed}]"]
        names = [p for p in main.commands["kit"].params if isinstance(p, click.Option)]
        for option in self.rng.sample(names, self._few()):
            typed = option.opts[-1]
            if typed in ("--sums", "--plan", "--out", "--help", "--only", "--pieces"):
                continue
            value = "true" if option.is_flag else VALUES[typed](self)
            quoted = option.is_flag or option.type.name in ("millimetres", "whole number", "number")
            lines.append(f"{option.name} = {value if quoted else chr(34) + value + chr(34)}")
        return "\n".join(self.bend(line) for line in lines)

    def drawing(self) -> str:
        shapes = ("", "<g/>", '<use href="a#b"/>', "<script/>")
        head = '<svg xmlns="http://www.w3.org/2000/svg"'
        if self.rng.random() < 0.9:  # mostly what is no drawing: to draw one takes a process
            head = head[:-1]
        return self.file("own.svg", f"{self.bend(head)}>{self.rng.choice(shapes)}</svg>")

    def plan(self) -> str:
        head = "date,week,day,phase,kind,whole,part"
        rows = []
        for day in range(1, self.rng.randrange(2, 6)):
            whole, part = sorted((self.rng.randrange(1000), self.rng.randrange(1000)))[::-1]
            rows.append(f"2027-01-{day:02},1,{day},practice,pieces,{whole},{part}")
            rows.append(f"2027-01-{day:02},1,{day},practice,fact,13,{self.rng.randrange(4, 10)}")
        return self.file("plan.csv", "\n".join(self.bend(row) for row in (head, *rows)))

    def answers(self) -> str:
        """Add a table of answers, a row an answer or a row a child, and return its name."""
        mark = self.rng.choice((",", ";", "\t"))
        sums = [self.sum() for _ in range(self.rng.randrange(1, 6))]
        numbers = [self.rng.choice(("", str(self.rng.randrange(999)))) for _ in sums]
        rows = [["", *sums], ["Ada", *numbers]]
        if self.rng.random() < 0.5:
            rows = [["name", "sum", "answer"]]
            rows += [["Ada", sum_, n] for sum_, n in zip(sums, numbers, strict=True)]
        return self.file("answers.csv", "\n".join(mark.join(row) for row in rows) + "\n")

    def pupils(self) -> str:
        out = io.StringIO()
        writer = csv.writer(out, delimiter=self.rng.choice(",;\t"))
        writer.writerow(("name", "sum", "stage"))
        for _ in range(self.rng.randrange(1, 8)):
            name = self.bend(self.rng.choice(("Ada", "Béla Kő", "Zoë", "Ngozi", "Ødegård", "Ş")))
            writer.writerow((name, self.bend(self.sum()), self.bend(self.rng.choice(STAGES))))
        return self.file("pupils.csv", out.getvalue())

    def out(self) -> str:
        return "out/" + self.rng.choice(("a", "b c", "é", "ß", "con", "x" * 60, "\udcff", "−"))


def _number(*usual: float) -> Callable[[Maker], str]:
    return lambda maker: maker.number(*usual)


def _word(*known: str) -> Callable[[Maker], str]:
    return lambda maker: maker.word(*known)


def _words(known: Sequence[str]) -> Callable[[Maker], str]:
    return lambda maker: maker.words(*known)


VALUES: dict[str, Callable[[Maker], str]] = {
    **{f"--{n}": cast(Any, getattr(Maker, n)) for n in ("sums", "plan", "pupils", "paper", "look")},
    "--words": Maker.language,
    "--printer": Maker.printer,
    "--start": Maker.date,
    "--out": Maker.out,
    "--csv": Maker.out,
    "--next": Maker.out,
    "--save-as": _word("kitchen", "a-1", "con"),
    "--only": _words(PARTS),
    "--kinds": _words((*KINDS, ALL_FACTS)),
    "--exchange": _words(PATTERNS),
    "--money": _word("GBP", "EUR", "USD", "MXN"),
    "--mat": _words(("two", "three", "beside", "subtract", "add", "exchange")),
    "--headings": _word("words", "numbers", "letters"),
    "--backs": _word(*BACKS),
    "--stage": _word(*STAGES),
    "--sturdy": _word("fold", "backs"),
    "--piles": _word("sheets", "sets"),
    "--picture": Maker.drawing,
    "--cover": _word("crossing-ten", "ten-and-crossing"),
    **dict.fromkeys(("--within", "--below"), _number(20, 100, 500, 1000)),
    **dict.fromkeys(("--margin", "--crop", "--back-shift"), _number(0, 3, 5, 6.35, 12, 30)),
    "--unit": _number(5, 8, 9.5, 10, 10.25, 12, 19),
    "--cutter": _words(("svg", "dxf", "0.1", "0.25", "2")),
    "--png": _number(20, 72, 100),
    **dict.fromkeys(("--share", "--layers", "--count"), _number(1, 2, 3, 7)),
    "--children": _number(1, 5, 30),
    "--spares": _number(0, 5, 12.5, 100),
    "--pieces": _word("0,0,1", "2,9,9", "0,2,10"),
    "--answer": _number(0, 344, 12, 9999),
    "--seed": _number(0, 1, 7, 12345),
    "--weeks": _number(1, 4, 8),
    "--days": _number(1, 5, 7),
    "--places": _number(2, 3, 4),
    "--skip": _words(RUNG_KEYS),
    "--from": _word(*STAGES),
    **dict.fromkeys(("--measured-across", "--measured-down"), _number(147.5, 150, 151.5, 259)),
}
"""How the value of each option is made."""


def case(seed: int) -> Case:
    """Return the case of ``seed``; the same seed gives the same case."""
    return Maker(seed).case()
