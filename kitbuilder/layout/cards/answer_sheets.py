"""The adult's answers on pages: boxes in rows, then small facts, on the fewest pages."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.errors import NameTooWideError, RefusedError
from kitbuilder.kit.card_records import Answer, Pack
from kitbuilder.layout.cards.answer_boxes import (
    CLOSE,
    GREAT,
    GUTTER,
    LARGE,
    MIDDLE,
    ROOMY,
    SMALL,
    TWO_IN_A_ROW,
    AnswerBox,
    Size,
    answer_boxes,
    fact_rows,
    hold,
    hold_two,
    larger,
    stretched,
)
from kitbuilder.layout.model import Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, row, shared, stack
from kitbuilder.layout.parts.contents import Pictogram
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header, labelled, pictogram
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import lines, wide

FEW, SOME = 4, 12
"""So many answers stand as large as one page of them allows; so many with pieces large enough to
be counted, on as few pages as four a page take; more, as those of a class, stand small."""

WIDE = 170.0
"""From this width on, mm, two answers may stand beside each other."""

_GAP, _MOST_APART, _FACE = 2.8, 40.0, 6.0
# In mm: the least between two blocks of a page, the most that spare height adds to it, and the
# most side of a face over who says and who asks.

_KEYS, _GROWN, _UNDER = 6, 1.6, 1.6
# Up to so many pupils have a key in larger type, so much larger; mm from its heading to it.


def answer_sheets(packs: Sequence[Pack], style: Style) -> tuple[Sheet, ...]:
    """Return the pages of the answers of ``packs``, none where there are none.

    One pack's answers follow its cards. Those of several pupils are a short key for each, and
    then every sum once, by size.
    """
    area, words = SheetArea.upright(style.paper), style.words
    if not any(pack.answers or pack.fact_answers for pack in packs):
        return ()
    heading = Heading("right", words("answers.title"), ("adult",), words("answers.note"))
    items, top = header(heading, area, style)
    body = area.body(top)
    whose = packs[0].name if len(packs) == 1 else ""
    blocks = _fitting_blocks(packs, (body.width, body.height), style)
    sheets: list[Sheet] = []
    for some in _paged(blocks, body.height):
        filled = _filled(some, (body.width, body.height), style)
        placed = _spread(_with_heads(filled, body.height, style), body)
        page = (*items, *placed.items, *foot(Foot(whose, name=True), area, style))
        size = area.page
        sheets.append(
            Sheet(SheetKind.ANSWERS, len(sheets) + 1, "paper", size.width, size.height, page)
        )
    return tuple(sheets)


def _spread(page: Sequence[Block], body: Rect) -> Block:
    """Return the blocks of a page, what height is spare shared between them and below them."""
    spare = body.height - sum(block.height + _GAP for block in page) + _GAP
    return shared(page, body, _GAP, min(_MOST_APART, max(0.0, spare) / len(page)))


def _fitting_blocks(packs: Sequence[Pack], room: tuple[float, float], style: Style) -> list[Block]:
    """Return what stands on the pages, row by row: few answers on one page if they fit."""
    width, height = room
    many = len({(a.sum.whole, a.sum.part, a.written) for pack in packs for a in pack.answers})
    if width < WIDE or style.look.type_mm.adult > 5:
        single = _one_a_row(packs, room, style, GREAT if many <= SOME else ())
        return single if width < WIDE else _fewer(single, packs, room, style)
    if many > SOME:
        return _blocks(packs, width, style, SMALL)
    if many <= FEW:
        for size in (*GREAT, LARGE, *ROOMY, *MIDDLE):
            found = _tried(packs, width, style, size, twice=size in ROOMY)
            if found and sum(block.height + _GAP for block in found) - _GAP <= height:
                return found
    sizes = (LARGE,) if many <= FEW else MIDDLE[3:]
    usual = _fewest((_blocks(packs, width, style, size) for size in sizes), height)
    tried = (*GREAT, LARGE, *ROOMY)
    larger = (_tried(packs, width, style, size, twice=size in ROOMY) for size in tried)
    most = len(_paged(usual, height))
    return next((some for some in larger if some and len(_paged(some, height)) <= most), usual)


def _one_a_row(
    packs: Sequence[Pack], room: tuple[float, float], style: Style, greater: Sequence[Size]
) -> list[Block]:
    """Return answers one below the other, the largest of ``greater`` on no more pages.

    In large type on small paper one answer beside its questions is higher than a page, or leaves
    a page for the closing words alone: then questions stand below it, and perhaps fewer of them.
    """
    width, height = room
    large = _tried(packs, width, style, LARGE)
    if large and _fit(large, height):
        most = len(_paged(large, height))
        larger = (_tried(packs, width, style, size) for size in greater)
        fits = (b for b in larger if b and _fit(b, height) and len(_paged(b, height)) <= most)
        return next(fits, large)
    tried = [
        _tried(_asking(packs, most), width, style, size)
        for most in (None, 2, 1)
        for size in (*MIDDLE, SMALL)
    ]
    smaller = [found for found in tried if found]
    fits = (found for found in smaller if _fit(found, height))
    single = (b for b in (large, *smaller) if b and all(one.height <= height for one in b))
    return next(fits, None) or next(single, None) or _blocks(packs, width, style, LARGE)


def _fewest(found: Iterable[list[Block]], height: float) -> list[Block]:
    """Return the first of those that take the fewest pages."""
    return min(found, key=lambda blocks: len(_paged(blocks, height)))


def _fewer(
    found: list[Block], packs: Sequence[Pack], room: tuple[float, float], style: Style
) -> list[Block]:
    """Return two answers in a row where they take fewer pages than ``found``, large if they can.

    Or those of ``found`` closer, where only that takes fewer.
    """
    width, height = room
    tried = [_tried(packs, width, style, s, twice=True) for s in (TWO_IN_A_ROW, MIDDLE[0])]
    tried.append(_tried(packs, width, style, CLOSE))
    return _fewest((found, *(rows for rows in tried if rows and _fit(rows, height))), height)


def _tried(
    packs: Sequence[Pack], width: float, style: Style, size: Size, *, twice: bool = False
) -> list[Block] | None:
    """Return what stands on the pages, or None where a word is wider than its column.

    ``twice`` asks for two answers in a row that hold all their words.
    """
    each = (width - GUTTER) / 2 if twice else width
    holds = hold_two if twice else hold
    beside = size.beside or twice
    if beside and not all(holds(pack.answers, each, style, size) for pack in packs):
        return None
    try:
        return _blocks(packs, width, style, size)
    except RefusedError:
        return None


def _asking(packs: Sequence[Pack], most: int | None) -> Sequence[Pack]:
    """Return ``packs`` with at most so many wrong answers to each sum, or with all of them."""
    return [
        replace(pack, answers=tuple(replace(a, wrong=a.wrong[:most]) for a in pack.answers))
        for pack in packs
    ]


def _fit(blocks: Sequence[Block], height: float) -> bool:
    """Return whether ``blocks`` stand on pages ``height`` mm high, no words alone on one."""
    pages = _paged(blocks, height)
    return all(block.height <= height for block in blocks) and not any(
        len(page) == 1 and page[0].height < height / 3 for page in pages if len(pages) > 1
    )


def _paged(blocks: Sequence[Block], height: float) -> list[Sequence[Block]]:
    """Return ``blocks`` page by page, full ones first; none for a block alone if that can be."""
    pages: list[Sequence[Block]] = []
    start = 0
    while start < len(blocks):
        end, high = start + 1, blocks[start].height
        while end < len(blocks) and high + _GAP + blocks[end].height <= height:
            high += _GAP + blocks[end].height
            end += 1
        pages.append(blocks[start:end])
        start = end
    if len(pages) > 1 and len(pages[-1]) == 1 and len(pages[-2]) > 1:
        moved = (pages[-2][-1], *pages[-1])
        if sum(block.height for block in moved) + _GAP <= height:
            pages[-2:] = [pages[-2][:-1], moved]
    return pages


def _filled(page: Sequence[Block], room: tuple[float, float], style: Style) -> Sequence[Block]:
    """Return what stands on a page: one answer alone as large as fits, one in a row across it."""
    width, height = room
    rows = [at for at, b in enumerate(page) if any(i.what == "answer" for i in b.items)]
    if not rows or len(page[rows[-1]].items) > 1:
        return page
    if len(rows) > 1 and page[rows[-1]].items[0].rect.width > width / 2:
        return page
    spare = height - sum(block.height for block in page) - _GAP * (len(page) - 1)
    spare = spare if len(rows) == 1 else 0.0
    box = page[rows[-1]]
    large = larger(box, width, box.height + spare)
    return [large if at == rows[-1] else block for at, block in enumerate(page)]


def _blocks(packs: Sequence[Pack], width: float, style: Style, size: Size) -> list[Block]:
    """Return what stands on the pages, row by row."""
    sets, words = settings(style.look), style.words
    found: list[Block] = []
    worked = {(a.sum.whole, a.sum.part, a.written): a for pack in packs for a in pack.answers}
    answers = list(worked.values()) if len(packs) == 1 else [worked[k] for k in sorted(worked)]
    if answers:
        alone = not any(answer.sum.with_pieces for answer in answers)
        lead = "answers.lead_written" if alone else "answers.lead"
        told = lines(words(lead), sets.text, width)
        headed = len(packs) == 1 and not size.beside
        found.append(_headed(told, answers, style) if headed else told)
        titled: list[Block] = []  # stands on the page of the first answer
        if len(packs) > 1:
            first, *lots = _keys(packs, width, style)
            key = lines(words("answers.key"), sets.heading, width)
            found += [stack((key, first), _UNDER), *lots]
            title = lines(words("answers.worked"), sets.heading, width)
            titled = [title if size.beside else _headed(title, answers, style)]
        elif packs[0].name:
            found.append(_name(packs[0].name, sets.child, width, style))
            found += [lines(packs[0].why, sets.text, width)] if packs[0].why else []
        top, *rest = _rows(answers, width, style, size)
        found += [stack((*titled, top), _GAP), *rest]
        other = f"{words('wrong.other')} {words('wrong.other_told')}"
        other = words("answers.other_written") if alone else other
        found.append(lines(other, sets.text, width))
    if packs[0].fact_answers:
        first, *lots = _joined(tuple(fact_rows(packs[0].fact_answers, width, style)))
        found += [stack((lines(words("answers.facts"), sets.heading, width), first), _GAP), *lots]
    return found


def _headed(told: Block, answers: Sequence[Answer], style: Style) -> Block:
    """Return ``told``, at its right end who says and who asks, if it is one line with room."""
    wrong = next((answer for answer in answers if answer.wrong), None)
    if wrong is None or len(told.items) > 1:
        return told
    both = _heads(wrong, min(told.height, _FACE), style)
    if told.items[0].rect.right + GUTTER + both.width > told.width:
        return told
    down = (told.height - both.height) / 2
    return told.over(both.moved(told.width - both.width, max(0.0, down)))


def _heads(answer: Answer, side: float, style: Style) -> Block:
    """Return who says and who asks, under faces ``side`` mm wide."""
    least = settings(style.look).least
    says, asks = (pictogram(who, side) for who in ("child", "adult"))
    return row((labelled(says, answer.says, least), labelled(asks, answer.asks, least)), GUTTER)


def _with_heads(page: Sequence[Block], high: float, style: Style) -> Sequence[Block]:
    """Return a ``page`` with who says and who asks over its first answers.

    It stays as it is where that is told on it already, or its ``high`` mm have no room.
    """
    items = [item for block in page for item in block.items]
    boxes = [item.content for item in items if isinstance(item.content, AnswerBox)]
    asking = next((box.answer for box in boxes if box.answer.wrong), None)
    faces = any(isinstance(item.content, Pictogram) for item in items)
    if asking is None or faces or any(box.size.beside for box in boxes):
        return page
    heads, width = _heads(asking, _FACE, style), page[0].width
    if heads.height + _UNDER + sum(block.height + _GAP for block in page) - _GAP > high:
        return page
    at = next(k for k, b in enumerate(page) if any(i.what == "answer" for i in b.items))
    over = heads.moved(width - heads.width, 0)
    return [*page[:at], stack((over, page[at]), _UNDER), *page[at + 1 :]]


def _keys(packs: Sequence[Pack], width: float, style: Style) -> list[Block]:
    """Return what is left in each pupil's tasks, by the cards' numbers, some pupils a block."""
    text = settings(style.look).text
    words = [word for pack in packs for word in f"{pack.name}: {pack.key}".split()]
    grown = text.sized(_GROWN * text.size) if len(packs) <= _KEYS else text
    setting = grown if all(wide(word, grown) <= width for word in words) else text
    rows = []
    for pack in packs:
        _check_name(pack.name, setting, width, style)
        key = lines(f"{pack.name}: {pack.key}", setting, width)
        rows.append(stack((key, lines(pack.why, text.quiet(), width))) if pack.why else key)
    return _joined(rows)


def _joined(rows: Sequence[Block]) -> list[Block]:
    """Return rows in lots that a page can take, close together."""
    return [stack(rows[start : start + 6]) for start in range(0, len(rows), 6)]


def _name(name: str, setting: Setting, width: float, style: Style) -> Block:
    _check_name(name, setting, width, style)
    return lines(name, setting, width)


def _check_name(name: str, setting: Setting, width: float, style: Style) -> None:
    """Raise ``NameTooWideError`` for a name with a word wider than a page of answers."""

    def fits(said: str) -> bool:
        return all(wide(word, setting) <= width for word in said.split())

    if not fits(name):
        raise NameTooWideError(name, style.paper.name, fits)


def _rows(answers: Sequence[Answer], width: float, style: Style, size: Size) -> list[Block]:
    """Return the answers' boxes, two in a row if the page is wide and no questions are beside."""
    if size.beside or width < WIDE:
        return list(answer_boxes(answers, width, style, size))
    last: list[Block] = []
    if style.look.type_mm.adult > 5 and len(answers) % 2:  # the last one over the whole width
        last = list(answer_boxes(answers[-1:], width, style, GREAT[-2]))
        answers = answers[:-1]
    boxes = answer_boxes(answers, (width - GUTTER) / 2, style, size)
    rows = []
    for start in range(0, len(boxes), 2):
        pair = boxes[start : start + 2]
        high = max(box.height for box in pair)
        rows.append(row([stretched(box, high) for box in pair], GUTTER))
    return rows + last
