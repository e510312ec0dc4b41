"""What a kit holds, in numbers reckoned by hand: its cards, scenes, advice and plan."""

import pytest

from kitbuilder import designs
from kitbuilder.kit.advice import wrong_page
from kitbuilder.kit.card_records import Answer, CardWishes, Pupil, Task
from kitbuilder.kit.cards import answer, arrow_numbers, kit_pack
from kitbuilder.kit.contents import contents
from kitbuilder.kit.guide import guide, lesson_steps, progress
from kitbuilder.kit.mats import MatWish
from kitbuilder.kit.mini import mini_contents
from kitbuilder.kit.plan_page import plan_page
from kitbuilder.kit.records import Blanks, Block, CutWish, EstimateWish, Kit, Say, Scene, Shown
from kitbuilder.kit.scenes import parts_scene, scenes, short_scene, through_ten_scenes
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.facts import Fact
from kitbuilder.number.mistakes import foreseen
from kitbuilder.number.steps import steps
from kitbuilder.plan_file import read_plan

WORDS = designs.words()
ALL = ("pieces", "mats", "cards", "guide")
NOTHING = Pieces()


def kit(*sums: Sum, parts: tuple[str, ...] = ALL, wishes: CardWishes = CardWishes()) -> Kit:
    return contents(sums, None, NOTHING, MatWish(), parts, Sum(42, 17), WORDS, wishes)


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
    assert full.packs and len(full.guide) == 4 and full.progress and not full.plan
    assert none == Kit((Sum(71, 48),), None, NOTHING, None, (), (), CardWishes(), (), ())


def test_without_sums_the_guide_has_an_example_and_arrows_go_to_hundreds() -> None:
    # A kit for any sum below a number has no sum of its own. Arrow cards: nine of each place.
    wishes = CardWishes(kinds=("arrows",))
    bare = contents((), 1000, NOTHING, MatWish(), ALL, Sum(42, 17), WORDS, wishes)
    assert [len(pack.arrows) for pack in bare.packs] == [27]
    assert bare.guide[1][0] == Say("title", WORDS("guide.lesson", sum=Sum(42, 17)))
    assert (len(arrow_numbers(2)), len(arrow_numbers(4))) == (27, 36)
    sheet = kit_pack((), CardWishes(kinds=("record",)), WORDS).record
    assert sheet is not None and len(sheet.headings) == 3


def test_the_lesson_is_the_first_sums() -> None:
    stages = guide((Sum(71, 48), Sum(634, 258)), WORDS)
    assert stages[1][0] == Say("title", WORDS("guide.lesson", sum=Sum(71, 48)))
    assert stages[2][0] == Say("title", WORDS("guide.write", sum=Sum(71, 48)))


def markers(blocks: tuple[Block, ...]) -> list[str]:
    found = [block.marker for block in blocks if isinstance(block, Say | Shown)]
    return [marker for marker in found if marker[:1].isdigit()]


def test_steps_are_numbered_from_one() -> None:
    # Five things to do before; 71 − 48 is built, exchanged for once, taken from in two columns
    # and read, with a look at the ones before the exchange and, to end, together, back and check.
    before, lesson, writing, _ = guide((Sum(71, 48),), WORDS)
    for blocks, count in ((before, 5), (lesson, 9), (writing, 5)):
        assert markers(blocks) == [f"{n}." for n in range(1, count + 1)]
    row = "2027-01-11,1,1,practice,pieces,71,48,300\n"
    plan = plan_page(read_plan("date,week,day,phase,kind,whole,part,seconds\n" + row), WORDS)
    count = len(WORDS.lines("plan.check_steps"))
    assert markers(plan) == [f"{n}." for n in range(1, count + 1)]


