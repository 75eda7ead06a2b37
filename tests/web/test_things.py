"""Parts, papers and things to buy by HTTP: typed, kept, added, taken out; what is wrong is told beside its field, nothing is lost."""

import re
from fractions import Fraction
from typing import Any

import pytest
from starlette.testclient import TestClient

from kitwright.findings import Change
from kitwright.kit import build, read_kit
from kitwright.measure import Unit
from kitwright.plan import from_stash, plan
from kitwright.web.numbers import strange_settings
from kitwright.web.supplies import new_extra
from kitwright.workshop import Workshop
from tests.kit.documents import head, part
from tests.web.test_pages import ANSWERS, BEGUN, revision


@pytest.fixture
def word(shop: Workshop) -> str:
    """A kit on the shelf: 8 cards with envelopes and twine in a tray with a lid."""
    return shop.begin(ANSWERS["name"], BEGUN, words="Begun from what goes in.").word


def send(client: TestClient, word: str, address: str, **said: str):
    return client.post(f"/kit/{word}/{address}", data={"revision": revision(client, word), **said})


def test_a_paper_is_changed_in_the_makers_own_words(client: TestClient, word: str, shop: Workshop) -> None:
    answer = send(client, word, "paper", number="0", sheet="8½ x 11", weight="110 lb cover", price="0.35", grain="long")
    assert answer.headers["location"] == f"/kit/{word}#paper-0"
    paper = read_kit(shop.read(word).document).papers["card"]
    assert paper.price is not None
    assert (paper.price.minor, paper.grain.value) == (35, "long")
    assert paper.sheet_width_mm * 10 == 2159
    page = client.get(f"/kit/{word}").text
    assert 'name="weight" value="110 lb cover"' in page
    assert "Last change: Cardstock: sheet 8½ x 11" in page


@pytest.mark.parametrize(
    ("address", "key", "value"),
    [
        ("paper", "sheet", "8 1/ x 11"),
        ("paper", "weight", "80 stones"),
        ("paper", "price", "1,2,3 <b>"),
        ("paper", "caliper", "thin"),
        ("paper", "on-hand", "some"),
        ("extra", "size", "2 x 2"),
        ("extra", "weight", "heavy"),
        ("extra", "quantity", "0"),
        ("extra", "name", ""),
        ("part", "quantity", "-1"),
        ("part", "name", " "),
    ],
)
def test_a_wrong_text_is_told_beside_its_field_and_stays_in_it(
    client: TestClient, word: str, shop: Workshop, *, address: str, key: str, value: str
) -> None:
    before = shop.read(word)
    answer = send(client, word, address, number="0", **{key: value})
    assert answer.status_code == 422
    told = re.search(rf'id="{address}-0-{key}-wrong"[^>]*>([^<]+)', answer.text)
    assert told, answer.text
    if value.strip():
        shown = value.replace("<", "&lt;").replace(">", "&gt;")
        assert f'name="{key}" value="{shown}"' in answer.text
    assert shop.read(word) == before


@pytest.mark.parametrize(
    ("before", "shown"),
    [
        ("", {"left": "", "bottom": ""}),
        ('margins = "3/8"\n', {"left": "3/8", "right": "3/8", "top": "3/8", "bottom": "3/8"}),
        ('margins = { bottom = "12.5 mm" }\n', {"left": "", "bottom": "12.5 mm"}),
    ],
)
def test_the_edges_of_a_sheet_that_are_no_use_are_fields_and_come_back_as_they_were_typed(
    client: TestClient, word: str, shop: Workshop, *, before: str, shown: dict[str, str]
) -> None:
    text = shop.read(word).document
    assert send(client, word, "text", document=text.replace("weight =", f"{before}weight =", 1)).status_code == 303
    for key, value in shown.items():
        assert f'id="paper-0-{key}" name="{key}" value="{value}"' in client.get(f"/kit/{word}").text
    assert send(client, word, "paper", number="0", left="¼", top="0").headers["location"] == f"/kit/{word}#paper-0"
    made = read_kit(shop.read(word).document).papers["card"].margins
    assert [made.left * 40, made.top] == [254, 0]
    assert made.bottom == {"": 0, "3/8": Fraction("9.525"), "12.5 mm": Fraction("12.5")}[shown["bottom"]]
    page = client.get(f"/kit/{word}").text
    assert 'id="paper-0-left" name="left" value="¼"' in page
    assert "Last change: Cardstock: margins left ¼," in page
    assert send(client, word, "paper", number="0", left="", right="", top="", bottom="").status_code == 303
    assert "margins" not in shop.read(word).document


