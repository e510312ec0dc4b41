"""The samples are at least a quarter smaller than cairo makes the same pages.

Run by hand: pytest -n 0 -s tests/bench/test_file_size.py
"""

from io import BytesIO
from pathlib import Path

import cairo_pages
import pytest
import samples
from pypdf import PdfReader

from kitbuilder.draw.canvas import Drawing
from kitbuilder.output.pdf.document import Pages

MOST = 0.75


@pytest.mark.parametrize("name", samples.SAMPLES)
def test_a_sample_is_a_quarter_smaller_than_by_cairo(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn: list[Drawing] = []
    add = Pages.add

    def keep(pages: Pages, drawing: Drawing) -> None:
        drawn.append(drawing)
        add(pages, drawing)

    monkeypatch.setattr(Pages, "add", keep)
    samples.make(name, tmp_path)
    path = next(tmp_path.glob("*.pdf"))
    ours, rival = path.read_bytes(), cairo_pages.shortest(drawn)
    mine, theirs = (PdfReader(BytesIO(file)).pages for file in (ours, rival))
    assert len(mine) == len(theirs)
    assert len(theirs[0].extract_text()) > 0.9 * len(mine[0].extract_text())
    part = len(ours) / len(rival)
    print(f"{name:9} {len(mine):3} pages {len(ours):7} {len(rival):7} {part:.2f}")
    assert part <= MOST
