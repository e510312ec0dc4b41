"""Arrows in pictures of the mat: from zone to zone, wherever the zones lie."""

from dataclasses import replace
from itertools import permutations
from typing import Any

import pytest
from grids import WHOLE, pairs, typed
from guards import arrows_under_words, astray_arrows, counts_on_pieces, hiding_numbers
from zones import lay_zones

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.kit import mat_needs
from kitbuilder.kit.lesson.again import again
from kitbuilder.kit.lesson.mat_scenes import MatScene, Pile
from kitbuilder.kit.lesson.moments import counted
from kitbuilder.kit.lesson.script import script
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.kit.mat_needs import BANDS, ZONES, Arrangement, Role
from kitbuilder.layout.lesson.writing_pages import writing_sheets
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.contents import Arrow, Disc, Line, SmallPieces
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import placed_line
from kitbuilder.layout.picture.aside import beside_arrows, letters, name_setting
from kitbuilder.layout.picture.frame_records import Column, Manner, MatFrame, ZoneFrame
from kitbuilder.layout.picture.ground import covered
from kitbuilder.layout.picture.group import Group
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture
from kitbuilder.layout.picture.piles import laid
from kitbuilder.number import Sum
from kitbuilder.press.printing import fitted_paper

STYLE = Style(designs.paper("a4"))
SUMS = (Sum(43, 17), Sum(305, 148), Sum(431, 257))
MANNERS: tuple[Manner, ...] = ("full", "bare")
ROLES: tuple[Role, ...] = ("whole", "part", "rest")


def counts(sum_: Sum, arrangement: Arrangement) -> list[list[str]]:
    """Return what is wrong where the part is a number alone, as where writing begins."""
    scenes = [counted(s.scene) for s in script(sum_, STYLE.words, arrangement)]
    taken = [scene for scene in scenes if any(m.target[0] == "part" for m in scene.moves)]
    frame = mat_frame(taken, 190, STYLE)
    return (
        []
        if frame is None
        else [astray_arrows(x, frame, mat_picture(x, frame, STYLE).items) for x in taken]
    )


def drawn(sum_: Sum, arrangement: Arrangement) -> list[tuple[MatScene, MatFrame, tuple[Item, ...]]]:
    scenes = [step.scene for step in script(sum_, STYLE.words, arrangement)]
    frames = [mat_frame(scenes, 190, STYLE, little=manner) for manner in MANNERS]
    return [
        (scene, frame, mat_picture(scene, frame, STYLE).items)
        for frame in frames
        for scene in scenes
        if frame is not None
    ]


