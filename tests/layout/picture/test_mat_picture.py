"""The picture of a mat, however its zones lie."""

import pytest
from zones import lay_zones

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.kit.lesson.mat_scenes import Pile
from kitbuilder.kit.lesson.script import script
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.layout.parts.contents import Line, SmallPieces
from kitbuilder.layout.picture.frame_needs import Most
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture
from kitbuilder.layout.picture.piles import laid, spots
from kitbuilder.number import Sum


def test_what_was_built_is_told_over_the_whole_wherever_it_lies(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    lay_zones(monkeypatch, "two", (("part",), ("whole",)))
    style = Style(designs.paper("a4"), designs.words(), designs.look())
    scene = next(step.scene for step in script(Sum(43, 17), style.words) if step.scene.outcome)
    frame = mat_frame((scene,), 90.0, style)
    assert frame is not None
    items = mat_picture(scene, frame, style).items
    told = next(i.rect for i in items if getattr(i.content, "text", "") == scene.outcome)
    part, whole = frame.zone("part"), frame.zone("whole")
    assert part.y + part.height < told.y + told.height / 2 < whole.y


def test_a_frame_that_was_asked_for_before_is_not_looked_for_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    style = Style(designs.paper("a4"), designs.words(), designs.look())
    scenes = [step.scene for step in script(Sum(85, 47), style.words)]
    first = mat_frame(scenes, 91.0, style, high=70.0)
    monkeypatch.delattr(Most, "of")
    assert first is not None and mat_frame(tuple(scenes), 91.0, style, high=70.0) is first


def test_a_zone_of_ones_is_lower_in_large_type_or_beside_another_where_pieces_grow() -> None:
    ways: list[tuple[str, Arrangement, bool]] = [
        ("plain", "two", False),
        ("plain", "beside", True),
        ("bold", "two", True),
    ]
    for look, arrangement, lower in ways:
        style = Style(designs.paper("a4"), designs.words(), designs.look(look))
        scenes = [step.scene for step in script(Sum(43, 17), style.words, arrangement)[:2]]
        frame = mat_frame(scenes, 123.0, style, high=85.0)
        assert frame is not None
        assert (frame.zone("part").height < 10 * frame.unit) == lower, look
        roomy = mat_frame(scenes, 123.0, style)
        assert roomy is not None
        assert roomy.zone("part").height > 10 * roomy.unit, look


def test_a_gone_hundred_under_others_is_struck_inside_its_column() -> None:
    style = Style(designs.paper("a4"), designs.words(), designs.look("bold"))
    ends = []
    for step in script(Sum(305, 148), style.words):
        frame = mat_frame((step.scene,), 180.0, style)
        assert frame is not None
        column = frame.zone("whole").columns[2]
        for item in mat_picture(step.scene, frame, style).items:
            if isinstance(item.content, SmallPieces):
                right = column.x + column.width - item.rect.x
                ends += [right - slash.right for slash in item.content.slashes]
    assert ends
    assert min(ends) > 0.3


def test_gone_hundreds_are_struck_each_where_it_is_seen() -> None:
    # the slashes of those below crossed the front one, as if that were struck seven times
    style = Style(designs.paper("a4"))
    scenes = [step.scene for step in script(Sum(4002, 1768), style.words)]
    frame = mat_frame(scenes, 180.0, style)
    assert frame
    below = frame.zone("part").y
    (gone,) = (
        item.content
        for item in mat_picture(scenes[-2], frame, style).items
        if isinstance(item.content, SmallPieces)
        and item.rect.y > below
        and item.content.slashes[1:]
    )
    *covered, front = gone.slashes
    assert len(covered) == 6 and front == gone.rects[-1]
    for slash, rect, over in zip(covered, gone.rects, gone.rects[1:], strict=False):
        assert rect.x <= slash.x < slash.right <= over.x + 1e-6 and slash.bottom < rect.bottom


@pytest.mark.parametrize("place", [2, 3])
def test_what_is_taken_out_lies_under_what_stays(place: int) -> None:
    runs = laid(Pile(here=2, gone=1), place, under=True, gap=0.5)
    assert [state for state, _ in runs] == ["gone", "here"]  # laid in this order
    (gone,), stay = runs[0][1], runs[1][1]
    assert gone.right > stay[-1].right + 0.5, "it is seen past them"


def test_new_tens_lie_apart_from_those_that_lay_there() -> None:
    # in a poor copy their outlines alone hardly told them apart
    style = Style(designs.paper("a4"))
    scenes = [step.scene for step in script(Sum(431, 257), style.words)]
    frame = mat_frame(scenes, 87.5, style, least=2.2)
    assert frame is not None
    apart = []
    for scene in (scenes[4], scenes[6]):  # ten are fetched; those taken out come back
        pieces = [i for i in mat_picture(scene, frame, style).items if i.what == "small_pieces"]
        tens = {
            i.content.state: (i.rect.x, i.rect.right)
            for i in pieces
            if isinstance(i.content, SmallPieces)
            and i.content.rects[0].height > 5 * i.content.rects[0].width
            and i.rect.y < frame.zone("whole").height
        }
        first, then = sorted((tens["new"], tens["here"]))
        apart.append(then[0] - first[1])
    assert min(apart) > 3 * frame.gap * frame.unit


def test_a_new_ten_lies_apart_in_a_full_column_and_the_ring_by_it_touches_none() -> None:
    # 431 again: of 13 tens ten go, and the last of the three that stay is new
    pile = Pile(here=2, new=1, gone=10, looped=True)
    room = spots(1, 13, under=True, gap=0.2)[-1].right
    runs = dict(laid(pile, 1, under=True, gap=0.2, room=room))
    (new,), here, gone = runs["new"], runs["here"], runs["gone"]
    assert min(new.x - here[-1].right, here[0].x - gone[-1].right) > 2 * 0.2
    assert new.right < room + 1e-4


@pytest.mark.parametrize("place", [0, 1])
def test_ten_that_are_brought_lie_where_their_arrow_ends(place: int) -> None:
    # it ended at those that lay there before, as if it had brought them
    runs = dict(laid(Pile(here=3, new=10), place, under=True, gap=0.3, room=20))
    assert min((r.y, r.x) for r in runs["here"]) > max((r.y, r.x) for r in runs["new"])
    some = dict(laid(Pile(here=3, new=5), place, under=True, gap=0.3))
    assert some["here"][0].x == some["here"][0].y == 0, "pieces that stay stay where they are"


def test_new_hundreds_lie_apart_where_there_is_room() -> None:
    pile = Pile(here=1, new=2)
    steps = []
    for room in (12, 11):
        (_, (old,)), (_, (new, _)) = laid(pile, 2, under=True, gap=0.3, room=room)
        steps.append(new.x - old.x)
    assert steps[0] == 2 * steps[1]


@pytest.mark.parametrize("width", [90.0, 140.0])
def test_what_stays_is_seen_beside_the_ring_over_it(width: float) -> None:
    # the ring lay on the edge of a hundred that stays: one alone seemed to be there, struck
    style = Style(designs.paper("a4"))
    scene = script(Sum(231, 157), style.words)[4].scene
    frame = mat_frame((scene,), width, style, high=75.0)
    assert frame
    items = mat_picture(scene, frame, style).items
    (loop,) = (i.rect for i in items if i.what == "loop")
    stays = min((i.rect for i in items if i.what == "small_pieces"), key=lambda rect: rect.x)
    half = style.look.lines_mm.loop / 2
    assert min(loop.x - stays.x, loop.y - stays.y) - half > 0.3
    assert (loop.x - stays.x > 0.9 * frame.unit) == (width > 90), "further, if it can"


def test_a_third_is_seen_of_the_thousand_that_stays_where_one_is_exchanged() -> None:
    # a strip of it beside the one exchanged seemed to be that one's layers
    style = Style(designs.paper("letter"), designs.words("es"))
    scenes = [step.scene for step in script(Sum(2000, 764), style.words)]
    frame = mat_frame(scenes, 90.0, style)
    assert frame
    items = mat_picture(scenes[2], frame, style).items
    (loop,) = (i.rect for i in items if i.what == "loop")
    stays = min((i.rect for i in items if i.what == "small_pieces"), key=lambda rect: rect.x)
    assert loop.y - style.look.lines_mm.loop / 2 - stays.y > 3 * frame.unit
    zone = frame.zone("whole")
    assert loop.bottom < zone.y + zone.height - frame.heights.digits


def test_numbers_under_columns_have_their_decimal_point() -> None:
    words = designs.words("es").counting(2)
    style = Style(designs.paper("a4"), words, designs.look())
    sum_ = Sum(320, 147, words.scale)
    scene = script(sum_, words)[0].scene
    frame = mat_frame((scene,), 90.0, style)
    assert frame is not None
    items = mat_picture(scene, frame, style).items
    points = [i for i in items if getattr(i.content, "text", "") == ","]
    ones = frame.zone("whole").columns[2]
    assert [round(i.rect.x + i.rect.width / 2, 3) for i in points] == [
        round(ones.x + ones.width, 3)
    ]


@pytest.mark.parametrize("look", ["plain", "bold"])
def test_a_loop_lies_on_no_other_piece_and_on_no_edge_of_its_column(look: str) -> None:
    style = Style(designs.paper("a4"), designs.words(), designs.look(look))
    half, loops = style.look.lines_mm.loop / 2, 0
    for sum_, width in ((Sum(43, 17), 62.0), (Sum(305, 148), 85.0), (Sum(634, 258), 122.0)):
        for step in script(sum_, style.words):
            frame = mat_frame((step.scene,), width, style)
            items = mat_picture(step.scene, frame, style).items if frame else ()
            others = [item.rect for item in items if item.what == "divider"]
            for item in items:
                if isinstance(item.content, SmallPieces):
                    rects = (rect.moved(item.rect.x, item.rect.y) for rect in item.content.rects)
                    others += (r for r in rects if r.width < 7)  # hundreds lie on each other
            for loop in (item.rect for item in items if item.what == "loop"):
                loops += 1
                inside = loop.inset(-0.01)
                assert all(inside.holds(r) or not loop.inset(-half).overlaps(r) for r in others)
    assert loops > 5


@pytest.mark.parametrize(
    ("sum_", "tenth"), [(Sum(604, 167), [0, 1, 0]), (Sum(4002, 1768), [0, 1, 1, 0])], ids=str
)
def test_a_tenth_that_is_just_laid_down_and_exchanged_is_seen_to_be_new(
    sum_: Sum, tenth: list[int]
) -> None:
    # nine are told below and ten are struck: it looked like the nine that lay there
    style = Style(designs.paper("a4"), designs.words(), designs.look())
    scenes = [step.scene for step in script(sum_, style.words)]
    assert [pile.passing for pile in scenes[-1].zones[0].piles] == tenth
    frame = mat_frame(scenes, 180.0, style)
    assert frame
    shown = [i.content for i in mat_picture(scenes[-1], frame, style).items]
    pieces = [p for p in shown if isinstance(p, SmallPieces) and p.state == "gone"]
    assert [p.passing for p in pieces] == tenth[:-1]
    struck = [c.text for c in shown if isinstance(c, Line) and c.struck]
    assert struck.count("9") == sum(tenth) and struck.count("10") >= sum(tenth)  # then 0


def test_the_ring_of_ten_tens_runs_below_their_lower_edge() -> None:
    # it ran along that and hid it: they seemed to have no end
    style = Style(designs.paper("a4"), designs.words(), designs.look())
    scenes = [step.scene for step in script(Sum(604, 167), style.words)]
    frame = mat_frame(scenes, 90.0, style, least=1.7)
    assert frame
    items = mat_picture(scenes[-1], frame, style).items
    bottoms = {i.rect.bottom for i in items if getattr(i.content, "state", "") == "gone"}
    rings = [i.rect for i in items if i.what == "loop"]
    half = style.look.lines_mm.loop / 2
    assert all(any(0 < ring.bottom - half - low < 1 for low in bottoms) for ring in rings)


def test_numbers_of_low_zones_stand_under_each_other_near_the_middle_of_their_columns() -> None:
    # the first stood at its column's end, at another place in each row, the others in the middle
    style = Style(designs.paper("a4"), designs.words(), designs.look())
    parted = writing((Sum(634, 258),), style.words, "three").moves[-1].parted
    assert parted
    frame = mat_frame((parted.scene,), 106.0, style)
    assert frame
    items = mat_picture(parted.scene, frame, style).items
    said = {i.content.text: i.rect for i in items if isinstance(i.content, Line)}
    column = frame.zone("part").columns[-1]
    assert said["2"].x == said["3"].x
    assert abs(said["2"].x + said["2"].width / 2 - column.number) < 5
