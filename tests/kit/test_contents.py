"""What a kit holds, in numbers reckoned by hand: its parts, cards and advice, and wishes for it."""

import pytest

from kitbuilder.design import load as designs
from kitbuilder.errors import RefusedError
from kitbuilder.kit.card_packs import answer, arrow_numbers, kit_pack, pupil_packs
from kitbuilder.kit.card_records import Answer, CardWishes, Pupil, Task
from kitbuilder.kit.kit_contents import KitWish, contents
from kitbuilder.kit.lesson.script import Taught
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.phrases import mistake
from kitbuilder.kit.records import CutWish, EstimateWish, Kit
from kitbuilder.kit.tonight import mini_contents
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.mistakes.foreseen import foreseen

WORDS = designs.words()
ALL = ("pieces", "mats", "cards", "guide")
NOTHING = Pieces()


def kit(*sums: Sum, parts: tuple[str, ...] = ALL, wishes: CardWishes = CardWishes()) -> Kit:
    return contents(KitWish(sums, parts, (Sum(43, 17),), cards=wishes), WORDS)


@pytest.mark.parametrize(
    ("sum_", "sources"),
    [
        # A card for each piece that may be exchanged, hundreds first. 71 − 48 has tens alone;
        # 9 − 4 ones alone, which nothing is exchanged for.
        (Sum(634, 258), [2, 1]),
        (Sum(71, 48), [1]),
        (Sum(9, 4), []),
    ],
    ids=str,
)
def test_an_exchange_card_for_each_piece_but_ones(sum_: Sum, sources: list[int]) -> None:
    cards = kit(sum_).exchange_cards
    assert [card.source for card in cards] == sources
    assert [card.text for card in cards] == [
        WORDS(f"exchange.{('tens', 'hundreds')[source - 1]}") for source in sources
    ]
    assert kit(sum_, wishes=CardWishes(kinds=("tasks",))).exchange_cards == ()
    assert kit(sum_, parts=("pieces",)).exchange_cards == ()


def test_only_the_parts_named_are_filled() -> None:
    full, none = kit(Sum(71, 48), parts=(*ALL, "progress")), kit(Sum(71, 48), parts=())
    assert full.pieces == Pieces(11, 7) and full.mats == MatWish()
    assert full.packs and len(full.guide) == 3 and full.course.road and not full.course.weeks
    assert none == Kit((Sum(71, 48),), None, NOTHING, None, (), (), CardWishes(), ())


def test_without_sums_the_guide_has_an_example_and_arrows_go_to_hundreds() -> None:
    # A kit for any sum below a number has no sum of its own. Arrow cards: nine of each place.
    wishes = CardWishes(kinds=("arrows",))
    bare = contents(KitWish((), ALL, (Sum(42, 17),), limit=1000, cards=wishes), WORDS)
    assert [len(pack.arrows) for pack in bare.packs] == [27]
    lesson = bare.guide[0]
    assert isinstance(lesson, Taught)
    assert lesson.title == WORDS("guide_pages.first", sum=Sum(42, 17))
    assert (len(arrow_numbers(2)), len(arrow_numbers(4))) == (27, 36)
    sheet = kit_pack((), CardWishes(kinds=("record",)), WORDS).record
    assert sheet is not None and len(sheet.headings) == 3


def test_a_pupil_has_a_name_and_something_to_do() -> None:
    for name, tasks in (("", (Task(Sum(71, 48)),)), ("Ada", ())):
        with pytest.raises(ValueError, match="Pupil needs"):
            Pupil(name, tasks)
    with pytest.raises(ValueError, match=r"Task\.stage"):
        Task(Sum(71, 48), "x")  # type: ignore[arg-type]


def test_the_mini_kit_tells_first_what_is_needed_most() -> None:
    # Turned digits come first, for they come most often; when to go on comes last.
    said = mini_contents(Sum(71, 48), MatWish(), CardWishes(), WORDS).help
    slots = {"answer": 37, "whole": 71}
    assert said == (WORDS("mini.turned", **slots), WORDS("mini.wrong"), WORDS("mini.on"))
    # Each column turned, 634 − 258 is 424.
    first = mini_contents(Sum(634, 258), MatWish(), CardWishes(), WORDS).help[0]
    slots = {"answer": 424, "whole": 634}
    assert first == WORDS("mini.turned", **slots)


