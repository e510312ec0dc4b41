"""Tables of which it is known what they say, in the shapes and clothes that people give them."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from random import Random

Sum = tuple[int, int]
"""Whole and part."""

Answers = Mapping[str, Mapping[Sum, int | None]]
"""What each child wrote for each sum; None where it did not try."""

Rows = list[list[str]]
Shape = Callable[[Random], tuple[Rows, Answers]]

NAMES = (
    *("Ada", "Ben", "Cleo", "May", "April", "Mark", "Zoë", "Li", "Grace Hill", "Ana María"),
    *("José Luis Ríos", "Anne-Marie", "D'Arcy", "Amy B.", "Ben T", "Max"),
)
SIGNS = (
    "{}-{}",
    "{} - {}",
    "{} − {}",
    "{}–{}",
    "{} - {} =",
    "{}-{}=",
    "{}-{} = ?",
    "{} – {} = ___",
)
SHORT = SIGNS[:4]
TITLES = (
    *(["Class 4B"], ["Maths quiz"], ["Week 3"], ["12/01/2027"], ["Spring term"], ["Restas"]),
    *(["Teacher: Mrs Hill"], ["Results"], ["Unit 3: exchange"], ["Subtraction test", "12 January"]),
    *(["Mrs Smith", "Maths", "Monday"], ["Class", "4B"], ["Date", "12/01/2027"]),
)
DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday")


@dataclass(frozen=True)
class Table:
    """A table as it is pasted, and what it says."""

    text: str
    truth: Answers


def tables(seed: int, count: int, shapes: Sequence[Shape]) -> Iterator[Table]:
    """Yield ``count`` tables of ``shapes``, some below titles, their cells parted in three ways."""
    random = Random(seed)
    for _ in range(count):
        rows, truth = random.choice(shapes)(random)
        if random.random() < 0.3:
            rows = [*random.choices(TITLES, k=random.randint(1, 2)), *rows]
        mark = random.choice("\t\t\t;,")
        mark = "\t" if any(mark in cell or "\n" in cell for row in rows for cell in row) else mark
        wide = max(map(len, rows)) if random.random() < 0.3 else 0  # as spreadsheets fill rows up
        filled = [[*row, *[""] * (wide - len(row))] for row in rows]
        yield Table("\n".join(map(mark.join, filled)), truth)


def _children(random: Random, *, tried: bool = False) -> Answers:
    """Return children who did the same sums; with ``tried`` each of them."""
    names = random.sample(NAMES, random.randint(2, 5))
    if random.random() < 0.1:
        names = [f"Pupil {count}" for count in range(1, len(names) + 1)]
    sums = _sums(random, random.randint(2, 5))
    found = {name: {one: _answer(random, one) for one in sums} for name in names}
    for given in found.values():
        for whole, part in sums:
            if tried or not any(given.values()):
                given[whole, part] = given[whole, part] or whole - part
    return found


def _sums(random: Random, count: int) -> list[Sum]:
    """Return sums with an exchange, each once."""
    found = dict[Sum, None]()
    while len(found) < count:
        largest = random.choice((19, 99, 999))
        whole, part = random.randint(11, largest), random.randint(2, largest)
        if part < whole and whole % 10 < part % 10:
            found[whole, part] = None
    return [*found]


def _answer(random: Random, sum_: Sum) -> int | None:
    """Return a right answer, one of a usual mistake, or none."""
    whole, part = sum_
    return random.choice((whole - part, whole - part, whole + part, abs(whole - part - 10), None))


def _typed(answer: int | None) -> str:
    return "" if answer is None else str(answer)


def _sign(random: Random, signs: Sequence[str] = SIGNS) -> Callable[[Sum], str]:
    """Return how the sums of one table are written."""
    sign = random.choice(signs)
    return lambda sum_: sign.format(*sum_)


def across(random: Random) -> tuple[Rows, Answers]:
    """Return sums in the head, names down."""
    truth, said = _children(random), _sign(random)
    sums = [*next(iter(truth.values()))]
    count = random.choice(("", "", "{}. ", "{}) ", "Q{}: "))
    heads = [count.format(at) + said(one) for at, one in enumerate(sums, 1)]
    rows = [[random.choice(("", "Name", "Pupil", "Nombre", "First name")), *heads]]
    rows += [[name, *map(_typed, given.values())] for name, given in truth.items()]
    beside = random.random()
    if beside < 0.1:
        rows = [[*row, right] for row, right in zip(rows, ["Total", *"3121020"], strict=False)]
    elif beside < 0.2:
        rows = [[f"9:1{at}" if at else "Time", *row] for at, row in enumerate(rows)]
        rows[0][1] = "Name"
    elif beside < 0.3:
        rows = [[row[0], *(cell for one in row[1:] for cell in (one, "✓"))] for row in rows]
        rows[0] = [rows[0][0], *(cell for one in heads for cell in (one, ""))]
    elif beside < 0.4:
        rows.append(["Average", *("1" for _ in sums)])
    return rows, truth


def names_across(random: Random) -> tuple[Rows, Answers]:
    """Return names in the head, sums down."""
    truth, said = _children(random), _sign(random)
    rows = [[random.choice(("", "Sum", "Question", "Class 4B", "Week 3")), *truth]]
    for one in next(iter(truth.values())):
        rows.append([said(one), *(_typed(given[one]) for given in truth.values())])
    return rows, truth


def in_rows(random: Random) -> tuple[Rows, Answers]:
    """Return a name, a sum and an answer a row; the name in each row, or once a child."""
    truth, said, once = _children(random), _sign(random), random.random() < 0.4
    heads = random.choice(
        (
            *(["Name", "Sum", "Answer"], ["Pupil", "Question", "Their answer"]),
            *(["Nombre", "Resta", "Respuesta"], ["Student", "Problem", "Response"]),
        )
    )
    rows = [heads]
    for name, given in truth.items():
        for at, (one, answer) in enumerate(given.items()):
            rows.append(["" if once and at else name, said(one), _typed(answer)])
    return rows, truth


def in_lines(random: Random) -> tuple[Rows, Answers]:
    """Return a line a child: a name, and sums with their answers."""
    truth, said = _children(random, tried=True), _sign(random, SHORT)
    between = random.choice((", ", "; ", " ", "  ", ". ", " and "))
    after, bullet = random.choice((": ", " ", ", ")), random.choice(("", "- ", "• "))
    lines = [
        f"{bullet}{name}{after}{between.join(f'{said(one)}={given[one]}' for one in given)}"
        for name, given in truth.items()
    ]
    return [[line] for line in lines], truth


def below_names(random: Random) -> tuple[Rows, Answers]:
    """Return each name in a row of its own, its sums and answers below."""
    truth, said = _children(random, tried=True), _sign(random, SHORT)
    rows, one_cell = Rows(), random.random() < 0.5
    for name, given in truth.items():
        rows.append([f"{name}{random.choice(('', ':'))}"])
        for one, answer in given.items():
            rows.append([f"{said(one)} = {answer}"] if one_cell else [said(one), str(answer)])
    return rows, truth


def below_sums(random: Random) -> tuple[Rows, Answers]:
    """Return each sum in a row of its own, names and answers below."""
    truth, said = _children(random, tried=True), _sign(random, SIGNS[:6])
    between, rows = random.choice((": ", " - ", " ", "\t")), Rows()
    for one in next(iter(truth.values())):
        rows.append([said(one)])
        for name, given in truth.items():
            line = f"{name}{between}{given[one]}"
            rows.append(line.split("\t"))
    return rows, truth


def one_below_another(random: Random) -> tuple[Rows, Answers]:
    """Return two tables, each with some of the children and a head of its own."""
    truth, said, down = _children(random), _sign(random), random.random() < 0.5
    sums, names, rows = [*next(iter(truth.values()))], [*truth], Rows()
    for part in (names[: len(names) // 2], names[len(names) // 2 :]):
        rows += [[""]] if rows and random.random() < 0.5 else []
        if down:
            rows.append(["", *map(said, sums)])
            rows += [[name, *map(_typed, truth[name].values())] for name in part]
        else:
            rows.append(["", *part])
            rows += [[said(one), *(_typed(truth[name][one]) for name in part)] for one in sums]
    return rows, truth


def form(random: Random) -> tuple[Rows, Answers]:
    """Return the answers of a form, with points for each."""
    truth, heads = _children(random), ["Timestamp", "Score", "Name"]
    asked = random.choice(("What is {}-{}?", "{} - {} =", "Question: {} − {}"))
    for one in next(iter(truth.values())):
        heads += [asked.format(*one), f"{asked.format(*one)} [Score]"]
    rows = [heads]
    for name, given in truth.items():
        points = [cell for one in given.values() for cell in (_typed(one), "1.00 / 1")]
        rows.append(["2027/01/12 9:15", "2 / 4", name, *points])
    return rows, truth


ANSWERS = (
    *(across, across, names_across, in_rows, in_lines, below_names, below_sums),
    *(one_below_another, form),
)


def _planned(random: Random) -> Answers:
    """Return children, each with sums to come."""
    names = random.sample(NAMES, random.randint(2, 5))
    return {name: dict.fromkeys(_sums(random, random.randint(1, 4))) for name in names}


def _each(truth: Answers, said: Callable[[Sum], str], name: str, wide: int) -> list[str]:
    """Return the sums of a child as cells, as many as the ``wide`` row has."""
    cells = [*map(said, truth[name])]
    return [*cells, *[""] * (wide - len(cells))]


def planned_across(random: Random) -> tuple[Rows, Answers]:
    """Return a child a row with its sums, below heads that count them or name days."""
    truth, said = _planned(random), _sign(random)
    wide = max(map(len, truth.values()))
    head = random.choice(("Sum {}", "Day {}", "Q{}", "Week {}", "{}", ""))
    heads = [head.format(at) for at in range(1, wide + 1)] if head else [*DAYS[:wide]]
    rows = [[random.choice(("", "Name", "Pupil", "Nombre")), *heads]]
    rows += [[name, *_each(truth, said, name, wide)] for name in truth]
    if random.random() < 0.3:
        rows = [[row[0], "4B" if at else "Class", *row[1:]] for at, row in enumerate(rows)]
    return rows, truth


def planned_down(random: Random) -> tuple[Rows, Answers]:
    """Return names across, their sums below, with days before these or without."""
    truth, said = _planned(random), _sign(random)
    wide = max(map(len, truth.values()))
    columns = [_each(truth, said, name, wide) for name in truth]
    rows = [[*truth], *map(list, zip(*columns, strict=True))]
    if random.random() < 0.5:
        rows = [[day, *row] for day, row in zip(("", *DAYS), rows, strict=False)]
    return rows, truth


def planned_lines(random: Random) -> tuple[Rows, Answers]:
    """Return a line a child, or a name and a cell of sums."""
    truth, said = _planned(random), _sign(random, SHORT)
    between = random.choice((", ", "; ", " and ", " y ", "  ", " / "))
    after = random.choice((": ", " – ", "\t"))
    rows = [f"{name}{after}{between.join(map(said, given))}" for name, given in truth.items()]
    return [row.split("\t") for row in rows], truth


def planned_rows(random: Random) -> tuple[Rows, Answers]:
    """Return a name and a sum a row."""
    truth, said, once = _planned(random), _sign(random), random.random() < 0.4
    rows = [random.choice((["Name", "Sum"], ["Pupil", "Question"], ["Nombre", "Resta"]))]
    for name, given in truth.items():
        rows += [["" if once and at else name, said(one)] for at, one in enumerate(given)]
    return rows, truth


def planned_for_all(random: Random) -> tuple[Rows, Answers]:
    """Return sums across, and names below that all get them."""
    names, sums = random.sample(NAMES, 3), _sums(random, random.randint(2, 4))
    said = _sign(random)
    rows = [[random.choice(("", "Name", "Group A")), *map(said, sums)], *([name] for name in names)]
    return rows, {name: dict.fromkeys(sums) for name in names}


OWN = {
    "Student ID": "1023-4",
    "Phone": "555-0142",
    "Ages": "7-8",
    "Room": "12-4",
    "Due": "24-11",
    "Year": "2026-27",
    "E-mail": "a-12-3@home.example",
    "House": "Oak",
    "Notes": "see p. 12-10",
    "Level": "3",
    "Date": "12-11-2026",
}
"""Heads of columns that hold no sums, and what may stand below."""


def planned_beside(random: Random) -> tuple[Rows, Answers]:
    """Return a child a row with its sums, columns with heads of their own before or after."""
    truth, said = _planned(random), _sign(random)
    wide = max(map(len, truth.values()))
    head = random.choice(("Sum {}", "Day {}", "Q{}", "Week {}"))
    rows = [["Name", *(head.format(at) for at in range(1, wide + 1))]]
    rows += [[name, *_each(truth, said, name, wide)] for name in truth]
    for own in random.sample([*OWN], random.randint(1, 2)):
        at = random.choice((0, 1, len(rows[0])))
        rows = [[*row[:at], OWN[own] if k else own, *row[at:]] for k, row in enumerate(rows)]
    return rows, truth


def planned_in_blocks(random: Random) -> tuple[Rows, Answers]:
    """Return names across with their sums below, one table below another, some in one cell."""
    names, rows, several = random.sample(NAMES, 5), Rows(), random.random() < 0.3
    truth = {name: dict.fromkeys(_sums(random, random.randint(1, 4))) for name in names}
    said, down = _sign(random), random.random() < 0.4
    for part in (names[:2], names[2:]):
        rows.append([*([random.choice(("", "Day"))] if down else []), *part])
        wide = max(len(truth[name]) for name in part)
        columns = [_each(truth, said, name, wide) for name in part]
        if several:
            columns = [[", ".join(filter(None, column))] for column in columns]
        for day, row in zip(DAYS, zip(*columns, strict=True), strict=False):
            rows.append([*([day] if down else []), *(cell or "-" for cell in row)])
    return rows, truth


def planned_side_by_side(random: Random) -> tuple[Rows, Answers]:
    """Return names and sums twice a row."""
    names, said = random.sample(NAMES, random.choice((4, 5, 6))), _sign(random)
    truth = {name: dict.fromkeys(_sums(random, 1)) for name in names}
    cells = [[name, *map(said, truth[name])] for name in names]
    return [
        [*left, *right] for left, right in zip(cells[::2], [*cells[1::2], []], strict=False)
    ], truth


def planned_by_marks(random: Random) -> tuple[Rows, Answers]:
    """Return sums across, and a mark below those that a child is to get."""
    names, sums, said = random.sample(NAMES, 3), _sums(random, random.randint(2, 4)), _sign(random)
    mark, none = random.choice((("x", ""), ("✓", ""), ("yes", "no")))
    truth = {
        name: dict.fromkeys(random.sample(sums, random.randint(1, len(sums)))) for name in names
    }
    rows = [[random.choice(("", "Name")), *map(said, sums)]]
    rows += [[name, *(mark if one in truth[name] else none for one in sums)] for name in names]
    return rows, truth


def planned_in_groups(random: Random) -> tuple[Rows, Answers]:
    """Return groups: a title, its sums across, behind a colon or below, and its children."""
    names, said, truth = random.sample(NAMES, 4), _sign(random), dict[str, dict[Sum, None]]()
    title, way, rows = (
        random.choice(("Group {}", "Set {}", "Table {}")),
        random.randint(1, 3),
        Rows(),
    )
    for part, letter in ((names[:2], "A"), (names[2:], "B")):
        sums, called = _sums(random, random.randint(1, 3)), title.format(letter)
        truth |= {name: dict.fromkeys(sums) for name in part}
        across = [[called, *map(said, sums)]]
        behind = [[f"{called}: {'; '.join(map(said, sums))}"]]
        below = [[called], *([said(one)] for one in sums)]
        rows += [across, behind, below][way - 1] + [[name] for name in part]
    return rows, truth


def planned_by_days(random: Random) -> tuple[Rows, Answers]:
    """Return days in rows of their own, below each a child a row with a sum."""
    truth, said, rows = _planned(random), _sign(random), Rows()
    for at, day in enumerate(DAYS[: max(map(len, truth.values()))]):
        rows.append([day])
        rows += [[name, said([*truth[name]][at])] for name in truth if len(truth[name]) > at]
    return rows, truth


def planned_together(random: Random) -> tuple[Rows, Answers]:
    """Return several children in a cell, then their sums."""
    names, said, rows = random.sample(NAMES, 5), _sign(random, SHORT), Rows()
    truth = dict[str, dict[Sum, None]]()
    between = random.choice((" and ", " & ", "/", " y "))
    for part in (names[:2], names[2:3], names[3:]):
        sums = _sums(random, random.randint(1, 3))
        truth |= {name: dict.fromkeys(sums) for name in part}
        rows.append([between.join(part), ", ".join(map(said, sums))])
    return rows, truth


PACKS = (
    *(planned_across, planned_down, planned_lines, planned_rows, planned_for_all),
    *(planned_beside, planned_in_blocks, planned_side_by_side, planned_by_marks),
    *(planned_in_groups, planned_by_days, planned_together),
)