def test_what_is_wrong_with_an_edge_is_told_at_that_edge_and_what_is_wrong_with_all_at_all(
    client: TestClient, word: str, shop: Workshop
) -> None:
    before = shop.read(word)
    answer = send(client, word, "paper", number="0", left="1/4", top="1/")
    assert answer.status_code == 422
    assert re.search(r'id="paper-0-top-wrong"[^>]*>[^<]*1/', answer.text)
    assert 'name="left" value="1/4"' in answer.text
    answer = send(client, word, "paper", number="0", left="6", right="6")
    assert re.search(r'data-fault="margins"[^>]*>They leave nothing of the sheet\. Make', answer.text)
    answer = send(client, word, "add", table="offcut", paper="card", size="5 x 8½", left="3", right="2")
    assert re.search(r'data-fault="margins"[^>]*>They leave nothing of this offcut\. Make', answer.text)
    assert shop.read(word) == before
    assert send(client, word, "add", table="offcut", paper="card", size="5 x 8½", right="1/2").status_code == 303
    (offcut,) = read_kit(shop.read(word).document).offcuts
    assert [offcut.margins.right * 10, offcut.margins.left] == [127, 0]


def test_a_trial_of_a_paper_says_what_is_wrong_and_keeps_nothing(client: TestClient, word: str, shop: Workshop) -> None:
    before = shop.read(word)
    said = {"table": "paper", "number": "0", "sheet": "8 1/2"}
    told = client.post(f"/kit/{word}/try", data=said).json()
    assert [each["key"] for each in told["mistakes"]] == ["sheet"]
    assert client.post(f"/kit/{word}/try", data={**said, "sheet": "8 1/2 x 11"}).json()["ok"]
    assert shop.read(word) == before


def test_a_thing_to_buy_is_added_into_the_tray_and_taken_out_again(
    client: TestClient, word: str, shop: Workshop
) -> None:
    before = build(read_kit(shop.read(word).document)).part("tray").lengths
    said = {"name": 'pencil "soft"', "size": "7 x 5/16 x 5/16", "quantity": "2", "packed": "beside", "into": "tray"}
    assert send(client, word, "add", table="extra", **said).status_code == 303
    kit = read_kit(shop.read(word).document)
    assert kit.part("tray").holds == ("card", "envelope", "twine", 'pencil "soft"')
    assert build(kit).part("tray").lengths != before
    assert send(client, word, "take-out", table="extra", number="1").status_code == 303
    assert build(read_kit(shop.read(word).document)).part("tray").lengths == before


def test_a_mat_is_added_on_the_card_and_its_size_follows(client: TestClient, word: str, shop: Workshop) -> None:
    said = {"name": "mat", "form": "mat", "paper": "card", "quantity": "8", "on": "card"}
    answer = send(client, word, "add", table="part", **said)
    there, _, place = str(answer.headers["location"]).partition("#")
    assert answer.status_code == 303
    added = client.get(there).text.partition(f'<article class="part" id="{place}">')[2]
    assert re.search(r"<h3[^>]*>mat</h3>", added.partition("</article>")[0])  # one looks at what was added
    part = build(read_kit(shop.read(word).document)).part("mat")
    assert part.part.on == "card"
    assert "1/8 in border" in part.how[0]


def test_a_second_tray_holds_what_is_ticked(client: TestClient, word: str, shop: Workshop) -> None:
    said = {"name": "small tray", "form": "tray", "paper": "card", "holds-3": "twine"}
    assert send(client, word, "add", table="part", **said).status_code == 303
    assert read_kit(shop.read(word).document).part("small tray").holds == ("twine",)


