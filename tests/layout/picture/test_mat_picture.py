"""The picture of a mat, however its zones lie."""

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.kit import mat_needs
from kitbuilder.kit.lesson.script import script
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture
from kitbuilder.number import Sum


def test_what_was_built_is_told_over_the_whole_wherever_it_lies(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(mat_needs.BANDS, "two", (("part",), ("whole",)))
    style = Style(designs.paper("a4"), designs.words(), designs.look())
    scene = next(step.scene for step in script(Sum(43, 17), style.words) if step.scene.outcome)
    frame = mat_frame((scene,), 90.0, style)
    assert frame is not None
    items = mat_picture(scene, frame, style).items
    told = next(i.rect for i in items if getattr(i.content, "text", "") == scene.outcome)
    part, whole = frame.zone("part"), frame.zone("whole")
    assert part.y + part.height < told.y + told.height / 2 < whole.y