def test_what_to_do_when_it_goes_well_is_told_for_each_stage() -> None:
    # Pieces, both, written, and later in the year, each with what its words hold.
    said = [block for block in guide((Sum(71, 48),), WORDS)[0] if isinstance(block, Say)]
    on = said[next(k for k, one in enumerate(said) if one.text == WORDS("guide.on")) :]
    stages = ("pieces", "both", "written", "later")
    expected = ["heading"]
    for stage in stages:
        expected += ["under", *("step" for _ in WORDS.lines(f"guide.on_{stage}_lines"))]
    assert [one.style for one in on] == expected


def test_the_lesson_looks_at_each_column_that_is_short_just_before() -> None:
    # 634 − 258: 8 ones are wanted where 4 lie; those taken, 5 tens where 2 lie.
    looks = [s.scene for s in lesson_steps(Sum(634, 258), WORDS) if "Not enough yet" in s.said[-1]]
    assert looks == [
        Scene(Pieces(4, 3, 6), ghosts=Pieces(4)),
        Scene(Pieces(6, 2, 6), Pieces(8), ghosts=Pieces(0, 3)),
    ]


def test_the_zones_are_named_where_there_is_something_to_name() -> None:
    # On two zones what is left stays in the zone of the whole; on three it has its own.
    whole, part, left = (WORDS(f"scene.{key}") for key in ("whole", "part", "left"))

    def labels(step: Shown) -> tuple[str, str, str]:
        return step.scene.whole_label, step.scene.part_label, step.scene.rest_label

    none = ("", "", "")
    # build, look, exchange, take, take, parts, together, back, check
    two = [labels(step) for step in lesson_steps(Sum(71, 48), WORDS)]
    apart = (left, part, "")
    assert two == [(whole, part, ""), *[none] * 4, apart, none, none, (whole, "", "")]
    three = [labels(step) for step in lesson_steps(Sum(71, 48), WORDS, "three")]
    named = (whole, part, left)
    assert three == [named, *[none] * 4, named, none, none, (whole, "", "")]


def test_what_is_said_of_zones_goes_with_the_mat() -> None:
    for arrangement, key in (("two", "lesson.take"), ("three", "lesson.take_three")):
        told = lesson_steps(Sum(71, 48), WORDS, arrangement)  # type: ignore[arg-type]
        assert told[3].said == WORDS.lines(key, count="8 ones", place="ones")
        # nothing is said otherwise of an exchange
        exchange = {"source": "ten", "target": "ones", "pieces": "6 tens and 11 ones"}
        assert told[2].said == WORDS.lines("lesson.exchange", whole=71, **exchange)


def test_a_page_of_progress_is_for_four_weeks_of_five_days() -> None:
    (rows,) = (block.rows for block in progress(WORDS) if isinstance(block, Blanks))
    assert rows == 20


def test_a_pupil_has_a_name_and_something_to_do() -> None:
    for name, tasks in (("", (Task(Sum(71, 48)),)), ("Ada", ())):
        with pytest.raises(ValueError, match="Pupil needs"):
            Pupil(name, tasks)
    with pytest.raises(ValueError, match=r"Task\.stage"):
        Task(Sum(71, 48), "x")  # type: ignore[arg-type]


def test_writing_tells_the_marks_of_each_exchange() -> None:
    # 305 − 148: a hundred goes, so 3 is 2 and 0 is 10; of those ten tens one goes, 9, and the
    # ones are 15. Then 15 − 8 = 7, 9 − 4 = 5, 2 − 1 = 1.
    said = [
        block.said[0] for block in guide((Sum(305, 148),), WORDS)[2] if isinstance(block, Shown)
    ]
    hundred, ten = said[1], said[2]
    assert "1 hundred was handed in: strike out the hundreds and write 2 above." in hundred
    assert "strike out the tens and write 10." in hundred
    assert "1 ten was handed in: strike out the tens and write 9 above." in ten
    assert "strike out the ones and write 15." in ten
    wrote = [b.said[1] for b in guide((Sum(305, 148),), WORDS)[2] if isinstance(b, Shown)][3:6]
    assert wrote == [
        "Write 7 under the ones.",
        "Write 5 under the tens.",
        "Write 1 under the hundreds.",
    ]
    assert said[3].endswith("Left: 7 ones.") and said[5].endswith("Left: 1 hundred.")