@pytest.mark.parametrize(
    ("table", "said", "key"),
    [
        ("part", {"name": "", "form": "mat", "paper": "card", "on": "card"}, "name"),
        ("part", {"name": "x", "form": "flat card", "paper": "card", "size": "4 x"}, "size"),
        ("part", {"name": "card", "form": "flat card", "paper": "card", "size": "4 x 5"}, ""),
        ("part", {"name": "x", "form": "flat card", "paper": "card"}, ""),
        ("part", {"name": "x", "form": "no form", "paper": "card", "size": "4 x 5"}, "form"),
        ("extra", {"name": "x"}, "size"),
        ("paper", {"label": "x", "sheet": "1"}, "sheet"),
        ("paper", {"label": ""}, "label"),
    ],
)
def test_a_new_thing_with_a_mistake_is_not_added_and_all_of_it_stays_in_its_fields(
    client: TestClient, word: str, shop: Workshop, *, table: str, said: dict[str, str], key: str
) -> None:
    before = shop.read(word)
    answer = send(client, word, "add", table=table, **said)
    assert answer.status_code == 422
    assert f'id="add-{table}" open' in answer.text
    told = rf'id="add-{table}-{key}-wrong"[^>]*>[^<]+' if key else r'data-wrong role="status">[^<]+'
    assert re.search(told, answer.text)
    assert shop.read(word) == before


def test_only_faces_that_there_are_are_offered_and_what_no_hands_could_make_is_told(
    client: TestClient, word: str, shop: Workshop
) -> None:
    mat = {"name": "mat", "form": "mat", "paper": "card"}
    assert send(client, word, "add", table="part", **mat, on="tray").status_code == 303
    number = len(build(read_kit(shop.read(word).document)).parts) - 1
    assert 'name="face"' in client.get(f"/kit/{word}/parts").text
    assert send(client, word, "part", number=str(number), face="inside").status_code == 303
    assert send(client, word, "part", number=str(number), on="card").status_code == 303
    kept = read_kit(shop.read(word).document).part("mat")
    assert (kept.on, kept.face.value) == ("card", "outside")
    assert 'name="face"' not in client.get(f"/kit/{word}/parts").text
    pocket = {"form": "pocket", "on": "card", "holds": "1", "holds-0": "card"}
    answer = send(client, word, "part", number=str(number), **pocket)
    assert answer.status_code == 422
    assert "This cannot be put together" in answer.text


def test_a_part_is_renamed_and_what_belongs_to_it_follows(client: TestClient, word: str, shop: Workshop) -> None:
    assert send(client, word, "part", number="2", name="box").status_code == 303
    assert read_kit(shop.read(word).document).part("lid").covers == "box"


def test_what_a_part_holds_is_ticked(client: TestClient, word: str, shop: Workshop) -> None:
    said = {"number": "2", "holds": "asked", "holds-0": "card", "holds-4": "twine"}
    assert send(client, word, "part", **said).status_code == 303
    assert read_kit(shop.read(word).document).part("tray").holds == ("card", "twine")
    page = client.get(f"/kit/{word}").text
    assert re.search(r'name="holds-\d" value="twine" checked', page)


def test_a_part_taken_out_is_gone_from_every_list_and_can_be_undone(
    client: TestClient, word: str, shop: Workshop
) -> None:
    before = shop.read(word).document
    assert send(client, word, "take-out", table="part", number="1").status_code == 303
    kit = read_kit(shop.read(word).document)
    assert [part.name for part in kit.parts] == ["card", "tray", "lid"]
    assert kit.part("tray").holds == ("card", "twine")
    client.post(f"/kit/{word}/undo", data={"revision": revision(client, word)})
    assert shop.read(word).document == before


def test_a_paper_in_use_is_not_taken_out(client: TestClient, word: str, shop: Workshop) -> None:
    before = shop.read(word)
    answer = send(client, word, "take-out", table="paper", number="0")
    assert answer.status_code == 422
    assert "is cut from this paper" in answer.text
    assert shop.read(word) == before


