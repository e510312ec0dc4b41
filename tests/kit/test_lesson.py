"""The guide's lesson: what is numbered, looked at, named and drawn, reckoned by hand."""

from kitbuilder.design import load as designs
from kitbuilder.kit.course.onward import onward
from kitbuilder.kit.lesson.lessons import guide, lesson_steps, progress
from kitbuilder.kit.lesson.scenes import parts_scene, scenes, short_scene, through_ten_scenes
from kitbuilder.kit.lesson.script import taught
from kitbuilder.kit.records import Blanks, Block, Say, Scene, Shown
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.facts import Fact
from kitbuilder.number.steps import steps

WORDS = designs.words()
NOTHING = Pieces()


def test_the_lesson_is_the_first_sums() -> None:
    stages = guide((Sum(71, 48), Sum(634, 258)), WORDS)
    title = WORDS("guide_pages.first", sum=Sum(71, 48))
    assert stages[0] == (taught(Sum(71, 48), title, WORDS),)
    assert stages[1][0] == Say("title", WORDS("guide.write", sum=Sum(71, 48)))


def markers(blocks: tuple[Block, ...]) -> list[str]:
    found = [block.marker for block in blocks if isinstance(block, Say | Shown)]
    return [marker for marker in found if marker[:1].isdigit()]


def test_steps_are_numbered_from_one() -> None:
    # 71 − 48 is built, exchanged for once, taken from in two columns and read, with a look at
    # the ones before the exchange and, to end, together, back and check.
    _, writing, _ = guide((Sum(71, 48),), WORDS)
    lesson = lesson_steps(Sum(71, 48), WORDS)
    for blocks, count in ((lesson, 9), (writing, 5)):
        assert markers(blocks) == [f"{n}." for n in range(1, count + 1)]
    page = onward((Sum(71, 48),), Pieces(11, 7), WORDS, checked=True).blocks
    count = len(WORDS.lines("plan.check_steps"))
    assert markers(page) == [f"{n}." for n in range(1, count + 1)]


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
