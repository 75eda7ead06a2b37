"""Where tables and keys stand in a document."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.kit.source import DEEPEST, Path, line_numbers

Node = dict[str, Any]


def paths_of(value: object, path: Path = ()) -> Iterator[Path]:
    """Every path of a parsed document."""
    if path:
        yield path
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from paths_of(inner, (*path, key))
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield from paths_of(inner, (*path, place))


def shallow(text: str) -> set[Path]:
    return {path for path in paths_of(tomllib.loads(text)) if len(path) <= DEEPEST}


DOCUMENT = (
    '''\
# a remark with = and [brackets]
[kit]
name = "a \\"b\\" # no remark"

[paper."12 x 12 \\u00e4"]   # quoted
'sheet' = """
12
x 12"""
margins = { left = "1", right.of.it = [1,
  2] }
on-hand.now = 3

[[part]]
name = \'\'\'
[[part]]
\'\'\'
holds = [
  "a",  # one ]
  "b",
]
[part.more]
deep = 1979-05-27 07:32:00
[[part]]
name = 'it'''
    + """'
[[part.piece]]
x = 1.5e3
[[part.piece]]
x = inf
"""
)


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_every_table_and_key_is_found_on_its_line(line_end: str) -> None:
    lines = line_numbers(DOCUMENT.replace("\n", line_end))
    assert lines == {
        ("kit",): 2,
        ("kit", "name"): 3,
        ("paper",): 5,
        ("paper", "12 x 12 ä"): 5,
        ("paper", "12 x 12 ä", "sheet"): 6,
        ("paper", "12 x 12 ä", "margins"): 9,
        ("paper", "12 x 12 ä", "margins", "left"): 9,
        ("paper", "12 x 12 ä", "margins", "right"): 9,
        ("paper", "12 x 12 ä", "margins", "right", "of"): 9,
        ("paper", "12 x 12 ä", "on-hand"): 11,
        ("paper", "12 x 12 ä", "on-hand", "now"): 11,
        ("part",): 13,
        ("part", 0): 13,
        ("part", 0, "name"): 14,
        ("part", 0, "holds"): 17,
        ("part", 0, "holds", 0): 18,
        ("part", 0, "holds", 1): 19,
        ("part", 0, "more"): 21,
        ("part", 0, "more", "deep"): 22,
        ("part", 1): 23,
        ("part", 1, "name"): 24,
        ("part", 1, "piece"): 25,
        ("part", 1, "piece", 0): 25,
        ("part", 1, "piece", 0, "x"): 26,
        ("part", 1, "piece", 1): 27,
        ("part", 1, "piece", 1, "x"): 28,
    }


bare_keys = st.text("abz09_-", min_size=1, max_size=4)
words = st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=6)


def basic(said: str) -> str:
    return '"' + said.replace("\\", "\\\\").replace('"', '\\"') + '"'


keys = st.one_of(
    bare_keys,
    words.map(basic),
    words.filter(lambda said: "'" not in said).map(lambda said: f"'{said}'"),
    st.lists(bare_keys, min_size=2, max_size=3).map(" . ".join),
)
plain_values = st.one_of(
    st.integers().map(str),
    st.floats().map(repr),
    st.sampled_from(["true", "false", "1979-05-27", "1979-05-27 07:32:00", "07:32:00", "0xff", "1_000", "inf", "-nan"]),
    words.map(basic),
    words.map(lambda said: f'"""\n{basic(said)[1:-1]}\n"" #"""'),
    words.filter(lambda said: "'" not in said).map(lambda said: f"'''\n{said}'' ]\n'''"),
)
remarks = st.sampled_from(["", " # remark", " # ] } = \" '"])
breaks = st.sampled_from(["", " ", "\n", "\n # , ]\n"])


def arrays(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    entries = st.tuples(breaks, inner, breaks).map("".join)
    return st.lists(entries, max_size=3).map(lambda found: "[" + ",".join(found) + "]")


def inline_tables(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    entries = st.tuples(keys, inner).map(" = ".join)
    return st.lists(entries, max_size=3).map(lambda found: "{ " + ", ".join(found) + " }")


values = st.recursive(plain_values, lambda inner: st.one_of(arrays(inner), inline_tables(inner)), max_leaves=4)
headers = st.one_of(keys.map(lambda key: f"[{key}]"), keys.map(lambda key: f"[[{key}]]"))
settings_lines = st.tuples(keys, st.just(" = "), values).map("".join)
documents = st.lists(
    st.tuples(st.sampled_from(["", "  "]), st.one_of(headers, settings_lines, st.just("")), remarks).map("".join),
    max_size=8,
).map("\n".join)


def is_toml(text: str) -> bool:
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return False
    return True


@settings(deadline=None, max_examples=300)
@given(documents.filter(is_toml))
def test_just_the_paths_that_tomllib_reads_are_found(text: str) -> None:
    assert set(line_numbers(text)) == shallow(text)
    assert set(line_numbers(text.replace("\n", "\r\n"))) == shallow(text)


@settings(deadline=None, max_examples=100)
@given(documents.filter(is_toml))
def test_every_path_stands_on_a_line_that_holds_its_last_key(text: str) -> None:
    lines = text.split("\n")
    for path, line in line_numbers(text).items():
        last = path[-1]
        if isinstance(last, str) and last.isascii() and last.isalnum():
            assert last in lines[line - 1]


@pytest.mark.parametrize("text", ["a = " + "[" * 300 + "]" * 300, "a = [" + "{a=[" * 100 + "]}" * 100 + "]"])
def test_deep_nesting_is_no_trouble(text: str) -> None:
    assert set(line_numbers(text)) == shallow(text)
