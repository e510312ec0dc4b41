"""Turns a mat of several sheets into one whose zones are named again on each further sheet."""

from collections.abc import Iterator
from dataclasses import replace

from kitbuilder.kit.mat_needs import Role, roles
from kitbuilder.layout.mat.joins import free_box, joins, kept
from kitbuilder.layout.mat.mat_records import Label, Mat, MatText
from kitbuilder.layout.model import Rect


def named_again(mat: Mat, text: MatText) -> Mat:
    """Return ``mat`` with small names on the sheets that show part of a zone without its name.

    They stand where no piece lies first, no line runs and no join is named; where there is no
    room, none stands.
    """
    meeting = joins(mat, text)
    for tile, met in zip(mat.tiles, meeting, strict=True):
        for role, area in _unnamed(mat, tile):
            index = roles(mat.arrangement).index(role)
            size = (text.small_roles[index], text.join_height)
            box = free_box(mat, area, size, kept(tile, met))
            if box is not None:
                again = Label("again", role, None, box, hint=text.roles[index])
                mat = replace(mat, labels=(*mat.labels, again))
    return mat


def _unnamed(mat: Mat, tile: Rect) -> Iterator[tuple[Role, Rect]]:
    """Yield the roles of which ``tile`` shows a part without their label, and that part."""
    named = {x.role for x in mat.labels if x.kind == "role" and tile.holds(x.rect)}
    for role, outline in zip(roles(mat.arrangement), mat.outlines, strict=True):
        area = outline.common(tile)
        if area and role not in named:
            yield role, area
