"""Every command explains itself; the options of those that have many stand in groups."""

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.cli.grouped import GROUPS, Grouped
from kitbuilder.request.request import PARTS

NAMES = sorted(main.commands)


@pytest.mark.parametrize("name", NAMES)
def test_every_option_is_explained(name: str) -> None:
    said = CliRunner().invoke(main, [name, "--help"]).output
    for param in main.commands[name].params:
        if param.param_type_name == "option":
            assert said.count(f"  {param.opts[0]} ") == 1, param.opts
            assert getattr(param, "help", None), param.opts


@pytest.mark.parametrize("name", NAMES)
def test_many_options_stand_in_groups(name: str) -> None:
    command = main.commands[name]
    options = [p for p in command.params if p.param_type_name == "option"]
    assert isinstance(command, Grouped) or len(options) < 13
    if isinstance(command, Grouped):
        said = CliRunner().invoke(main, [name, "--help"]).output
        assert "Paper and looks:" in said
        assert said.index("Paper and looks:") < said.index("Other:")


def test_an_option_stands_in_one_group() -> None:
    names = [option for _, options in GROUPS for option in options]
    assert len(names) == len(set(names))


def test_help_says_which_unit_makes_pieces_for_the_board() -> None:
    told = " ".join(CliRunner().invoke(main, ["kit", "--help"]).output.split())
    assert "20 or more: large pieces for the board" in told


def test_help_names_every_part_of_a_kit() -> None:
    told = CliRunner().invoke(main, ["kit", "--help"]).output
    assert all(part in "".join(told.split()) for part in PARTS)
