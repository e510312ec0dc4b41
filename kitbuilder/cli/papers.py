"""Turns the paper profiles into a table in the terminal."""

import click


@click.command()
def papers() -> None:
    """List the papers, their margins, the default unit, and how many hundreds fit."""
    from kitbuilder import designs
    from kitbuilder.sheet.page import Page

    rows = [("paper", "size (mm)", "margins (mm)", "unit (mm)", "hundreds on a sheet")]
    for name in designs.names("paper"):
        paper = designs.paper(name)
        m = paper.margins_mm
        sides = (m.left, m.right, m.top, m.bottom)
        margins = f"{sides[0]:g}" if len(set(sides)) == 1 else " ".join(f"{s:g}" for s in sides)
        across, down = Page.upright(paper).units(paper.unit_mm)
        size = f"{paper.width_mm:g} x {paper.height_mm:g}"
        rows.append((name, size, margins, f"{paper.unit_mm:g}", str(across // 10 * (down // 10))))
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    for row in rows:
        line = "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True))
        click.echo(line.rstrip())
