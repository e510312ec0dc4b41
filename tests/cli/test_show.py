"""``kitbuilder show``: steps and columns in plain text, to the character."""

from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.cli.answer import explain_answer, read_answer
from kitbuilder.design import load as designs
from kitbuilder.draw.plain_text import shown
from kitbuilder.number import Sum
from kitbuilder.number.scale import HUNDREDTHS

SHOWN_71_48 = """\
71 − 48

With pieces
          tens      ones
1. Build 71.
   whole  ||||| ||  .
2. There are not enough ones yet: exchange 1 ten for 10 ones.
   whole  ||||| |   ..... ..... .
3. Take out 8 ones.
   whole  ||||| |   ...
   part   0         ..... ...
4. Take out 4 tens.
   whole  ||        ...
   part   ||||      ..... ...
5. The part taken out is 48; 23 is left.
   whole  ||        ...
   part   ||||      ..... ...
6. Push the two parts together.
   whole  ||||| |   ..... ..... .
7. Exchange 10 ones for 1 ten.
   whole  ||||| ||  .
8. It is 71 again.
   whole  ||||| ||  .

Written, ones first
       6  11
       7   1
   −   4   8
   ---------
       2   3
"""

SHOWN_604_167 = """\
604 − 167

With pieces
          hundreds  tens         ones
1. Build 604.
   whole  ##### #   0            ....
2. There are not enough ones yet: exchange 1 hundred for 10 tens.
   whole  #####     ||||| |||||  ....
3. Exchange 1 ten for 10 ones.
   whole  #####     ||||| ||||   ..... ..... ....
4. Take out 7 ones.
   whole  #####     ||||| ||||   ..... ..
   part   0         0            ..... ..
5. Take out 6 tens.
   whole  #####     |||          ..... ..
   part   0         ||||| |      ..... ..
6. Take out 1 hundred.
   whole  ####      |||          ..... ..
   part   #         ||||| |      ..... ..
7. The part taken out is 167; 437 is left.
   whole  ####      |||          ..... ..
   part   #         ||||| |      ..... ..
8. Push the two parts together.
   whole  #####     ||||| ||||   ..... ..... ....
9. Exchange 10 ones for 1 ten.
   whole  #####     ||||| |||||  ....
10. Exchange 10 tens for 1 hundred.
   whole  ##### #   0            ....
11. It is 604 again.
   whole  ##### #   0            ....

Written, ones first
           9
       5  10  14
       6   0   4
   −   1   6   7
   -------------
       4   3   7
"""


def test_71_less_48_to_the_character() -> None:
    assert shown(Sum(71, 48), designs.words()) == SHOWN_71_48


def test_a_sum_needs_no_quotes() -> None:
    done = CliRunner().invoke(main, ["show", "71", "-", "48"])
    assert done.output == SHOWN_71_48


def test_604_less_167_to_the_character() -> None:
    assert shown(Sum(604, 167), designs.words()) == SHOWN_604_167


def test_an_emptied_column_keeps_its_place_and_no_zero_leads() -> None:
    text = shown(Sum(102, 97), designs.words())
    assert text.endswith("""\
           9
       0  10  12
       1   0   2
   −       9   7
   -------------
               5
""")


def test_four_places_are_shown() -> None:
    text = shown(Sum(1300, 522), designs.words())
    assert "@" in text
    assert text.endswith("       7   7   8\n")


def test_an_answer_without_its_point_is_told_as_it_was_typed() -> None:
    words = designs.words("en-GB").decimal
    asked = Sum(603, 248, HUNDREDTHS)
    for typed in ("355", "35.5"):
        said = explain_answer(asked, read_answer(typed, HUNDREDTHS), words, typed)
        assert f"6.03 − 2.48 = 3.55, not {typed}.\n" in said
        assert "The point missing or elsewhere" in said and "Which piece" in said


def test_two_mistakes_named_together_have_a_question_each() -> None:
    both = explain_answer(Sum(402, 158), 204, designs.words())
    said = " ".join(both.split())
    assert "The zero was skipped; and zero above: zero written" in said
    asks = "“What does the bank give for your piece?”"
    assert f"{asks} Then: “Is all of the part out?”" in said
    alone = explain_answer(Sum(660, 82), 678, designs.words())
    assert alone.count("Then: ") == alone.count("Say: ") > 0
