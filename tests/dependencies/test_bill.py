"""The bill of materials names every installed package once, with its licence and what it needs, in CycloneDX."""

import json
from importlib.metadata import version

import pytest
from packaging.version import Version

from locks import bill as module
from locks.bill import Item, bill, items
from locks.licences import Licence
from locks.pins import Pin, pins

JINJA = Item("jinja2", "3.1.6", Licence("BSD-3-Clause", "its metadata says only BSD"), {}, ("markupsafe", "absent"), 9)
SAFE = Item("markupsafe", "3.0.4", Licence("BSD-3-Clause"), {"Lib (old)": "LGPL-2.1-only"}, (), 9)


def test_a_component_has_its_version_its_address_its_licence_and_what_it_carries() -> None:
    assert bill([JINJA, SAFE])["components"] == [
        {
            "type": "library",
            "bom-ref": "pkg:pypi/jinja2@3.1.6",
            "name": "jinja2",
            "version": "3.1.6",
            "purl": "pkg:pypi/jinja2@3.1.6",
            "licenses": [{"expression": "BSD-3-Clause", "acknowledgement": "concluded"}],
        },
        {
            "type": "library",
            "bom-ref": "pkg:pypi/markupsafe@3.0.4",
            "name": "markupsafe",
            "version": "3.0.4",
            "purl": "pkg:pypi/markupsafe@3.0.4",
            "licenses": [{"expression": "BSD-3-Clause", "acknowledgement": "declared"}],
            "components": [
                {
                    "type": "library",
                    "bom-ref": "pkg:pypi/markupsafe@3.0.4#lib-old",
                    "name": "Lib (old)",
                    "licenses": [{"expression": "LGPL-2.1-only"}],
                }
            ],
        },
    ]


def test_what_depends_on_what_is_told_among_what_is_in_the_bill() -> None:
    assert bill([JINJA, SAFE])["dependencies"] == [
        {"ref": "pkg:pypi/kitwright@0.1.0", "dependsOn": ["pkg:pypi/jinja2@3.1.6"]},
        {"ref": "pkg:pypi/jinja2@3.1.6", "dependsOn": ["pkg:pypi/markupsafe@3.0.4"]},
        {"ref": "pkg:pypi/markupsafe@3.0.4", "dependsOn": []},
    ]


def test_everything_that_runs_here_is_reached_from_the_program() -> None:
    made = json.loads(json.dumps(bill(items("runtime"))))
    assert (made["bomFormat"], made["specVersion"]) == ("CycloneDX", "1.6")
    names = [each["name"] for each in made["components"]]
    assert sorted(names) == sorted(pin.name for pin in pins("runtime") if pin.is_wanted())
    leads = {row["ref"]: row["dependsOn"] for row in made["dependencies"]}
    reached: set[str] = set()
    waiting = [made["metadata"]["component"]["bom-ref"]]
    while waiting:
        if (one := waiting.pop()) not in reached:
            reached.add(one)
            waiting += leads[one]
    assert reached == set(leads)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("h11", rf"h11 99 is locked but {version('h11')} is installed"),
        ("no-such", "no-such 99 is locked but not installed"),
    ],
)
def test_what_is_not_installed_as_locked_is_refused(monkeypatch: pytest.MonkeyPatch, name: str, words: str) -> None:
    monkeypatch.setattr(module, "pins", lambda _lock: (Pin(name, Version("99"), "", ()),))
    with pytest.raises(LookupError, match=words):
        items("runtime")