def test_the_second_of_two_tabs_that_add_is_told(client: TestClient, word: str, shop: Workshop) -> None:
    seen = revision(client, word)
    said = {"revision": seen, "table": "extra", "name": "a", "size": "1 x 1 x 1"}
    assert client.post(f"/kit/{word}/add", data=said).status_code == 303
    told = client.post(f"/kit/{word}/add", data={**said, "name": "b"})
    assert told.status_code == 409
    assert "<dt>Called</dt><dd>b</dd>" in told.text


@pytest.mark.parametrize("address", ["paper", "extra", "add", "take-out", "try"])
@pytest.mark.parametrize(
    "said",
    [{"table": "kit"}, {"table": "paper", "number": "99"}, {"table": "extra", "number": "-1"}, {"number": "²"}],
)
def test_a_thing_that_is_not_there_is_not_found(
    client: TestClient, word: str, shop: Workshop, address: str, said: dict[str, str]
) -> None:
    before = shop.read(word)
    answer = send(client, word, address, **said)
    assert answer.status_code in {404, 422}
    assert "Traceback" not in answer.text
    assert shop.read(word) == before


def test_how_a_band_goes_what_a_mat_lies_on_and_how_cards_lie_are_chosen(
    client: TestClient, word: str, shop: Workshop
) -> None:
    band = {"name": "band", "form": "belly band", "paper": "card", "wraps": "tray"}
    mat = {"name": "mat", "form": "mat", "paper": "card", "on": "tray"}
    assert send(client, word, "add", table="part", **band).status_code == 303
    assert send(client, word, "add", table="part", **mat).status_code == 303
    assert send(client, word, "part", number="4", goes="end to end").status_code == 303
    assert send(client, word, "part", number="5", face="inside").status_code == 303
    assert send(client, word, "part", number="2", contents="lying").status_code == 303
    kit = read_kit(shop.read(word).document)
    said = kit.part("band").goes.value, kit.part("mat").face.value, kit.part("tray").standing
    assert said == ("end to end", "inside", False)
    assert send(client, word, "part", number="4", goes="").status_code == 303
    assert read_kit(shop.read(word).document).part("band").goes.value == "round the walls"


def test_a_part_becomes_another_form_and_what_that_does_not_know_is_no_longer_said(
    client: TestClient, word: str, shop: Workshop
) -> None:
    assert send(client, word, "part", number="0", form="tag").status_code == 303
    assert read_kit(shop.read(word).document).part("card").form == "tag"
    lid = build(read_kit(shop.read(word).document)).part("lid")
    assert "height" in lid.part.settings
    assert list(strange_settings(lid, "tray")) == []
    assert list(strange_settings(lid, "flap lid")) == [Change("lid", "height", "")]
    before = shop.read(word)
    answer = send(client, word, "part", number="0", form="no such form")
    assert answer.status_code == 422
    assert re.search(r'id="part-0-form-wrong"[^>]*>[^<]+', answer.text)
    assert shop.read(word) == before


def test_the_back_of_a_paper_is_said_in_its_form(client: TestClient, word: str, shop: Workshop) -> None:
    said = {"two-sided": "", "back-print": "one-way", "back-turn": "180"}
    assert send(client, word, "paper", number="0", **said).status_code == 303
    document = shop.read(word).document
    assert 'back-print = "one-way"\nback-turn = 180\n' in document


def test_an_offcut_is_added_changed_and_taken_out_and_a_wrong_size_is_told(
    client: TestClient, word: str, shop: Workshop
) -> None:
    assert send(client, word, "add", table="offcut", paper="card", size="5 x 8½", count="").status_code == 303
    answer = send(client, word, "offcut", number="0", count="3")
    assert answer.headers["location"] == f"/kit/{word}/stash#offcut-0"
    (offcut,) = read_kit(shop.read(word).document).offcuts
    assert (offcut.count, offcut.height * 10) == (3, Fraction(2159))
    wrong = send(client, word, "offcut", number="0", size="5 x")
    assert wrong.status_code == 422
    assert re.search(r'id="offcut-0-size-wrong"[^>]*>[^<]+', wrong.text)
    assert 'value="5 x"' in wrong.text
    assert send(client, word, "take-out", table="offcut", number="0").status_code == 303
    assert read_kit(shop.read(word).document).offcuts == ()


