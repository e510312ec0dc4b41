"""A command whose --help shows its options in groups, by what they are about."""

import click

GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "What to make",
        (
            "sums",
            "plan",
            "weeks",
            "start",
            "days",
            "skip",
            "from",
            "mini",
            "within",
            "pieces",
            "money",
            "metre",
            "only",
            "pupils",
            "each",
            "out",
        ),
    ),
    ("Mats", ("mat", "headings")),
    ("Cards", ("kinds", "stage", "backs", "no-headings")),
    (
        "A class set",
        ("children", "share", "spares", "layers", "piles", "home"),
    ),
    (
        "Paper and looks",
        ("paper", "margin", "unit", "printer", "look", "words", "sturdy", "picture"),
    ),
    ("For machines and screens", ("cutter", "png")),
)
"""The groups and their options, in the order in which they are shown."""


class Grouped(click.Command):
    """A command with many options: its help shows them under headings."""

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the options in their groups; what is in none comes last."""
        rows = {
            param.opts[0].removeprefix("--"): row
            for param in self.get_params(ctx)
            if (row := param.get_help_record(ctx)) is not None
        }
        for heading, names in GROUPS:
            self._write(heading, [rows.pop(name) for name in names if name in rows], formatter)
        self._write("Other", list(rows.values()), formatter)

    def _write(
        self, heading: str, rows: list[tuple[str, str]], formatter: click.HelpFormatter
    ) -> None:
        if rows:
            with formatter.section(heading):
                formatter.write_dl(rows)
