"""Frozen records are what frozen dataclasses are, and are made in less time."""

from dataclasses import dataclass, field, fields, replace

import pytest

from kitbuilder.frozen import frozen


@frozen
class Tile:
    """A record."""

    wide: int
    name: str = "a"
    seen: list[int] = field(default_factory=list, compare=False)


@dataclass(frozen=True, slots=True)
class Usual:
    """The same, compiled."""

    wide: int
    name: str = "a"
    seen: list[int] = field(default_factory=list, compare=False)


@frozen
class Empty:
    """A record without fields."""


@frozen
class Other:
    """Another record without fields, whose hash is its own."""

    def __hash__(self) -> int:
        return 7


def test_a_record_is_compared_hashed_and_shown_by_its_fields() -> None:
    assert Tile(3, seen=[1]) == Tile(3, seen=[2]) != Tile(4)
    assert len({Tile(3), Tile(3, "a"), Tile(3, "b")}) == 2
    assert repr(Tile(3)) == repr(Usual(3)).replace("Usual", "Tile")
    assert replace(Tile(3), name="b") == Tile(3, "b")
    assert [one.name for one in fields(Tile(3))] == ["wide", "name", "seen"]
    assert Empty() == Empty() and repr(Empty()) == "Empty()" and hash(Other()) == 7
    match Tile(5, "c"):
        case Tile(wide, name):
            assert (wide, name) == (5, "c")


def test_what_it_has_no_field_for_is_refused() -> None:
    with pytest.raises(AttributeError):
        setattr(Tile(3), "high", 1)  # noqa: B010  (mypy would refuse it)