def test_of_the_foreseen_wrong_answers_three_are_told_likeliest_first() -> None:
    # 604 − 167 has more: the adult's box has room for three.
    likely = foreseen(Sum(604, 167))
    assert len(likely) > 3
    wrong = answer(Sum(604, 167), WORDS).wrong
    assert [one.answer for one in wrong] == [one.answer for one in likely[:3]]
    names = [mistake(WORDS, one.keys[0], Sum(604, 167)) for one in likely[:3]]
    assert "1 ten and 1 hundred not put back" in names
    assert [one.name for one in wrong] == names
    # 143 − 28: turned digits and a column not lowered both give 125; turned is the likelier.
    assert answer(Sum(143, 28), WORDS).wrong[0].name == WORDS("mistake.turned.name")
    with pytest.raises(ValueError, match="holds 4 answers"):
        Answer(Sum(604, 167), (), (), "", (*wrong, wrong[0]))


def test_a_pack_is_answered_first_with_the_mistakes_that_it_practises() -> None:
    # "The zero stayed ten" was practised, and its 344 was not among the answers to look for
    own = (("zero-becomes-ten", None),)
    ada = Pupil("Ada", (Task(Sum(702, 368), practises=own),))
    ben = Pupil("Ben", (Task(Sum(702, 368), practises=(("turned", 0),)),))
    for pack, child in zip(pupil_packs((ada, ben), CardWishes(), WORDS), (0, 1), strict=True):
        wrong = pack.answers[0].wrong
        first = [(344, "the zero stayed ten"), (346, "smaller from larger (in the ones only)")]
        assert len(wrong) == 3  # the one answer on the pages knows both children's
        assert {(int(one.answer), one.name) for one in wrong[:2]} == {*first}
        assert wrong[0].answer == first[child][0]
    assert pupil_packs((ada,), CardWishes(), WORDS)[0].why == "Practises: the zero stayed ten."


def test_a_card_is_headed_and_answered_apart_unless_it_is_wished_otherwise() -> None:
    (card,) = kit_pack((Sum(71, 48),), CardWishes(), WORDS).tasks
    assert card.headings == (WORDS("column.ones"), WORDS("column.tens")) and card.back is None


@pytest.mark.parametrize(
    ("kits", "layers", "spares", "good"),
    [
        (1, 1, 0, True),  # the least of each
        (0, 1, 0, False),
        (1, 0, 0, False),
        (1, 1, -0.5, False),
        (1, 1, 100, True),  # as many again
        (1, 1, 100.5, False),
        (200, 20, 0, True),  # the most
        (201, 1, 0, False),
        (1, 21, 0, False),
    ],
)
def test_a_wish_for_cutting_is_checked(kits: int, layers: int, spares: float, good: bool) -> None:
    if good:
        assert CutWish(kits, layers, spares=spares).kits == kits
        return
    with pytest.raises(RefusedError, match=r"--(kits|layers|spares) was "):
        CutWish(kits, layers, spares=spares)


def test_a_wish_for_an_estimate_is_checked() -> None:
    assert EstimateWish(0.5).cuts_per_minute == 0.5  # slow, but a pace
    for pace in (0.0, -0.5, 1001):
        with pytest.raises(RefusedError, match="cuts_per_minute"):
            EstimateWish(pace)
    # Unless it is wished otherwise: one kit, sheet by sheet, none to spare, four cuts a minute.
    usual = CutWish()
    assert (usual.kits, usual.layers, usual.same_sheets, usual.spares) == (1, 1, False, 0)
    assert EstimateWish().cuts_per_minute == 4


def test_a_lesson_says_what_of_the_mat_it_leaves_empty() -> None:
    # Two digits on a kit's only mat, which has hundreds; a week has a mat of its own for them.
    more = WORDS("guide_pages.mat_more", places=WORDS("place.hundreds"))
    two, three = Sum(43, 17), Sum(305, 148)
    for wish, said in (
        (KitWish((two, three), ("mats", "guide"), (two,)), True),
        (KitWish((two, three), ("mats", "guide", "week"), (two,)), False),
        (KitWish((two, three), ("guide",), (two,)), False),
        (KitWish((two,), ("mats", "guide"), (two,)), False),
        (KitWish((three, two), ("mats", "guide"), (two,)), False),
    ):
        lesson = contents(wish, WORDS).guide[0]
        assert isinstance(lesson, Taught) and (more in lesson.lead) is said


@pytest.mark.parametrize(
    ("whole", "part", "empty"), [(350, 170, "hundredths"), (300, 147, ""), (43, 17, "")]
)
def test_of_decimals_a_lesson_names_the_places_that_its_sum_is_without(
    whole: int, part: int, empty: str
) -> None:
    # 3.5 − 1.7 has ones and tenths, 0.43 − 0.17 has a 0 before the point.
    sum_ = Sum(whole, part, WORDS.decimal.scale)
    lesson = contents(KitWish((sum_,), ("mats", "guide"), (sum_,)), WORDS.decimal).guide[0]
    more = WORDS("guide_pages.mat_more", places=empty)
    assert isinstance(lesson, Taught)
    assert lesson.lead == WORDS("guide_pages.lead") + (f" {more}" if empty else "")
