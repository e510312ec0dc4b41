"""Lets the zones of a mat lie otherwise for one test."""

import pytest

from kitbuilder.kit import mat_needs
from kitbuilder.kit.mat_needs import Arrangement, Role
from kitbuilder.layout.picture import mat_frame


def lay_zones(
    monkeypatch: pytest.MonkeyPatch, arrangement: Arrangement, rows: tuple[tuple[Role, ...], ...]
) -> None:
    """Let the zones of ``arrangement`` lie in ``rows``; frames kept of others are not taken."""
    monkeypatch.setitem(mat_needs.BANDS, arrangement, rows)
    monkeypatch.setattr(mat_frame, "_framed", mat_frame._framed.__wrapped__)
