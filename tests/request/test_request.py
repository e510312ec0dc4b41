"""What a person types: sums, files of sums, request files."""

from pathlib import Path

import pytest

from kitbuilder.cli.commands.kit import kit
from kitbuilder.design.saying import say
from kitbuilder.errors import RefusedError
from kitbuilder.number import Sum
from kitbuilder.number.exchange import exchanges
from kitbuilder.number.scale import HUNDREDTHS
from kitbuilder.pipeline import paper_of
from kitbuilder.press.printing import PRINTING, Press, over
from kitbuilder.request.file import first_wishes, read_wishes, wishes
from kitbuilder.request.request import Request, fitted_paper, read_parts, read_sum, read_sums


@pytest.mark.parametrize("typed", ["634 - 258", "634-258", "634 − 258", "634–258", " 634 -258 "])
def test_a_sum_may_be_typed_in_many_ways(typed: str) -> None:
    assert read_sum(typed) == Sum(634, 258)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "sum is missing"),
        ("634", "is not a subtraction"),
        ("634 + 258", "is not a subtraction"),
        ("6.5.1 - 2", "is not a subtraction"),
        ("6. - 2", "is not a subtraction"),
        (".5 - 0.2", "is not a subtraction"),
        ("9,999 - 1", "can be read in two ways; type thousands without a mark, as 9999 - 1"),
        ("4,002 - 1,768", "type thousands .*, as 4002 - 1768; thousandths, as 4.002 - 1.768"),
        ("4,002 - 1.768", "can be read in two ways"),
        ("9.2 - 3.4571", "more than three decimals; written work goes down to thousandths"),
        ("9,2 - 3,4571", "'9.2 - 3.4571' has more than three decimals"),  # one mark in a sentence
        ("1234,5 - 2", "'1234.5 - 2' is too large beside its decimals"),
        ("12,345 - 1,234", "use numbers up to 9.999, and up to 9.99 with pieces"),
        ("12 345 - 1", "more than four places"),
        ("£3.00 - £1.47", "amounts up to 9.99 without it, as 3.00 - 1.47, .* --money GBP"),
        ("634 € - 258 €", "as 6.34 - 2.58, .* --money EUR"),
        ("£12.50 - £3.75", "as 12.50 - 3.75 after .* cards, with --stage written and --money GBP"),
        ("100.5 - 1", "up to 99.99, and up to 9.99 with pieces"),
        ("1,47 - 3", "put the larger number first: 3 - 1,47"),
        ("-6 - 2", "is not a subtraction"),
        ("1/2 - 1", "is not a subtraction"),
        ("٣٤ - ١٢", "is not a subtraction"),
        ("6 - 2 - 1", "is not a subtraction"),
        ("258 - 634", "put the larger number first: 634 - 258"),
        ("12345 - 1", "more than four places"),
        ("9" * 5000 + " - 1", "more than four places"),
    ],
)
def test_what_is_no_sum_is_refused_in_one_sentence(typed: str, says: str) -> None:
    with pytest.raises(RefusedError, match=says) as refused:
        read_sum(typed)
    assert "\n" not in str(refused.value)
    assert len(str(refused.value)) < 200


@pytest.mark.parametrize(
    "typed", ["4 002 - 768", "4\u202f002 - 768", "4\u00a0002-768", "4,002 - 768", "4.002 – 768"]
)
def test_thousands_may_be_grouped_where_nothing_else_can_be_meant(typed: str) -> None:
    assert read_sum(typed) == Sum(4002, 768)


def test_a_comma_for_thousands_may_stand_in_the_part_alone() -> None:
    assert read_sum("4002 - 1,768") == Sum(4002, 1768)


def test_what_is_said_of_marks_for_thousands_in_spanish() -> None:
    with pytest.raises(RefusedError) as refused:
        read_sum("4.002 - 1.768", ",")
    assert "los millares sin punto ni coma, como 4002 - 1768" in say(refused.value.said, "es")


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("6.20 - 3.45", "6.20 − 3.45"),
        ("6,20 - 3,40", "6.20 − 3.40"),
        ("6.2 - 3.45", "6.2 − 3.45"),
        ("6 - 3.40", "6 − 3.4"),
    ],
)
def test_zeros_are_printed_where_both_numbers_have_them(typed: str, printed: str) -> None:
    request = Request((read_sum(typed),), fitted_paper("a4"))
    assert str(request.sums[0]) == printed
    assert read_sum(request.sums[0].typed).scale.full == request.sums[0].scale.full


