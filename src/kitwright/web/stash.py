"""What the maker has: sheets and offcuts on hand of every paper, how many kits they are enough for, and what to buy for a batch."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request

from kitwright.errors import KitwrightError
from kitwright.plan import ProvedKit, from_stash
from kitwright.printouts.make.left_over import buy_words, enough_sentence, stash_sentences
from kitwright.web.desk import Desk, batch_of, mistakes_of
from kitwright.web.fields import NOTHING_TYPED, Typed
from kitwright.web.supplies import new_offcut, offcut_fields, on_hand_fields
from kitwright.workshop import StoredKit

__all__ = ["stash_page", "stash_values"]


def stash_page(desk: Desk, request: Request, kit: StoredKit, proved: ProvedKit) -> dict[str, Any]:
    """What is on hand; and, where it is asked, what can be made of it."""
    asked = request.query_params
    found = (
        answered(desk, kit, proved, batch_of(asked, 0) if asked.get("kits", "").strip() else 0)
        if "ask" in asked
        else None
    )
    return {**stash_values(kit.document, proved, NOTHING_TYPED), "answer": found}


def stash_values(document: str, proved: ProvedKit, typed: Typed) -> dict[str, Any]:
    """The fields of what is on hand."""
    papers = tuple(proved.kit.papers)
    return {
        "papers": [
            (f"paper-{number}", number, paper, on_hand_fields(document, word))
            for number, (word, paper) in enumerate(proved.kit.papers.items())
        ],
        "offcuts": [
            (
                f"offcut-{number}",
                number,
                f"{proved.kit.papers[each.paper].label}, {size}",
                offcut_fields(document, number, proved.kit),
            )
            for number, each in enumerate(proved.kit.offcuts)
            for size in [proved.ruler.size(each.width, each.height)]
        ],
        "new": {"offcut": new_offcut(proved.kit)} if papers else {},
        "typed": typed,
        "answer": None,
    }


def answered(desk: Desk, kit: StoredKit, proved: ProvedKit, batch: int) -> dict[str, Any]:
    """How many kits the papers on hand are enough for, and what is to buy for as many as are wanted (0: none said)."""
    try:
        found = from_stash(proved.kit)
        made = desk.making.whole(kit.document, batch) if batch else None
    except KitwrightError as error:
        return {"mistakes": mistakes_of(error), "rows": (), "words": (), "kits": batch}
    buys = {} if made is None else {each.paper.key: buy_words(each) for each in made.papers}
    return {
        "mistakes": (),
        "rows": [(each.paper.label, enough_sentence(each), buys.get(each.paper.key)) for each in found.papers],
        "words": tuple(stash_sentences(found)),
        "kits": batch,
    }
