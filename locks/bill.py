"""The bill of materials: what is installed of a lock, in the open format CycloneDX 1.6 (ECMA-424), as JSON.

Made from the metadata of the installed packages; what is the same comes out the same, so it holds no time and no serial number.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from importlib.metadata import Distribution, PackageNotFoundError, distribution

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

from locks.licences import ALLOWED_CARRIED, Licence, carried, is_allowed, licence
from locks.pins import ROOT, pins

__all__ = ["Item", "bill", "faults", "items"]


@dataclass(frozen=True)
class Item:
    """One installed package: its licence, the libraries of others that it carries, what it needs, its size in bytes."""

    name: str
    version: str
    licence: Licence | None
    carries: dict[str, str | None]
    needs: tuple[str, ...]
    size: int


def items(lock: str) -> list[Item]:
    """What a lock wants on this computer, as it is installed; LookupError if it is not, or in another version."""
    return [installed(pin.name, pin.version) for pin in pins(lock) if pin.is_wanted()]


def installed(name: str, version: Version) -> Item:
    try:
        found = distribution(name)
    except PackageNotFoundError:
        raise LookupError(f"{name} {version} is locked but not installed; set up again") from None
    if Version(found.version) != version:
        raise LookupError(f"{name} {version} is locked but {found.version} is installed; set up again")
    size = sum(file.size or 0 for file in found.files or [])
    return Item(name, found.version, licence(found), carried(found), needs(found), size)


def needs(of: Distribution) -> tuple[str, ...]:
    """The names of the packages that it asks for on this computer, without its extras."""
    asked = [Requirement(words) for words in of.requires or []]
    wanted = [each for each in asked if each.marker is None or each.marker.evaluate({"extra": ""})]
    return tuple(sorted({canonicalize_name(each.name) for each in wanted}))


def faults(there: list[Item]) -> list[str]:
    """A sentence for every package without a licence that can be told, or with one that we do not take."""
    said = []
    for item in there:
        if item.licence is None:
            said.append(f"{item.name} {item.version} states no licence that can be told: read its licence file")
        elif not is_allowed(item.licence.expression):
            said.append(f"{item.name} {item.version} has a licence that we do not take: {item.licence.expression}")
        for name, expression in item.carries.items():
            if expression is None or not is_allowed(expression, ALLOWED_CARRIED):
                said.append(f"{item.name} {item.version} carries {name}, whose licence we do not take: {expression}")
    return said


def bill(there: list[Item]) -> dict[str, object]:
    """The bill of materials of Kitwright with these packages."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    names = {item.name: reference(item.name, item.version) for item in there}
    own = reference(project["name"], project["version"])
    direct = [canonicalize_name(Requirement(words).name) for words in project["dependencies"]]
    return {
        "$schema": "http://cyclonedx.org/schema/bom-1.6.schema.json",
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {
            "component": {
                "type": "application",
                "bom-ref": own,
                "name": project["name"],
                "version": project["version"],
                "description": project["description"],
                "licenses": [{"expression": project["license"], "acknowledgement": "declared"}],
            }
        },
        "components": [component(item) for item in there],
        "dependencies": [
            {"ref": own, "dependsOn": [names[name] for name in direct if name in names]},
            *(
                {"ref": names[item.name], "dependsOn": [names[name] for name in item.needs if name in names]}
                for item in there
            ),
        ],
    }


def component(item: Item) -> dict[str, object]:
    own = reference(item.name, item.version)
    known: dict[str, object] = {
        "type": "library",
        "bom-ref": own,
        "name": item.name,
        "version": item.version,
        "purl": own,
    }
    if item.licence is not None:
        acknowledgement = "concluded" if item.licence.reason else "declared"
        known["licenses"] = [{"expression": item.licence.expression, "acknowledgement": acknowledgement}]
    if item.carries:
        known["components"] = [
            {
                "type": "library",
                "bom-ref": f"{own}#{re.sub('[^a-z0-9]+', '-', name.lower()).strip('-')}",
                "name": name,
                **({"licenses": [{"expression": expression}]} if expression else {}),
            }
            for name, expression in item.carries.items()
        ]
    return known


def reference(name: str, version: str) -> str:
    """A package URL (purl), which names a package of Python in bills of materials."""
    return f"pkg:pypi/{name}@{version}"