def test_a_file_of_sums() -> None:
    text = "# warm up\n71-48\n\n604 − 167  # across a zero\n"
    assert read_sums(text) == (Sum(71, 48), Sum(604, 167))


def test_a_wrong_line_is_named() -> None:
    with pytest.raises(RefusedError, match=r"^Line 2: 'six - 2'"):
        read_sums("7-3\nsix - 2\n")
    with pytest.raises(RefusedError, match="no sum"):
        read_sums("# nothing\n")


def test_the_first_kit_teaches() -> None:
    sums = first_wishes().sums
    assert all(exchanges(s) for s in sums)
    assert sums[0].places == 2
    across_zero = [s for s in sums if [e.source for e in exchanges(s)] == [2, 1]]
    assert across_zero == [sums[-1]]
    assert [len(exchanges(s)) for s in sums] == sorted(len(exchanges(s)) for s in sums)


def test_a_request_file_holds_the_same_wishes(tmp_path: Path) -> None:
    path = tmp_path / "wish.toml"
    path.write_text(
        'sums = ["71 - 48"]\npaper = "letter"\nunit = 9.5\nonly = ["cards", "pieces"]\n'
    )
    wishes = read_wishes(path)
    assert wishes.sums == (Sum(71, 48),)
    assert wishes.printing == {"paper": "letter", "unit": 9.5}
    assert wishes.parts == ("pieces", "cards")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('sum = ["7-3"]', "holds 'sum'; it may hold sums, within"),
        ("sums = 3", "has sums = 3; it must be a list of words"),
        ("sums = [3]", "it must be a list of words"),
        ('paper = "a4"', "asks for no sums"),
        ('sums = ["7-3"]\npaper = 4', "it must be words in quotes"),
        ('sums = ["7-3"]\nunit = true', "has unit = true; it must be a number"),
        ('sums = ["7-3"]\nchildren = 2.0', "has children = 2.0; it must be a whole number"),
        (
            'sums = ["7-3"]\nmat = 3',
            "has mat = 3; it must be a list of words in quotes, or the words in quotes with",
        ),
        ('sums = ["7-"]', "'7-' is not a subtraction"),
        ("sums = [", "is not a TOML file"),
        ('sums = ["7-3"]\nonly = ["box"]', "'box' is no part of a kit"),
    ],
)
def test_a_wrong_request_file_is_refused(tmp_path: Path, text: str, says: str) -> None:
    path = tmp_path / "wish.toml"
    path.write_text(text)
    with pytest.raises(RefusedError, match=says):
        read_wishes(path)


def test_files_are_bounded_and_must_be_text(tmp_path: Path) -> None:
    noise = tmp_path / "noise.toml"
    noise.write_bytes(bytes(range(256)) * 4096)
    with pytest.raises(RefusedError, match="larger than 200 kB"):
        read_wishes(noise)
    noise.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(RefusedError, match="not a text file"):
        read_wishes(noise)
    with pytest.raises(RefusedError, match="cannot be read"):
        read_wishes(tmp_path / "missing.toml")
    with pytest.raises(RefusedError, match="cannot be read"):
        read_wishes(tmp_path)


def test_margin_and_unit_override_the_paper() -> None:
    paper = fitted_paper("a4", 10, 9.5)
    assert (paper.margins_mm.left, paper.margins_mm.bottom, paper.unit_mm) == (10, 10, 9.5)
    with pytest.raises(RefusedError, match="A one 4 mm wide is too small"):
        fitted_paper("a4", None, 4)
    with pytest.raises(RefusedError, match="two decimals"):
        fitted_paper("a4", None, 9.333)
    with pytest.raises(RefusedError, match="less than 40 mm"):
        fitted_paper("a4", 90, None)


