"""The glossary: every word once, in order, explained."""

import re
from pathlib import Path

TEXT = (Path(__file__).parent.parent / "docs" / "glossary.md").read_text(encoding="utf-8")
ENTRIES = re.findall(r"^\*\*(.+?)\*\*( \*\(our word\)\*)? – ((?:.+\n)+)", TEXT, flags=re.MULTILINE)
WORDS = [word for word, _, _ in ENTRIES]

TRADE = [
    "basis weight", "batch", "belly band", "bench", "blank", "burnish", "caliper", "cardstock", "flap", "fold",
    "glue tab", "grain", "guide", "hem", "kit", "lid", "mat", "offcut", "panel", "pocket",
    "recipient", "score", "seam", "sheet", "sleeve", "strip", "tab", "through cut", "tray", "trimmer",
]  # fmt: skip
OURS = [
    "form",
    "catalogue",
    "claim",
    "proof",
    "finding",
    "clearance",
    "printout",
    "score chart",
    "stash",
    "workshop folder",
]


def test_the_words_stand_in_alphabetical_order_and_each_once() -> None:
    assert sorted(set(WORDS)) == WORDS


def test_every_paragraph_below_the_head_is_an_entry_with_a_sentence() -> None:
    _, _, *paragraphs = TEXT.strip().split("\n\n")
    assert len(paragraphs) == len(ENTRIES)
    assert all(meaning.strip().endswith(".") for _, _, meaning in ENTRIES)


def test_the_words_of_the_trade_are_there_and_not_marked_as_ours() -> None:
    marked = {word: bool(ours) for word, ours, _ in ENTRIES}
    assert [word for word in TRADE if marked.get(word) is not False] == []


def test_our_own_words_are_there_and_marked() -> None:
    marked = {word: bool(ours) for word, ours, _ in ENTRIES}
    assert [word for word in OURS if not marked.get(word)] == []
