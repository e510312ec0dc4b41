"""The top of a cover: title, two people at the mat, what the kit is for, and its sums."""

from collections.abc import Sequence

from kitbuilder.kit import phrases
from kitbuilder.layout.cover.cover import Cover
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.contents import Line, Panel, Pictogram
from kitbuilder.layout.parts.furniture import wrapped
from kitbuilder.layout.parts.settings import Setting
from kitbuilder.layout.parts.words import line, lines, placed_line, wide

LISTED = 4
"""Sums named on the cover before it says how many more there are."""

LARGE, SMALLER = 0.44, (0.38, 0.33, 0.28)
"""The part of a wide page that the scene takes, and where a cover then is one page."""

_SCENE = 1.66
_SMALL_SCENE = 0.31
# The scene's width in parts of its height, and of the page's where it is small.


def hero(cover: Cover, part: float = LARGE) -> Block:
    """Return the top of a cover with room for it, the scene ``part`` of a wide page."""
    if not cover.wide:
        top = _top(cover, 0.4, cover.sets.cover, purpose(cover))
        return stack((top, tags(cover, cover.width)), 2.0)
    scene = _scene(cover, part * cover.width)
    left = cover.width - scene.width - 4
    told = stack((lines(said, cover.sets.text, left) for said in purpose(cover)), 1.6)
    text = stack((*_title(cover, left, cover.sets.cover), told, tags(cover, left)), 2.0)
    return row((text.as_wide(left), scene), 4)


def small_hero(cover: Cover, told: Sequence[str]) -> Block:
    """Return the title, a small scene, as high as two of its lines, and what is ``told`` below."""
    high = _scene(cover, _SMALL_SCENE * cover.width).height
    setting = cover.sets.cover.sized(min(cover.sets.cover.size, high / 2))
    return _top(cover, _SMALL_SCENE, setting, told)


def _top(cover: Cover, part: float, setting: Setting, told: Sequence[str]) -> Block:
    """Return the title beside the scene, that ``part`` of the page wide, what is ``told`` below."""
    scene = _scene(cover, part * cover.width)
    left = cover.width - scene.width - 4
    title = stack(_title(cover, left, setting))
    top = row((title.as_wide(left), scene), 4)
    below = (lines(said, cover.sets.text, cover.width) for said in told)
    return stack((top, stack(below, 1.0)), 2.0)


def _scene(cover: Cover, side: float) -> Block:
    """Return the picture of two people at the mat, with hundreds where the kit has some."""
    name = "together-hundreds" if cover.kit.pieces.hundreds else "together"
    high = side / _SCENE
    return Block((Item("pictogram", Rect(0, 0, side, high), Pictogram(name)),), side, high)


def _title(cover: Cover, room: float, usual: Setting) -> list[Block]:
    """Return the title's lines, smaller where a word of it is wider than ``room`` mm."""
    said = cover.words("cover.title")
    widest = max(wide(word, usual) for word in said.split())
    setting = usual if widest <= room else usual.sized(usual.size * room / widest - 0.01)
    parts = (item.content for item in lines(said, setting, room).items)
    return [line(part.text, setting) for part in parts if isinstance(part, Line)]


def purpose(cover: Cover) -> list[str]:
    """Return what the kit is for; of pieces wished for by themselves, which they are."""
    kit, words = cover.kit, cover.words
    said = [words("cover.lead")]
    if kit.pieces.value and not (kit.sums or kit.limit or kit.mats or kit.guide):
        said = [words("cover.loose", pieces=phrases.pieces(words, kit.pieces))]
    if kit.limit:
        said.append(words("cover.made_for_within", limit=kit.limit))
    names = [pack.name for pack in kit.packs if pack.name]
    if len(names) == 1:
        said.append(words("cover.pack", name=names[0]))
    elif names:
        count = words("cover.packs", count=len(names))
        named = any(pack.tasks for pack in kit.packs)
        said.append(f"{count} {words('cover.named')}" if named else count)
    return said


def tags(cover: Cover, room: float) -> Block:
    """Return the kit's sums in frames, the first few and how many more.

    Small facts and arrows alone are not for the kit's own sums.
    """
    sums, text = _listed(cover), cover.sets.text
    if not sums:
        return EMPTY
    setting = Setting(1.35 * text.size, 2.1 * text.size)
    shown = [_framed(one, setting) for one in sums]
    if more := len(cover.kit.sums) - len(shown):
        shown.append(line(cover.words("cover.more_sums", count=more), text.quiet()))
    return wrapped(shown, room, 2.4, 2.0, most=2.4)


def sums_told(cover: Cover) -> Block:
    """Return what ``tags`` shows as words, which take less room."""
    sums, text = _listed(cover), cover.sets.text
    more = len(cover.kit.sums) - len(sums)
    said = [*sums, cover.words("cover.more_sums", count=more)] if sums and more else sums
    return lines(", ".join(said), text, cover.width) if said else EMPTY


def _listed(cover: Cover) -> list[str]:
    """Return the first of the sums that the kit is for."""
    kit = cover.kit
    asked = any(pack.tasks for pack in kit.packs)
    served = asked or kit.pieces.value or kit.mats or kit.guide or kit.course.weeks
    return [str(one) for one in kit.sums[:LISTED]] if served else []


def _framed(text: str, setting: Setting) -> Block:
    across = wide(text, setting) + 6
    frame = Item("panel", Rect(0, 0, across, setting.lead), Panel("none", "bubble", 2.2))
    said = placed_line(text, setting, across / 2, setting.lead / 2, "centre")
    return Block((frame, said), across, setting.lead)
