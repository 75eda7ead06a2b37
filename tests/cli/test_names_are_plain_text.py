"""Names as the maker wrote them in everything that is printed: brackets and colons are no orders to the terminal."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from rich.table import Table

from kitwright.cli.show import console
from tests.cli.running import Run

KIT = """\
[kit]
name = "plain [bold] kit"
units = "in"
[paper.kraft]
label = "Kraft [/2]"
sheet = "12 x 12"
weight = "80 lb cover"
on-hand = 2
[[part]]
name = "card [large]"
form = "flat card"
size = "6 x 4"
paper = "kraft"
[[part]]
name = "card [small] :heart:"
form = "flat card"
size = "3 x 2"
paper = "kraft"
[[part]]
name = "box [/a]"
form = "tray"
holds = "card [large]"
paper = "kraft"
[[part]]
name = "lid [red]"
form = "lift-off lid"
covers = "box [/a]"
paper = "kraft"
"""
CARDS = ("card [large]", "card [small] :heart:")
COMMANDS = [
    (("sheets", "--cuts"), (*CARDS, "box [/a]", "Kraft [/2]")),
    (("sheets", "--machine"), (*CARDS, "Kraft [/2]")),
    (("stash",), ("Kraft [/2]",)),
    (("edition", "--units", "mm", "--show"), (*CARDS, "box [/a]")),
    (("post",), ("box [/a]",)),
    (("prove", "--all"), ("card [large]", "box [/a]", "lid [red]")),
    (("boxes",), ("box [/a]", "lid [red]")),
]


@pytest.mark.parametrize(("words", "names"), COMMANDS, ids=" ".join)
def test_every_command_prints_names_as_they_are_written(
    run: Run, tmp_path: Path, words: tuple[str, ...], names: tuple[str, ...]
) -> None:
    (tmp_path / "kit.toml").write_text(KIT)
    command, *options = words
    call = run(command, "kit.toml", *options)
    assert call.code in (0, 1), call.err
    for name in names:
        assert name in call.out


@settings(max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text("[]/\\\\:= abold2#@", min_size=1, max_size=20).map(str.strip).filter(bool))
def test_a_line_a_cell_and_a_title_are_plain_text(name: str) -> None:
    screen = console()
    table = Table(title=name)
    table.add_column(name, no_wrap=True)
    table.add_row(name)
    with screen.capture() as caught:
        screen.print(name, style="bold")
        screen.print(table)
    assert caught.get().count(name) >= 4
