"""Whatever is in a document, reading it gives a kit or mistakes, and nothing else."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import kitwright.forms  # noqa: F401
from kitwright.catalogue import CATALOGUE, parameters
from kitwright.errors import Mistakes
from kitwright.kit import Kit, build, new_kit_document, read_kit, read_kit_bytes
from kitwright.kit.keys import ACCURACY_KEYS, EXTRA_KEYS, FIT_KEYS, KIT_KEYS, PAPER_KEYS, PART_KEYS
from kitwright.kit.read_part import key_of
from kitwright.measure import Unit

EXAMPLES = sorted((Path(__file__).parents[2] / "src" / "kitwright" / "examples").glob("*.toml"))
GOOD = new_kit_document("Fuzz", Unit.INCH)


def kit_or_none(data: bytes | str) -> Kit | None:
    """The kit, or None for a document with mistakes, each of which has words and says what to do."""
    try:
        return read_kit_bytes(data) if isinstance(data, bytes) else read_kit(data)
    except Mistakes as mistakes:
        assert mistakes.mistakes
        assert all(each.what.strip() and each.do.strip() for each in mistakes.mistakes)
        return None


@settings(deadline=None, max_examples=200)
@given(st.binary(max_size=60))
def test_any_bytes(data: bytes) -> None:
    assert kit_or_none(data) is None


@settings(deadline=None, max_examples=200)
@given(st.text(st.sampled_from("[]{}=.,\"'\\#\n ab1-_x/:é\r\t"), max_size=40))
def test_any_signs_that_mean_something_in_toml(text: str) -> None:
    assert kit_or_none(text) is None


sizes = st.sampled_from(['"6 x 4"', '"6 x 4 x 2"', '"1/8"', '"4 in"', '"30"', "2", "4.25", '"1e9"', '"10.8 cm"'])
odd = st.sampled_from(
    ["0", "-1", "true", "inf", "nan", "1979-05-27", "[]", "{}", '""', "[1, [2]]", '["card", "box"]', "0xffff", "1e400"]
)
known = st.sampled_from(['"card"', '"box"', '"kraft"', '"in"', '"mm"', '"80 lb cover"', '"standing"', '"one-way"'])
forms = st.sampled_from(sorted(CATALOGUE)).map(lambda word: f'"{word}"')
values = st.one_of(sizes, odd, known, forms)
all_keys = sorted(
    {*KIT_KEYS, *FIT_KEYS, *ACCURACY_KEYS, *PAPER_KEYS, *PART_KEYS, *EXTRA_KEYS, "odd"}
    | {key_of(parameter) for form in CATALOGUE.values() for parameter in parameters(form)}
)
lines = st.tuples(st.sampled_from(all_keys), values).map(" = ".join)
headers = st.sampled_from(["[kit]", "[kit.fit]", "[paper.kraft]", "[paper.plain]", "[[part]]", "[[extra]]", "[other]"])


@settings(deadline=None, max_examples=300)
@given(st.lists(st.one_of(headers, lines), max_size=14).map("\n".join))
def test_known_keys_with_any_values_in_any_table(text: str) -> None:
    kit_or_none(text)


@settings(deadline=None, max_examples=200)
@given(st.data())
def test_a_good_document_with_a_few_values_changed_reads_or_tells_and_builds_or_tells(data: st.DataObject) -> None:
    settings_ = list(re.finditer(r"(?m)^(\S+) = ([^#\n]*[^#\n ])", GOOD))
    chosen = data.draw(
        st.lists(st.sampled_from(settings_), min_size=1, max_size=3, unique_by=lambda found: found.start())
    )
    text = GOOD
    for found in sorted(chosen, key=lambda each: -each.start()):
        text = text[: found.start(2)] + data.draw(values) + text[found.end(2) :]
    kit = kit_or_none(text)
    if kit is not None:
        try:
            assert len(build(kit).parts) == len(kit.parts)
        except Mistakes as mistakes:
            assert all(each.do.strip() for each in mistakes.mistakes)


parts = st.fixed_dictionaries(
    {"form": forms},
    optional={
        "size": sizes, "inside": sizes, "on": known, "border": sizes, "holds": known, "covers": known, "wraps": known,
        "height": sizes, "depth": sizes, "tab": sizes, "hem": sizes, "turn": st.sampled_from(["0", "90", "270"]),
    },
)  # fmt: skip


@settings(deadline=None, max_examples=150)
@given(parts, parts)
def test_any_two_parts_of_any_form_in_any_relation_build_or_tell(first: dict[str, str], second: dict[str, str]) -> None:
    text = '[kit]\nname = "a"\nunits = "in"\n[paper.kraft]\nsheet = "12 x 12"\nweight = "80 lb cover"\n'
    for name, part in (("card", first), ("box", second)):
        text += f'[[part]]\nname = "{name}"\npaper = "kraft"\n' + "".join(f"{k} = {v}\n" for k, v in part.items())
    kit = kit_or_none(text)
    if kit is not None:
        try:
            assert len(build(kit).parts) == 2
        except Mistakes as mistakes:
            assert all(each.do.strip() for each in mistakes.mistakes)


@settings(deadline=None, max_examples=150)
@given(st.data())
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_with_signs_lost_or_put_in_reads_or_tells(path: Path, data: st.DataObject) -> None:
    text = path.read_text(encoding="utf-8")
    at = data.draw(st.integers(0, len(text) - 1))
    lost = data.draw(st.integers(0, 12))
    put = data.draw(st.text(st.sampled_from("[]{}=.,\"'\\#\n ab1-_x"), max_size=3))
    kit_or_none(text[:at] + put + text[at + lost :])
