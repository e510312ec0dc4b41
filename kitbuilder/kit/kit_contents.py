"""What a kit holds: how many of each piece, which cards, which pages."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from kitbuilder.design.load import Words
from kitbuilder.kit.card_packs import kit_pack, pupil_packs
from kitbuilder.kit.card_records import CardWishes, Pack, Pupil
from kitbuilder.kit.course.adult_pages import evening, outline_page
from kitbuilder.kit.course.course_pages import week_pages, worksheets
from kitbuilder.kit.course.course_records import CoursePages, Road
from kitbuilder.kit.course.plan_words import plan_sums
from kitbuilder.kit.course.road import road, without_lesson
from kitbuilder.kit.demonstration import Demonstration, demonstration
from kitbuilder.kit.guide import guide, taught_in
from kitbuilder.kit.lesson.script import Beside, Kind
from kitbuilder.kit.mat_needs import MatWish, mat_places
from kitbuilder.kit.records import ExchangeCard, Kit, Lesson
from kitbuilder.number import PLACES, Pieces, Sum
from kitbuilder.number.course.rungs import rung_of
from kitbuilder.number.course.schedule import Task, varied, week
from kitbuilder.number.course.suitable_sums import NoSumError
from kitbuilder.number.stock import stock, stock_within
from kitbuilder.number.sums import in_tenths


@dataclass(frozen=True, slots=True)
class KitWish:
    """What a kit is to hold.

    It serves ``sums``, and every sum below ``limit``; ``extra`` are pieces wanted whatever the
    sums. Only the named ``parts`` are filled. ``examples`` are the guide's when there are
    none. Each of ``pupils`` gets a pack of cards. With a ``plan``, whose sums ``sums`` are, the
    weeks are the plan's, else the first week's. ``kits`` are made, and with ``home`` each takes
    pages home.
    """

    sums: tuple[Sum, ...]
    parts: tuple[str, ...]
    examples: tuple[Sum, ...]
    limit: int | None = None
    extra: Pieces = Pieces()
    mats: MatWish = MatWish()
    cards: CardWishes = CardWishes()
    pupils: tuple[Pupil, ...] = ()
    plan: tuple[Task, ...] = ()
    kits: int = 1
    home: bool = False


def contents(wish: KitWish, words: Words) -> Kit:
    """Return what the kit that is wished for holds."""
    parts, cards = wish.parts, wish.cards
    tasks = wish.plan or (_first_week(wish) if "week" in parts else ())
    asked = (task.sum for pupil in wish.pupils for task in pupil.tasks)
    served = (*wish.sums, *asked, *plan_sums(tasks))
    needed = _pieces(wish, served)
    has_cards = "cards" in parts
    has_exchange = has_cards and "exchange" in cards.kinds
    has_mat = "mats" in parts
    first, last = mat_places(wish.sums, plan_sums(tasks), wish.limit) if has_mat else (0, 0)
    beside = Beside(
        cards=has_exchange,
        mat=has_mat,
        week=bool(tasks) and "week" in parts,
        places=first,
        most=last,
        asked=plan_sums(tasks),
        every=wish.limit is not None,
    )
    lessons = _guide(wish, beside, words)
    return Kit(
        sums=wish.sums,
        limit=wish.limit,
        pieces=needed if "pieces" in parts else Pieces(),
        mats=wish.mats if "mats" in parts else None,
        exchange_cards=_exchange_cards(needed, words) if has_exchange else (),
        packs=_packs(wish, words) if has_cards else (),
        cards=cards,
        guide=lessons,
        course=_course(wish, tasks, needed, taught_in(lessons), words),
        first=plan_sums(tasks),
        demonstration=_demonstration(wish, needed, words),
    )


def _guide(wish: KitWish, beside: Beside, words: Words) -> tuple[Lesson, ...]:
    if "guide" not in wish.parts:
        return ()
    return guide(_taught(wish), words, wish.mats.arrangement, beside)


def _demonstration(wish: KitWish, needed: Pieces, words: Words) -> Demonstration | None:
    """Return large pieces for the kit's sums; where it has none, for its examples.

    Its pictures are of the first with the most places, so that they show every column.
    """
    if "demonstration" not in wish.parts:
        return None
    shown = max(_taught(wish), key=lambda sum_: sum_.places)
    return demonstration(needed.most(stock([shown])), shown, words)


def _taught(wish: KitWish) -> tuple[Sum, ...]:
    return wish.sums or wish.examples


def _pieces(wish: KitWish, served: tuple[Sum, ...]) -> Pieces:
    within = stock_within(wish.limit) if wish.limit else Pieces()
    return stock(served).most(within).most(wish.extra)


def _first_week(wish: KitWish) -> tuple[Task, ...]:
    """Return the first week with the first sum that is of a kind on the ladder, if any is.

    A sum of tenths has a week of tenths. With decimals, and with thousands, the family's own sums
    of the lesson's kind come first.
    """
    sums = _taught(wish)
    apart = any(sum_.scale.decimals or sum_.places > 3 for sum_ in sums)
    for lesson in sums:
        tenths = in_tenths([lesson])
        less = 10 if tenths else 1
        forms = {s.per(less): s.scale for s in sums if in_tenths([s]) is tenths}
        bare = lesson.per(less)
        own = tuple(s for s in forms if apart and rung_of(s) == rung_of(bare))
        pieces = _pieces(wish, wish.sums)
        needed = (pieces.moved if tenths else pieces).most(stock([bare, *own]))
        if apart and not (wish.limit or tenths):  # more tenths would need a larger mat
            needed = varied(needed)
        try:
            tasks = week(bare, needed, own).tasks
        except NoSumError:
            continue
        return tuple(
            replace(task, item=task.item.times(less).counted(forms.get(task.item, lesson.scale)))
            if isinstance(task.item, Sum)
            else task
            for task in tasks
        )
    return ()


def _packs(wish: KitWish, words: Words) -> tuple[Pack, ...]:
    if wish.pupils:
        return pupil_packs(wish.pupils, wish.cards, words)
    asked = () if wish.plan else wish.sums  # a plan's sums stand on its worksheets
    return (kit_pack(asked, wish.cards, words),)


def _course(
    wish: KitWish,
    tasks: tuple[Task, ...],
    pieces: Pieces,
    lessons: Mapping[Kind, str],
    words: Words,
) -> CoursePages:
    """Return the pages of the week or plan, and those that only adults read."""
    # at home a week's sums stand together, as those of a family do, and so does their key
    daily = bool(wish.plan) and wish.kits > 1 and not wish.home
    asked = tasks if "week" in wish.parts else ()
    weeks = week_pages(asked, words, lessons, alike=not wish.plan)
    sheets, keys = worksheets(asked, words, daily=daily, pieces=pieces)
    taught = _taught(wish)
    home = wish.home and "guide" in wish.parts
    return CoursePages(
        weeks,
        sheets,
        keys,
        road=_road(wish, tasks, pieces, words),
        slips=max(1, sum(not week.later for week in weeks)) if wish.home else 0,
        differently=home or "differently" in wish.parts,
        evening=evening(taught, words, wish.mats.arrangement) if "evening" in wish.parts else None,
        outline=outline_page(taught[0]) if "outline" in wish.parts else None,
    )


def _road(wish: KitWish, tasks: tuple[Task, ...], pieces: Pieces, words: Words) -> Road | None:
    if not {"week", "progress"} & {*wish.parts} or not (tasks or "progress" in wish.parts):
        return None
    # a page of its own tells those who learned another way more
    taught = "guide" in wish.parts and not (wish.home or "differently" in wish.parts)
    known = plan_sums(tasks)
    found = road(wish.sums, known, pieces, words)
    if "guide" in wish.parts:
        weeks = bool(wish.plan) and not in_tenths(known)  # weeks of tenths bring no other kind
        found = without_lesson(found, (*_taught(wish), *known), words, weeks=weeks)
    return replace(found, taught=taught, checked=bool(wish.plan))


def _exchange_cards(needed: Pieces, words: Words) -> tuple[ExchangeCard, ...]:
    return tuple(
        ExchangeCard(place, words(f"exchange.{PLACES[place]}"))
        for place in ((2, 1) if words.scale.decimals else (3, 2, 1))
        if needed.counts[place] and needed.counts[place - 1]
    )
