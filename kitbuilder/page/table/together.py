"""Several children of packs in one cell, as Ada, Ben and Cy: each gets the sums beside them."""

import re
from collections.abc import Sequence

from kitbuilder.errors import RefusedError, Said, named
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import LETTER, WRITTEN, Row, filled, holds_sum
from kitbuilder.page.table.known_words import LABEL, OF_ALL, OF_GROUPS, YES_NO
from kitbuilder.page.table.titles import quoted
from kitbuilder.request.answers import COLUMNS, no_child

_JOINED = re.compile(r"\s+(?:and|with|y|e|con)\s+|\s*[&+/]\s*", re.IGNORECASE)
_HEADED = re.compile(
    r"(?:^|[\t;,])[ \"]*"
    r"(?:children|pupils|students|alumnos|alumnas|alumnado|niños|niñas|estudiantes)"
    r"[ \":]*(?:[\t;,]|$)",
    re.IGNORECASE | re.MULTILINE,
)
_BEFORE_NAMES = re.compile(
    r"(?:children|pupils|students|names|alumnos|alumnas|niños|niñas|nombres)\s*:\s*", re.IGNORECASE
)
_IN_BRACKETS = re.compile(r"[^()]*\(([^()]*)\)")
_COMMA = re.compile(r"\s*[,;]\s*(?:(?:and|y|e)\s+)?", re.IGNORECASE)


def each_child(names: Sequence[str], notes: list[Said], text: str) -> list[list[str]]:
    """Return whom each of ``names`` names: several with "and" or two commas between, else one.

    One comma is enough where children are headed in the ``text`` of the table.

    A note tells who were taken apart, and whose comma may part a surname or two children.
    """
    parts = [part for name in names for part in _JOINED.split(name)]
    many = any(len(_COMMA.findall(part)) > 1 for part in parts) or bool(_HEADED.search(text))
    found = [_apart(name, commas=many) for name in names]
    several = [one for children in found if len(children) > 1 for one in children]
    commas = [name for name, (*others, _) in zip(names, found, strict=True) if not others]
    unsure = [name for name in commas if _COMMA.search(name)]
    notes += [Said("screen.each", names=named(quoted(several)))] if several else []
    notes += [Said("screen.one-child", names=named(quoted(unsure)))] if unsure else []
    return found


def check_groups(lines: list[Row]) -> None:
    """Refuse names without sums below one with some, which may be a group's, as Red: 53-27."""
    alone = [name for _, (name, sum_) in lines if not sum_]
    others = {name for _, (name, sum_) in lines if sum_}
    if lines and lines[0][1][1] and len(alone) > 1 and len(alone) >= len(others):
        names, given = named(quoted(alone)), lines[0][1][0]
        raise RefusedError("screen.group-or-child", given=given, names=names, field="pupils")


def with_those_of_all(lines: list[Row], notes: list[Said]) -> list[Row]:
    """Return lines of a name and a sum, those of everyone below the sums of each child."""
    of_all = [(number, sum_) for number, (name, sum_) in lines if OF_ALL.fullmatch(name)]
    own = [row for row in lines if not OF_ALL.fullmatch(row[1][0])]
    names = [*dict.fromkeys(name for _, (name, _) in own)]
    if not (of_all and names):
        return lines
    notes.append(Said("screen.of-all", sums=named(quoted(sum_ for _, sum_ in of_all))))
    found = list[Row]()
    for name in names:
        found += [row for row in own if row[1][0] == name and row[1][1]]
        found += [(number, [name, sum_]) for number, sum_ in of_all]
    return found


def _apart(name: str, *, commas: bool) -> list[str]:
    """Return the children in a name, itself where it is one's."""
    listed = _IN_BRACKETS.fullmatch(name) if OF_GROUPS.search(name) else None
    if listed and (several := _apart(listed[1], commas=True)) and len(several) > 1:
        return several
    parts = _JOINED.split(name)
    surnamed = [part.count(",") for part in parts]
    if not commas and surnamed[-1] == 1 and {*surnamed[:-1]} <= {0}:  # Ruiz y Cano, Ana
        return [name]
    if commas or (len(parts) > 1 and {*surnamed} != {1}):  # not Hill, Ada and Reed, Ben
        parts = [one for part in parts for one in _COMMA.split(part) if one]
    plain = all(LETTER.match(one) and not no_child(one) for one in parts)
    plain = plain or ("/" not in name and all(map(str.isdigit, parts)))  # 1 and 2
    return parts if parts and plain else [name]


def with_groups_joined(rows: list[Row]) -> list[Row]:
    """Return ``rows``, children listed behind the title of a group with its sums.

    These stand below it, or behind the title again.
    """
    listed = [_group(", ".join(filled(cells))) for _, cells in rows]
    if not any(listed):
        return rows
    found, names = list[Row](), dict[str, str]()
    for group, (number, cells) in zip(listed, rows, strict=True):
        title, names_ = group or ("", "")
        sums = [one[0] for one in WRITTEN.finditer(" ".join(cells))]
        begin = cells[0].partition(":")[0]
        if names_:
            names[title] = names_
            found.append((number, [names_]))
        elif sums and begin in names:
            found = [row for row in found if row[1] != [names[begin]]]
            found.append((number, [names[begin], *sums]))
        elif sums and found and found[-1][1][0] in names.values() and not LETTER.search(cells[0]):
            found[-1] = (found[-1][0], [*found[-1][1], *sums])
        else:
            return rows
    return found if all(len(cells) > 1 for _, cells in found) else rows


def _group(line: str) -> tuple[str, str] | None:
    """Return the title and the children of a group in a line."""
    title, colon, names = line.partition(":")
    plain = colon and OF_GROUPS.search(title) and names.strip()
    given = _COMMA.split(names.strip()) if plain else []
    return (title, " & ".join(given)) if given and are_names(given) else None


def with_names_joined(rows: list[Row], mark: str) -> list[Row]:
    """Return ``rows``, names that commas part before a colon and sums, or alone, in one cell."""
    if mark == "\t":
        return rows
    rows = [(n, [_BEFORE_NAMES.sub("", cells[0], count=1), *cells[1:]]) for n, cells in rows]
    joined = [(number, _with_names_joined(cells)) for number, cells in rows]
    (_, first), *below = joined or [(0, [""])]
    grouped = all(OF_GROUPS.search(cells[0]) for _, cells in below if holds_sum(*cells))
    if not (grouped and holds_sum(*first)):  # else sums may stand below names across
        return joined
    return [(n, [", ".join(cells)]) if are_names(cells) else (n, cells) for n, cells in joined]


def _with_names_joined(cells: list[str]) -> list[str]:
    for at, cell in enumerate(cells):
        name, colon, after = cell.partition(":")
        if colon and WRITTEN.match(after.lstrip()) and are_names([*cells[:at], name]):
            return [", ".join([*cells[:at], cell]), *cells[at + 1 :]]
        if holds_sum(cell):
            break
    return cells


def are_names(cells: Sequence[str]) -> bool:
    """Say whether cells are names."""
    return all(
        LETTER.match(cell)
        and cell.lower() not in YES_NO
        and not LABEL.fullmatch(cell)
        and head(cell) not in COLUMNS
        for cell in cells
    )