def test_what_is_on_hand_is_said_and_answers_how_many_kits_it_is_enough_for(
    client: TestClient, word: str, shop: Workshop
) -> None:
    asked = client.get(f"/kit/{word}/stash", params={"ask": "yes"})
    assert re.search(r'class="wrong" role="alert">[^<]+', asked.text)
    answer = send(client, word, "paper", number="0", view="stash", **{"on-hand": "4"})
    assert answer.headers["location"] == f"/kit/{word}/stash#paper-0"
    found = from_stash(read_kit(shop.read(word).document))
    page = client.get(f"/kit/{word}/stash", params={"ask": "yes", "kits": "3"}).text
    assert f"{found.kits} kit" in page
    assert "can be made from what is on hand." in page
    assert "To buy for 3 kits" in page
    assert "where kits share sheets" not in page
    send(client, word, "alike", alike="yes")
    assert "where kits share sheets" in client.get(f"/kit/{word}/stash", params={"ask": "yes"}).text


def test_what_is_on_hand_is_not_told_to_be_enough_where_the_trimmer_cannot_cut_it(
    client: TestClient, shop: Workshop
) -> None:
    # 5 x 7 from 12 x 12 begins with a cut of 12
    text = head(sheet="12 x 12", more="on-hand = 4").replace(
        "[paper.card]", '[kit.trimmer]\nlongest-cut = "11"\n[paper.card]'
    )
    kit = shop.begin("Cards", text + part("card", "flat card", size="5 x 7"), words="Begun.")
    page = client.get(f"/kit/{kit.word}/stash", params={"ask": "yes", "kits": "1"}).text
    assert "For 1, more sheets of card would not help: the trimmer cannot make the cuts that free card." in page
    assert '<td class="count">cannot be made: the trimmer cannot make the cuts that free card</td>' in page


def test_every_kit_is_cut_by_the_same_layouts_where_that_is_wished_and_so_it_is_printed_and_followed_at_the_bench(
    client: TestClient, word: str, shop: Workshop
) -> None:
    def told() -> str:
        answer: dict[str, Any] = {"done": False}
        while not answer["done"]:
            answer = client.get(f"/kit/{word}/search", params={"kits": "2"}).json()
        return str(answer["html"])

    def printed() -> tuple[int, str]:
        data = client.get(f"/kit/{word}/take/plan.json", params={"kits": "2"}).json()
        return sum(each["sheets"] for each in data["papers"]), client.get(f"/kit/{word}/bench?kits=2").text

    assert send(client, word, "part", part="0", quantity="1").status_code == 303
    free = printed()
    assert "every kit cut by the same layouts" not in told()
    answer = send(client, word, "alike", alike="yes", kits="2")
    assert answer.headers["location"] == f"/kit/{word}/sheets?kits=2"
    assert "every kit cut by the same layouts" in told()
    made = plan(read_kit(shop.read(word).document), batch=2)
    assert made.kit.alike
    alike = printed()
    assert alike[0] == sum(each.sheets for each in made.papers) > free[0]
    assert "Every kit is cut by the same layouts" in alike[1]
    assert "Every kit is cut by the same layouts" in client.get(f"/kit/{word}/print?kits=2").text
    send(client, word, "alike", kits="2")
    assert printed()[0] == free[0]
    assert "alike" not in shop.read(word).document


@pytest.mark.parametrize(("unit", "like"), [(Unit.INCH, "like 5 x 1/2 x 1/2"), (Unit.MILLIMETRE, "like 130 x 12 x 12")])
def test_the_example_beside_the_sides_of_a_thing_is_in_the_units_of_the_kit(unit: Unit, like: str) -> None:
    assert next(each.help for each in new_extra(unit) if each.key == "size") == like