def test_parts_keep_the_printing_order() -> None:
    assert read_parts(["guide", "mats"]) == ("mats", "guide")
    with pytest.raises(RefusedError, match="No part"):
        read_parts([])


def test_a_request_checks_itself() -> None:
    paper = fitted_paper("a4")
    with pytest.raises(RefusedError, match="four places"):
        Request((Sum(1300, 522),), paper, mini=True)
    with pytest.raises(RefusedError, match="leave out --only, or give smaller numbers"):
        Request((Sum(1300, 522),), paper, parts=("demonstration",))
    with pytest.raises(RefusedError, match="at most 2000"):
        Request((Sum(7, 3),) * 2001, paper)
    with pytest.raises(RefusedError, match="from 50 to 10000"):
        Request((), paper, within=10001)


@pytest.mark.parametrize(
    ("paper", "unit"), [("a4", 5), ("letter", 5), ("legal", 5), ("a3", 7), ("a5", 9)]
)
def test_a_thousand_asks_for_a_smaller_unit(paper: str, unit: float) -> None:
    # Two side by side: 5.00 on A4, 5.08 on Letter, 7.17 on A3; on A5 not one of 5 mm fits.
    four = (Sum(4003, 1758),)
    assert paper_of(Request(four, fitted_paper(paper))).unit_mm == unit
    asked = Request(four, fitted_paper(paper, unit=5.5), press=Press(unit_asked=True))
    assert paper_of(asked).unit_mm == 5.5
    assert paper_of(Request((Sum(71, 48),), fitted_paper(paper))) == fitted_paper(paper)


def test_a_request_file_says_how_to_print(tmp_path: Path) -> None:
    path = tmp_path / "wish.toml"
    path.write_text(
        'sums = ["71 - 48"]\nlook = "bold"\ncutter = ["svg", "0.15"]\npng = 72\nprinter = "den"\n'
        "[estimate]\nink = true\ngrammage = 160\n"
    )
    wished = read_wishes(path)
    held = {"look": "bold", "cutter": "svg,0.15", "png": 72, "printer": "den", "ink": True}
    assert wished.printing == held
    assert wished.options == {"ink": True, "grammage": 160}
    # What is said on the command line wins; the rest stays.
    typed = {"look": "spare", "cutter": "0.2", "png": None}
    assert over(typed, wished.printing) == {**held, "look": "spare", "cutter": "0.2"}


def test_every_way_to_print_is_an_option_and_a_key() -> None:
    assert {*PRINTING} <= {option.name for option in kit.params} | {"ink"}
    wished = wishes({"sums": ["7-3"], "estimate": {"ink": False}}, "x")
    assert wished.printing == {"ink": False}


@pytest.mark.parametrize("line", ["cutter = 1", 'unit = "9"', "look = 3", "png = 72.5"])
def test_a_wrong_way_to_print_is_refused(tmp_path: Path, line: str) -> None:
    path = tmp_path / "wish.toml"
    path.write_text(f'sums = ["7-3"]\n{line}\n')
    with pytest.raises(RefusedError, match=f"has {line.split()[0]} = .*it must be"):
        read_wishes(path)


@pytest.mark.parametrize(
    "typed", ["42\u00a0-\u00a017", "42\u201117", "42\u202f\u201217", "42\u201017"]
)
def test_what_a_word_processor_puts_in_is_understood(typed: str) -> None:
    assert read_sum(typed) == Sum(42, 17)


@pytest.mark.parametrize(
    ("line", "sums"),
    [
        ('sums = "71 - 48"', (Sum(71, 48),)),
        ('sums = "71 - 48, 43-17"', (Sum(71, 48), Sum(43, 17))),
        ('sums = "3,45 - 1,68"', (Sum(345, 168, HUNDREDTHS),)),  # a decimal comma parts nothing
    ],
)
def test_a_request_takes_its_sums_as_one_string_too(
    tmp_path: Path, line: str, sums: tuple[Sum, ...]
) -> None:
    path = tmp_path / "ours.toml"
    path.write_text(line)
    assert read_wishes(path).sums == sums