def test_scenes_of_42_less_17_are_as_laid_by_hand() -> None:
    # Build; a ten for ten ones; 7 ones and a ten go over; read; push together; ten ones for a
    # ten; check. What was just laid, and what was just taken away, step by step.
    two = scenes(steps(Sum(42, 17)))
    assert two == (
        Scene(Pieces(2, 4), laid_whole=Pieces(2, 4)),
        Scene(Pieces(12, 3), laid_whole=Pieces(10), ghosts=Pieces(0, 1)),
        Scene(Pieces(5, 3), Pieces(7), laid_part=Pieces(7), ghosts=Pieces(7)),
        Scene(Pieces(5, 2), Pieces(7, 1), laid_part=Pieces(0, 1), ghosts=Pieces(0, 1)),
        Scene(Pieces(5, 2), Pieces(7, 1)),
        Scene(Pieces(12, 3), laid_whole=Pieces(7, 1)),
        Scene(Pieces(2, 4), laid_whole=Pieces(0, 1), ghosts=Pieces(10)),
        Scene(Pieces(2, 4)),
    )
    # On a mat of three zones the rest moves when the part is out, and all of it comes back.
    three = scenes(steps(Sum(42, 17)), "three")
    left = Pieces(5, 2)
    assert three[4] == Scene(
        NOTHING, Pieces(7, 1), ghosts=left, rest=left, laid_rest=left, arrangement="three"
    )
    assert three[5] == Scene(Pieces(12, 3), laid_whole=Pieces(12, 3), arrangement="three")


def test_other_scenes_by_hand() -> None:
    # 13 − 5: three ones to ten, two more, eight left.
    assert through_ten_scenes(Fact(13, 5)) == (
        Scene(Pieces(13)),
        Scene(Pieces(10), ghosts=Pieces(3)),
        Scene(Pieces(8), ghosts=Pieces(2)),
    )
    # 8 hundreds are wanted where 6 lie: 2 lack.
    table = Scene(Pieces(4, 3, 6), Pieces(1))
    assert short_scene(table, 2, 8) == Scene(Pieces(4, 3, 6), Pieces(1), ghosts=Pieces(0, 0, 2))
    # 42 − 17 leaves 25.
    assert parts_scene(Sum(42, 17)) == Scene(Pieces(5, 2), Pieces(7, 1))
    assert parts_scene(Sum(42, 17), "beside") == Scene(
        NOTHING, Pieces(7, 1), rest=Pieces(5, 2), arrangement="beside"
    )


def told(*sums: Sum) -> list[str]:
    return [block.text for block in wrong_page(sums, WORDS) if isinstance(block, Say)]


def test_advice_is_on_the_first_short_column_and_the_first_slip() -> None:
    # 634 − 258 = 376 is short of ones (4 < 8), then of tens. Turned: 424. A slip of one less in
    # the ones, 14 − 8: 375. The last two digits of 376 changed round: 367.
    page = wrong_page((Sum(634, 258),), WORDS)
    headings = told(Sum(634, 258))
    for said in ("424 for 634 − 258", "375 for 634 − 258", "367 for 634 − 258"):
        assert sum(said in heading for heading in headings) == 1
    turned = next(block for block in page if isinstance(block, Shown))
    assert turned.scene.ghosts == Pieces(4)  # 8 ones are wanted, 4 are there
    assert "In the ones the sum has 4 − 8" in turned.said[0]
    slip = next(text for text in headings if "how do you know" in text)
    assert "the ones" in slip and "14 − 8" in slip


