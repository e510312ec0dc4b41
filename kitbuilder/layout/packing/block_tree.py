"""Guillotine trees of blocks of pieces, equal parts being one object."""

from dataclasses import replace

from kitbuilder.frozen import frozen
from kitbuilder.layout.packing.column_block import (
    ColumnBlock,
    corner_ones,
    corner_ways,
    ragged,
    wide_columns,
)
from kitbuilder.layout.packing.guillotine import OFFCUT, Axis, Part, join, leaf, line_up, trimmed


class Builder:
    """Builds the parts of blocks for one ``unit`` (hundredths of a mm), sharing equal parts."""

    def __init__(self, unit: int) -> None:
        self.unit = unit
        self._made: dict[tuple[object, ...], Part] = {}

    def block(self, block: ColumnBlock) -> Part:
        """Return the parts of ``block``."""
        key = ("block", block)
        if key not in self._made and block.line:
            hundreds, tens, ones = block.counts
            body = replace(block, counts=(hundreds, tens, ones - block.line), line=0)
            line = self.line(block.line, block.breadth, not block.turned)
            self._made[key] = join("x" if block.turned else "y", self.block(body), line)
        if key not in self._made:
            queue = _Strips(block.counts[1], block.counts[2] - corner_ones(block))
            narrow = [self._narrow(block, queue)] if block.narrow else []
            wide = [
                self._wide(held, queue.take(strips), block.turned)
                for held, strips in wide_columns(block)
            ]
            self._made[key] = line_up("y" if block.turned else "x", wide + narrow)
        return self._made[key]

    def panel(self, block: ColumnBlock, across: int, down: int) -> Part:
        """Return ``block`` in the corner of a panel of ``across`` × ``down`` units."""
        key = ("panel", block, across, down)
        if key not in self._made:
            size = across * self.unit, down * self.unit
            self._made[key] = trimmed(self.block(block), *size, 0, 0)
        return self._made[key]

    def leaf(self, what: str, across: int, down: int) -> Part:
        """Return a finished part of ``across`` by ``down`` units; equal ones are one object."""
        key = (what, across, down)
        if key not in self._made:
            self._made[key] = leaf(what, across * self.unit, down * self.unit)
        return self._made[key]

    def _leaf(self, what: str, across: int, down: int, turned: bool) -> Part:
        return self.leaf(what, down, across) if turned else self.leaf(what, across, down)

    def _wide(self, held: int, filled: "_Filled", turned: bool) -> Part:
        key = ("wide", held, filled, turned)
        if key not in self._made:
            parts = [self._leaf("hundreds", 10, 10, turned)] * held
            parts += [self._leaf("tens", 10, 1, turned)] * filled.tens
            parts += self._ones(filled, not turned)
            if filled.free:
                parts.append(self._leaf(OFFCUT, 10, filled.free, turned))
            self._made[key] = line_up("x" if turned else "y", parts)
        return self._made[key]

    def _group(self, filled: "_Filled", turned: bool) -> Part:
        """Return standing strips of ten, side by side."""
        key = ("group", filled, turned)
        if key not in self._made:
            parts = [self._leaf("tens", 1, 10, turned)] * filled.tens
            parts += self._ones(filled, turned)
            if filled.free:
                parts.append(self._leaf(OFFCUT, filled.free, 10, turned))
            self._made[key] = line_up("y" if turned else "x", parts)
        return self._made[key]

    def _ones(self, filled: "_Filled", lying: bool) -> list[Part]:
        full, over = divmod(filled.ones, 10)
        strips = [self.line(10, 10, lying)] * full
        return strips + ([self.line(over, 10, lying)] if over else [])

    def line(self, ones: int, length: int, lying: bool) -> Part:
        """Return a strip one unit wide of ``ones`` and, if it is longer, an offcut."""
        key = ("line", ones, length, lying)
        if key not in self._made:
            parts = [self.leaf("ones", 1, 1)] * ones
            if length > ones:
                parts.append(self._leaf(OFFCUT, length - ones, 1, not lying))
            self._made[key] = line_up("x" if lying else "y", parts)
        return self._made[key]

    def _narrow(self, block: ColumnBlock, queue: "_Strips") -> Part:
        y: Axis = "x" if block.turned else "y"
        groups = [
            self._group(queue.take(block.narrow), block.turned) for _ in range(block.rows // 10)
        ]
        if block.rows % 10:
            groups.append(self._corner(block))
        return line_up(y, groups)

    def _corner(self, block: ColumnBlock) -> Part:
        ones = corner_ones(block)
        ways = corner_ways(block)
        by_columns = ragged(ones, *ways[1]) < ragged(ones, *ways[0])
        length, lines = ways[by_columns]
        lying = by_columns == block.turned
        full, over = divmod(ones, length)
        parts = [self.line(length, length, lying)] * full
        if over:
            parts.append(self.line(over, length, lying))
        empty = lines - len(parts)
        if empty:
            parts.append(self._leaf(OFFCUT, length, empty, not lying))
        return line_up("y" if lying else "x", parts)


@frozen
class _Filled:
    """What strips of ten hold: some tens, then ones, then nothing."""

    tens: int
    ones: int
    free: int


class _Strips:
    """Hands out tens, then ones, to the strips of ten in order."""

    def __init__(self, tens: int, ones: int) -> None:
        self.tens = tens
        self.ones = ones

    def take(self, strips: int) -> _Filled:
        """Return what the next ``strips`` strips hold."""
        tens = min(self.tens, strips)
        ones = min(self.ones, 10 * (strips - tens))
        self.tens -= tens
        self.ones -= ones
        return _Filled(tens, ones, strips - tens - -(-ones // 10))