@pytest.mark.parametrize("rows", [(1, 1, 1), (1, 2), (2, 1), (3,)])
@pytest.mark.parametrize("order", list(permutations(ROLES)), ids="-".join)
def test_arrows_end_in_their_zones_wherever_zones_lie(
    order: tuple[Role, ...], rows: tuple[int, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    bands = tuple(order[sum(rows[:k]) : sum(rows[: k + 1])] for k in range(len(rows)))
    lay_zones(monkeypatch, "three", bands)
    beside = any({"part", "rest"} <= {*row} for row in bands)
    one = (list(permutations(ROLES)).index(order) + len(rows) + rows[0]) % len(SUMS)
    for sum_ in SUMS if WHOLE else SUMS[one : one + 1]:
        pictures = drawn(sum_, "three")
        assert [fault for one in pictures for fault in astray_arrows(*one)] == []
        if "whole" in bands[-1] and "part" not in bands[-1]:
            assert [fault for some in counts(sum_, "three") for fault in some] == []
        pushed = [x for x, _, _ in pictures if any(m.target[0] == "whole" for m in x.moves)]
        into = [{m.source[0] for m in x.moves} for x in pushed]
        # both parts beside each other: arrows have room
        assert any("part" in some for some in into) == beside


@pytest.mark.parametrize("arrangement", ZONES)
def test_arrows_of_every_arrangement_end_in_their_zones(arrangement: Arrangement) -> None:
    for sum_ in SUMS:
        faults = [fault for one in drawn(sum_, arrangement) for fault in astray_arrows(*one)]
        assert faults == []


def test_an_arrow_into_another_zone_is_found() -> None:
    scene, frame, items = next(one for one in drawn(SUMS[0], "beside") if one[0].moves)
    assert astray_arrows(scene, frame, items) == []
    moves = tuple(replace(move, target=("rest", 0)) for move in scene.moves)
    wrong = replace(scene, moves=moves)
    assert astray_arrows(wrong, frame, items) == ["the arrow into rest ends elsewhere"]
    assert astray_arrows(scene, frame, ()) == ["0 arrows for 1 moves"]


@pytest.mark.parametrize("arrangement", BANDS)
def test_roles_are_those_of_the_table_the_whole_first(arrangement: Arrangement) -> None:
    found = mat_needs.roles(arrangement)
    assert found[0] == ("together" if arrangement == "add" else "whole")
    assert sorted(found) == sorted(role for row in BANDS[arrangement] for role in row)


LOOKS = typed(("a4", "letter", "a5"))


def turn(ways: list[Any], look: tuple[str, str, str]) -> list[Any]:
    """Return the half of ``ways`` whose turn it is in one of ``LOOKS``: the next has the other."""
    return ways if WHOLE else ways[LOOKS.index(look) % 2 :: 2]


@pytest.mark.parametrize(("paper", "words", "look"), LOOKS)
def test_no_arrow_runs_under_words_or_numbers(paper: str, words: str, look: str) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    width = SheetArea.upright(style.paper).whole.width
    faults = []
    ways = pairs((Sum(71, 48), Sum(634, 258)), ZONES, MANNERS)
    for sum_, arrangement, manner in turn(ways, (paper, words, look)):
        scenes = [step.scene for step in script(sum_, style.words, arrangement)]
        for shown in (scenes, [counted(scene) for scene in scenes[:-2]]):
            frame = mat_frame(shown, width, style, little=manner)
            for scene in shown if frame else ():
                assert frame
                faults += arrows_under_words(mat_picture(scene, frame, style).items)
    assert faults == []


def test_an_arrow_under_a_word_is_found() -> None:
    scene = script(Sum(71, 48), STYLE.words, "two")[1].scene
    frame = mat_frame([scene], 190, STYLE)
    assert frame
    items = mat_picture(scene, frame, STYLE).items
    arrow = next(item for item in items if item.what == "arrow")
    across = placed_line("the whole", settings(STYLE.look).text, arrow.rect.x, arrow.rect.y)
    assert arrows_under_words(items) == []
    assert arrows_under_words((*items, across)) == ["an arrow runs over 'the whole'"]


def test_both_parts_are_seen_to_go_to_the_whole() -> None:
    for sum_ in SUMS:
        pictures = drawn(sum_, "beside")
        pushed = [one for one in pictures if {m.source[0] for m in one[0].moves} > {"part"}]
        assert pushed
        for scene, frame, items in pushed:
            starts = [i.rect.x for i in items if isinstance(i.content, Arrow)]
            zones = [frame.zone(move.source[0]) for move in scene.moves]
            assert all(z.x < x < z.x + z.width for z, x in zip(zones, starts, strict=True))
            assert {zone.role for zone in zones} == {"part", "rest"}


@pytest.mark.parametrize("place", [0, 1])
def test_ten_that_are_exchanged_lie_first(place: int) -> None:
    pile = Pile(3, gone=10, looped=True, count=3, before=13)
    runs = dict(laid(pile, place, under=True, gap=0.3))
    assert max(r.right for r in runs["gone"]) <= min(r.x for r in runs["here"]) or max(
        r.bottom for r in runs["gone"]
    ) <= min(r.y for r in runs["here"])


def test_an_arrow_of_ones_begins_beside_them_however_wide_their_column_is() -> None:
    sum_, words = Sum(634, 258), designs.words()
    scenes = [step.scene for step in script(sum_, words, "beside")]
    style = Style(fitted_paper("a4"), words, designs.look("plain"))
    frame = mat_frame(scenes, 180.0, style, high=110.0, least=1.9)
    assert frame
    for scene in scenes:
        for move in (m for m in scene.moves if m.source[1] == 0 and m.source[0] != m.target[0]):
            alone = replace(scene, moves=(replace(move, asks=False, order=0),))
            items = mat_picture(alone, frame, style).items
            (arrow,) = (i for i in items if isinstance(i.content, Arrow))
            assert isinstance(arrow.content, Arrow)
            x, y = arrow.content.points[0]
            start = arrow.rect.x + x, arrow.rect.y + y
            ones = [i.rect for i in items if i.what == "small_pieces"]
            near = min(
                max(r.x - start[0], start[0] - r.right, r.y - start[1], start[1] - r.bottom)
                for r in ones
            )
            assert near < 6.0


@pytest.mark.parametrize("sum_", [Sum(634, 258), Sum(305, 148)], ids=str)
def test_what_is_pushed_together_goes_from_a_column_into_its_own(sum_: Sum) -> None:
    pictures = [one for one in drawn(sum_, "beside") if {m.every for m in one[0].moves} == {True}]
    assert pictures
    for scene, frame, items in pictures:
        for move, item in zip(
            scene.moves, (i for i in items if isinstance(i.content, Arrow)), strict=True
        ):
            source, target = (
                [
                    k
                    for k, c in enumerate(frame.zone(role).columns)
                    if c.x < item.rect.x < c.x + c.width
                ]
                for role in (move.source[0], move.target[0])
            )
            assert source == target


def test_ones_leave_at_the_piece_furthest_right_not_beside_their_box() -> None:
    gone = (Rect(10, 4, 2, 2), Rect(10, 8, 2, 2), Rect(14, 0, 2, 2))  # the last is an eleventh
    column = Column(0, 40, 10, 20, 40)
    zone = ZoneFrame("whole", 0, 0, 40, 20, (column,), named=True)
    group = Group({"gone": Rect(10, 0, 6, 10)}, None, zone, 0, gone)
    assert group.outermost() == gone[-1]
    assert Group({"gone": Rect(10, 4, 2, 6)}, None, zone, 0, gone[:2]).outermost() in gone[:2]


def test_a_name_stands_close_between_two_arrows_before_it_cuts_one() -> None:
    style = Style(fitted_paper("a5"), look=designs.look("bold"))
    arrows, room = (Rect(9.5, 1, 5.9, 5), Rect(39.7, 1, 5.9, 5)), (0.6, 58.9)
    name = placed_line("the part", name_setting(style), 0.6, 3)
    assert 22.3 < name.rect.width < 23.3  # a millimetre at both sides is not to be had
    there = beside_arrows(name, room, arrows)
    assert 15.9 <= there.rect.x <= 39.2 - name.rect.width
    assert isinstance(there.content, Line) and not there.content.over


def test_an_arrow_of_a_ten_goes_round_those_that_stay() -> None:
    style = Style(fitted_paper("a4"), look=designs.look("bold"))
    crossed = []
    for sheet in writing_sheets(writing((SUMS[0],), style.words), 1, style):
        stay = [
            piece.moved(i.rect.x, i.rect.y)
            for i in sheet.items
            if isinstance(i.content, SmallPieces) and i.content.state == "here"
            for piece in i.content.rects
        ]
        for item in sheet.items:
            if isinstance(item.content, Arrow):
                points = [(item.rect.x + x, item.rect.y + y) for x, y in item.content.points]
                boxes = covered(points, item.content.size)
                crossed += [b for b in boxes for piece in stay if b.overlaps(piece)]
    assert crossed == []


@pytest.mark.parametrize(("paper", "words", "look"), LOOKS)
def test_no_number_of_an_arrow_lies_on_a_piece_or_a_count(
    paper: str, words: str, look: str
) -> None:
    # At the foot of a struck ten it hid how many are struck.
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    width = SheetArea.upright(style.paper).whole.width
    sums = (Sum(634, 258), Sum(305, 148))
    ways = pairs(sums, ZONES, (True, False))
    for sum_, arrangement, whole in turn(ways, (paper, words, look)):
        scenes = [step.scene for step in script(sum_, style.words, arrangement)]
        shown = scenes if whole else [counted(scene) for scene in scenes[:-2]]
        frame = mat_frame(shown, width, style)
        for scene in shown if frame else ():
            assert frame
            items = mat_picture(scene, frame, style).items
            assert hiding_numbers(items) == [] == counts_on_pieces(items)
            discs = sum(isinstance(item.content, Disc) for item in items)
            assert discs == sum(move.order > 0 for move in scene.moves)


@pytest.mark.parametrize("width", [87.5, 140])
@pytest.mark.parametrize("look", ["plain", "bold"])
def test_no_number_of_an_arrow_is_read_as_a_digit_in_narrow_columns(
    width: float, look: str
) -> None:
    # "2" and the disc of a 4 close beside it were read as 24; one touched a hundred's edge.
    style = Style(STYLE.paper, STYLE.words, designs.look(look))
    told = wanted = 0
    for sum_ in (Sum(4002, 1768), Sum(431, 257), Sum(500, 204), Sum(832, 467)):
        scenes = [step.scene for step in script(sum_, style.words, "two")]
        for shown in (scenes, scenes[-1:], [counted(scene) for scene in scenes[:-2]]):
            frame = mat_frame(shown, width, style)
            for scene in shown if frame else ():
                assert frame
                items = mat_picture(scene, frame, style).items
                assert hiding_numbers(items) == [] == counts_on_pieces(items)
                told += sum(isinstance(item.content, Disc) for item in items)
                wanted += sum(move.order > 0 for move in scene.moves)
    assert told > 0.9 * wanted > 0


def test_a_number_of_an_arrow_on_a_piece_is_found() -> None:
    scene = next(s for s in (x.scene for x in script(Sum(305, 148), STYLE.words)) if s.moves[1:])
    frame = mat_frame([scene], 190, STYLE)
    assert frame
    items = mat_picture(scene, frame, STYLE).items
    ten = next(i for i in items if isinstance(i.content, SmallPieces) and i.content.state == "gone")
    disc = next(i for i in items if isinstance(i.content, Disc))
    wrong = disc._replace(rect=disc.rect.moved(ten.rect.x - disc.rect.x, ten.rect.y - disc.rect.y))
    assert len(hiding_numbers((*items, wrong))) == 1
    count = next(i for i in items if i.what == "line" and getattr(i.content, "text", "") == "2")
    near = letters(count).right + 1
    wrong = disc._replace(rect=Rect(near, letters(count).y, disc.rect.width, disc.rect.height))
    assert "is read as a digit of a count" in hiding_numbers((*items, wrong))[-1]


@pytest.mark.parametrize("look", ["plain", "bold"])
def test_the_number_of_an_arrow_does_not_stand_among_numbers(look: str) -> None:
    # Right of "5 3" in the row under hundreds a disc was read as one more digit.
    style = Style(STYLE.paper, STYLE.words, designs.look(look))
    scenes = [s.scene for s in script(Sum(634, 258), style.words)]
    scene = next(s for s in scenes if [m.order for m in s.moves] == [1, 2])
    for shown in (scene, counted(scene)) if look == "bold" else (scene,):
        frame = mat_frame([shown], 140, style, high=100)
        assert frame
        items = mat_picture(shown, frame, style).items
        low = frame.zone("whole").y + frame.zone("whole").height
        discs = [item.rect for item in items if isinstance(item.content, Disc)]
        assert len(discs) == 2
        rows = (low - frame.heights.digits, frame.zone("part").y + 1)
        middles = [disc.y + disc.height / 2 for disc in discs]
        assert all(y < rows[0] or low < y < rows[1] for y in middles), middles


def test_the_name_of_a_zone_without_pieces_stands_above_it_in_large_type() -> None:
    # "la parte 2", name and count in one cell, was read as the second part.
    style = Style(STYLE.paper, designs.words("es"), designs.look("bold"))
    scene = counted(script(Sum(634, 258), style.words)[5].scene)
    for high, above in ((100, True), (60, False)):  # not at the cost of smaller pieces
        frame = mat_frame([scene], 140, style, high=high)
        assert frame
        zone = frame.zone("part")
        items = mat_picture(scene, frame, style).items
        name = next(i for i in items if getattr(i.content, "text", "") == "la parte")
        assert (name.rect.y + name.rect.height / 2 < zone.y) == above


def test_where_no_room_is_before_a_pile_an_exchange_runs_below_it_not_on_what_is_struck() -> None:
    scenes = [step.scene for step in script(Sum(4002, 1768), STYLE.words, "two")]
    opened = [s for s in scenes if any(m.source == ("whole", 3) for m in s.moves)][:1]
    opened += [s for s in scenes if any(m.target == ("whole", 1) for m in s.moves)][:1]
    frame = mat_frame(scenes, 90.0, STYLE, least=1.7)
    assert frame and len(opened) == 2
    for scene in opened:
        items = mat_picture(scene, frame, STYLE).items
        (loop,) = (i.rect for i in items if i.what == "loop")
        (arrow,) = (i.rect for i in items if i.what == "arrow")
        assert arrow.x > loop.right and arrow.width + arrow.height > 5


def test_a_question_and_a_shaft_stand_well_off_a_number() -> None:
    # a shaft close before a 1 was read as one more; so was a "?"
    for sum_, width, least in ((Sum(431, 257), 87.5, 2.2), (Sum(403, 284), 58.0, 1.4)):
        scenes = [step.scene for step in script(sum_, STYLE.words)[:4]]
        frame = mat_frame(scenes, width, STYLE, least=least)
        assert frame
        items = mat_picture(scenes[1], frame, STYLE).items
        said = {i.content.text: letters(i) for i in items if isinstance(i.content, Line)}
        number = said[str(sum_.whole % 10)]
        (arrow,) = (i.rect for i in items if isinstance(i.content, Arrow))
        assert number.x - arrow.x > 2.6
        assert not said["?"].inset(-1.2).overlaps(number)


def test_an_arrow_from_an_empty_column_runs_straight_down() -> None:
    # with a hook at its begin it was read as a 1 that stands where there are none
    for whole, width in ((Sum(260, 99), 60.0), (Sum(820, 88), 60.0), (Sum(2000, 764), 92.0)):
        scene = script(whole, STYLE.words)[1].scene
        frame = mat_frame([scene], width, STYLE)
        assert frame
        items = mat_picture(scene, frame, STYLE).items
        (arrow,) = (i.content for i in items if isinstance(i.content, Arrow))
        assert len(arrow.points) == 2 and arrow.points[0][0] == arrow.points[1][0]


@pytest.mark.parametrize("width", [58.0, 88.0, 120.0])
def test_a_question_does_not_stand_in_a_row_of_numbers(width: float) -> None:
    # on an arrow's short shaft it was read as a digit after the point
    for sum_ in (Sum(320, 147), Sum(260, 99)):
        scene = script(sum_, STYLE.words)[3].scene
        frame = mat_frame([scene], width, STYLE)
        assert frame
        items = mat_picture(scene, frame, STYLE).items
        said = next(letters(i) for i in items if getattr(i.content, "text", "") == "?")
        whole = frame.zone("whole")
        row = whole.y + whole.height - frame.heights.digits
        assert said.bottom < row + 1 or said.y > row + frame.heights.digits
        tens = whole.columns[1]  # in another column it asks for what lies there
        assert tens.x < said.x and said.right < tens.x + tens.width
        pieces = [i.rect for i in items if isinstance(i.content, SmallPieces)]
        assert not any(said.inset(0.5).overlaps(piece) for piece in pieces)


def test_a_shaft_beside_a_struck_number_is_not_read_as_a_digit_of_it() -> None:
    style = Style(STYLE.paper, designs.words("es"), designs.look("bold"))  # it was read as "111"
    scene = script(Sum(431, 257), style.words)[3].scene
    frame = mat_frame([scene], 140.0, style, high=135.0)
    assert frame
    items = mat_picture(scene, frame, style).items
    struck = next(letters(i) for i in items if getattr(i.content, "struck", False))
    arrows = [i.rect for i in items if isinstance(i.content, Arrow)]
    assert min(struck.x - a.right for a in arrows if a.right < struck.x) > 0.4 * struck.width


@pytest.mark.parametrize("width", [58.0, 60.0])
def test_an_exchange_begins_outside_its_ring_if_smaller_pieces_leave_room(width: float) -> None:
    scenes = [step.scene for step in script(Sum(403, 284), STYLE.words)[1:4]]
    frame = mat_frame(scenes, width, STYLE, least=1.4)
    assert frame and frame.opened
    for scene in scenes[1:]:
        items = mat_picture(scene, frame, STYLE).items
        (loop,) = (i.rect for i in items if i.what == "loop")
        (arrow,) = (i.rect for i in items if isinstance(i.content, Arrow))
        assert arrow.x >= loop.right


def test_where_an_exchange_begins_on_what_is_struck_it_is_off_the_slash() -> None:
    scenes = [step.scene for step in script(Sum(403, 284), STYLE.words)[1:4]]
    frame = mat_frame(scenes, 58.0, STYLE, least=1.5)
    assert frame and not frame.opened
    begun = 0
    for scene in scenes[1:]:
        items = mat_picture(scene, frame, STYLE).items
        gone = next(i.rect for i in items if getattr(i.content, "state", "") == "gone")
        (arrow,) = (i for i in items if isinstance(i.content, Arrow))
        x, y = (arrow.rect.x - gone.x) / gone.width, (arrow.rect.y - gone.y) / gone.height
        begun += x < 1  # it begins on it
        assert x > 1 or (x + y > 1.2 if gone.width > 9 else y < 0.35)
    assert begun


@pytest.mark.parametrize("sum_", [Sum(604, 167), Sum(431, 257), Sum(4002, 1768)], ids=str)
@pytest.mark.parametrize("arrangement", ["two", "beside"])
def test_the_numbers_of_exchanges_back_cover_none_of_the_ten(
    sum_: Sum, arrangement: Arrangement
) -> None:
    scenes = [step.scene for step in script(sum_, STYLE.words, arrangement)]
    narrow = arrangement == "two" and sum_.places == 3
    frame = mat_frame(scenes, 90.0 if narrow else 190.0, STYLE, least=1.7)
    assert frame
    items = mat_picture(scenes[-1], frame, STYLE).items
    discs = [item.rect for item in items if isinstance(item.content, Disc)]
    struck = [
        p.moved(i.rect.x, i.rect.y)
        for i in items
        if isinstance(i.content, SmallPieces)
        for p in i.content.rects
    ]
    assert len(discs) == len(scenes[-1].moves) > 1
    assert not [disc for disc in discs for piece in struck if disc.overlaps(piece)]


@pytest.mark.parametrize(("look", "width", "high"), [("plain", 59.5, 68), ("bold", 66, 70)])
def test_a_number_beside_tens_does_not_move_onto_them_for_an_arrow(
    look: str, width: float, high: float
) -> None:
    # on the foot of the tens a struck 5 could not be read in a poor copy
    style = Style(fitted_paper("a5"), designs.words("es"), designs.look(look))
    sum_ = Sum(63, 29)
    done = again(sum_, 46, "turned", None, style.words).steps
    steps = done if look == "plain" else script(sum_, style.words)
    scenes = [step.scene for step in steps]
    frame = mat_frame(scenes, width, style, high=high, least=1.4)
    assert frame
    items = [mat_picture(scene, frame, style).items for scene in scenes]
    assert [fault for some in items for fault in counts_on_pieces(some)] == []


def test_an_arrow_that_begins_with_its_number_covers_no_piece() -> None:
    # a stub of its shaft between the number and a struck ten lay on that, and on its slash
    style = Style(fitted_paper("a5"), designs.words("es"))
    scenes = [step.scene for step in again(Sum(63, 29), 46, "turned", None, style.words).steps]
    frame = mat_frame(scenes, 59.5, style, high=68, least=1.4)
    assert frame
    items = mat_picture(scenes[2], frame, style).items
    pieces = [i.rect for i in items if i.what == "small_pieces"]
    begun = [i for i in items if isinstance(i.content, Arrow)]
    assert len(begun) == 2
    for item in begun:
        assert isinstance(item.content, Arrow)
        x, y = item.content.points[0]
        half = style.look.lines_mm.arrow * item.content.size / 2  # it begins round
        end = Rect(item.rect.x + x, item.rect.y + y, 0.01, 0.01).inset(-half)
        assert not any(end.overlaps(piece) for piece in pieces)


def test_what_is_taken_out_ends_in_its_own_column_though_that_lies_aside() -> None:
    # straight down from the middle of the ones it ended in a column of what is left
    style = Style(STYLE.paper, designs.words("es"))
    for sum_ in (Sum(43, 17), Sum(71, 48)):
        scenes = [step.scene for step in script(sum_, style.words, "beside")[:2]]
        frame = mat_frame(scenes, 126.4, style, high=76)
        assert frame
        for scene in scenes:
            assert astray_arrows(scene, frame, mat_picture(scene, frame, style).items) == []