@pytest.mark.parametrize(
    ("sum_", "answer"),
    [
        # 634 − 258 = 376; 305 − 148 = 157; 940 − 127 = 813: the hundreds stay where they are.
        (Sum(634, 258), "367 for 634 − 258"),
        (Sum(305, 148), "175 for 305 − 148"),
        (Sum(940, 127), "831 for 940 − 127"),
        (Sum(634, 436), "189 for 634 − 436"),  # 198
        (Sum(390, 189), "210 for 390 − 189"),  # 201
        # Where nothing new comes of it the page's own 53 − 26 = 27 does instead: 52 − 43 leaves
        # 9, a digit alone; 305 − 185 = 120 would end in 02; 93 − 54 = 39 gives the 93 of the
        # sum, and 121 − 65 = 56 its 65.
        (Sum(52, 43), "72 for 53 − 26"),
        (Sum(305, 185), "72 for 53 − 26"),
        (Sum(93, 54), "72 for 53 − 26"),
        (Sum(121, 65), "72 for 53 − 26"),
        (Sum(42, 27), "51 for 42 − 27"),  # 15
    ],
    ids=str,
)
def test_digits_changed_round(sum_: Sum, answer: str) -> None:
    head = WORDS("advice.order", answer="", sum="").partition(":")[0]
    (said,) = (text for text in told(sum_) if text.startswith(head))
    assert said.endswith(f": {answer}")


def test_the_mini_kit_tells_first_what_is_needed_most() -> None:
    # Turned digits come first, for they come most often; when to go on comes last.
    stage = mini_contents(Sum(71, 48), MatWish(), CardWishes(), WORDS).guide[1]
    said = [block.text for block in stage if isinstance(block, Say)]
    slots = {"answer": 37, "whole": 71, "count": "8 ones", "place": "ones"}
    assert said == [WORDS("mini.turned", **slots), WORDS("mini.wrong"), WORDS("mini.on")]
    # Where ones and tens are short, the ones are met first: 634 − 258 turned is 424.
    first = mini_contents(Sum(634, 258), MatWish(), CardWishes(), WORDS).guide[1][0]
    slots = {"answer": 424, "whole": 634, "count": "8 ones", "place": "ones"}
    assert isinstance(first, Say) and first.text == WORDS("mini.turned", **slots)


def test_of_the_foreseen_wrong_answers_three_are_told_likeliest_first() -> None:
    # 604 − 167 has more: the adult's box has room for three.
    likely = foreseen(Sum(604, 167))
    assert len(likely) > 3
    wrong = answer(Sum(604, 167), WORDS).wrong
    assert [one.answer for one in wrong] == [one.answer for one in likely[:3]]
    assert [one.text for one in wrong] == [WORDS(f"wrong.{one.keys[0]}") for one in likely[:3]]
    # 143 − 28: turned digits and a column not lowered both give 125; turned is the likelier.
    assert answer(Sum(143, 28), WORDS).wrong[0].text == WORDS("wrong.turned")
    with pytest.raises(ValueError, match="holds 4 answers"):
        Answer(Sum(604, 167), (), (), (*wrong, wrong[0]))


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
    ],
)
def test_a_wish_for_cutting_is_checked(kits: int, layers: int, spares: float, good: bool) -> None:
    if good:
        assert CutWish(kits, layers, spares=spares).kits == kits
        return
    with pytest.raises(ValueError, match="CutWish"):
        CutWish(kits, layers, spares=spares)


def test_a_wish_for_an_estimate_is_checked() -> None:
    assert EstimateWish(0.5).cuts_per_minute == 0.5  # slow, but a pace
    for pace in (0.0, -0.5):
        with pytest.raises(ValueError, match="cuts_per_minute"):
            EstimateWish(pace)
    # Unless it is wished otherwise: one kit, sheet by sheet, none to spare, four cuts a minute.
    usual = CutWish()
    assert (usual.kits, usual.layers, usual.same_sheets, usual.spares) == (1, 1, False, 0)
    assert EstimateWish().cuts_per_minute == 4
