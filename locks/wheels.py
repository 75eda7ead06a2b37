"""For which computers and Pythons there are wheels of everything that is locked for running Kitwright.

Asked once a package, through uv, which hands over the names of the files that there are; nothing is downloaded.
"""

from __future__ import annotations

import re
import tempfile
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import chain
from pathlib import Path

from packaging.tags import Tag, compatible_tags, cpython_tags, mac_platforms
from packaging.utils import parse_wheel_filename

from locks.pins import pins
from locks.renew import EVERYWHERE, compile_with_uv

__all__ = ["PLATFORMS", "PYTHONS", "Platform", "missing", "oldest_system", "table", "wheels_there"]

Wheels = dict[tuple[str, str], list[str]]  # the file names of the wheels of a package, by its name and version

PYTHONS = ((3, 11), (3, 12), (3, 13), (3, 14), (3, 15))


@dataclass(frozen=True)
class Platform:
    """A kind of computer: the tags of wheels that run on a current one, and what markers say of it."""

    name: str
    system: str
    tags: tuple[str, ...]
    markers: dict[str, str] = field(hash=False)

    def accepts(self, wheel: str, python: tuple[int, int]) -> bool:
        """Whether a wheel of this file name is installed there with this Python (CPython, with its lock)."""
        return not self.accepted(python).isdisjoint(parse_wheel_filename(wheel)[3])

    def accepted(self, python: tuple[int, int]) -> frozenset[Tag]:
        """All tags of wheels that are installed there."""
        interpreter = f"cp{python[0]}{python[1]}"
        own = cpython_tags(python, abis=[interpreter], platforms=self.tags)
        return frozenset(chain(own, compatible_tags(python, interpreter, platforms=self.tags)))

    def environment(self, python: tuple[int, int]) -> dict[str, str]:
        """The values of markers there."""
        version = f"{python[0]}.{python[1]}"
        both = {"implementation_name": "cpython", "platform_python_implementation": "CPython"}
        return {**both, **self.markers, "python_version": version, "python_full_version": f"{version}.0"}


def windows(name: str, tag: str, machine: str) -> Platform:
    said = {"os_name": "nt", "sys_platform": "win32", "platform_system": "Windows", "platform_machine": machine}
    return Platform(name, "", (tag,), said)


def mac(name: str, machine: str) -> Platform:
    said = {"os_name": "posix", "sys_platform": "darwin", "platform_system": "Darwin", "platform_machine": machine}
    return Platform(name, "macOS", tuple(mac_platforms((26, 0), machine)), said)


def linux(name: str, machine: str, library: str) -> Platform:
    said = {"os_name": "posix", "sys_platform": "linux", "platform_system": "Linux", "platform_machine": machine}
    old = ("manylinux1", "manylinux2010", "manylinux2014")  # for glibc 2.5, 2.12 and 2.17
    glibc = (*(f"manylinux_2_{minor}" for minor in range(5, 43)), *old)
    musl = tuple(f"musllinux_1_{minor}" for minor in range(6))
    return Platform(name, library, tuple(f"{each}_{machine}" for each in (glibc if library == "glibc" else musl)), said)


PLATFORMS = (
    windows("Windows x64", "win_amd64", "AMD64"),
    windows("Windows arm64", "win_arm64", "ARM64"),
    mac("macOS arm64", "arm64"),
    mac("macOS Intel", "x86_64"),
    linux("Linux x64", "x86_64", "glibc"),
    linux("Linux arm64", "aarch64", "glibc"),
    linux("Linux x64, musl", "x86_64", "musl"),
    linux("Linux arm64, musl", "aarch64", "musl"),
)


def wheels_there() -> Wheels:
    """The wheels of everything that set-up installs; it needs uv and the network."""
    with tempfile.TemporaryDirectory() as folder:
        into = Path(folder) / "pylock.toml"  # PEP 751
        form = (*EVERYWHERE, "--format", "pylock.toml")
        known = ("--group", "dev", "--constraint", "locks/dev.txt")
        compile_with_uv("pyproject.toml", *known, *form, "--output-file", str(into))
        packages = tomllib.loads(into.read_text(encoding="utf-8"))["packages"]
    return {
        (package["name"], package["version"]): [
            wheel.get("name") or wheel["url"].rsplit("/", 1)[1] for wheel in package.get("wheels", [])
        ]
        for package in packages
    }


def fitting(there: Wheels, platform: Platform, python: tuple[int, int], lock: str = "runtime") -> dict[str, list[str]]:
    """The wheels that run there, by the name of every package of the lock that is wanted there."""
    wanted = [pin for pin in pins(lock) if pin.is_wanted(platform.environment(python))]
    return {
        pin.name: [wheel for wheel in there[pin.name, str(pin.version)] if platform.accepts(wheel, python)]
        for pin in wanted
    }


def missing(there: Wheels, platform: Platform, python: tuple[int, int]) -> str:
    """The names of the packages without a wheel there, "all" if there are none; those only for working on it in brackets."""
    lacking = [name for name, wheels in fitting(there, platform, python, "dev").items() if not wheels]
    running = {pin.name for pin in pins("runtime")}
    return ", ".join(name if name in running else f"({name})" for name in lacking) or "all"


def oldest_system(there: Wheels, platform: Platform) -> tuple[int, ...]:
    """The oldest macOS, glibc or musl on which everything runs that has a wheel there; () where wheels ask for none."""
    asked = [
        min(needed(wheel) for wheel in wheels)
        for python in PYTHONS
        for wheels in fitting(there, platform, python).values()
        if wheels
    ]
    return max(asked)


def needed(wheel: str) -> tuple[int, ...]:
    """The least version of the system that one of the wheel's tags asks for."""
    old = {"manylinux1": (2, 5), "manylinux2010": (2, 12), "manylinux2014": (2, 17)}
    asked = []
    for tag in parse_wheel_filename(wheel)[3]:
        numbers = re.match(r"(?:macosx|manylinux|musllinux)_(\d+)_(\d+)_", tag.platform)
        asked.append(tuple(map(int, numbers.groups())) if numbers else old.get(tag.platform.split("_")[0], ()))
    return min(asked)


def table(there: Wheels) -> Iterator[str]:
    """The rows of a table in Markdown."""
    yield "| computer | oldest system | " + " | ".join(f"Python {major}.{minor}" for major, minor in PYTHONS) + " |"
    yield "|---" * (len(PYTHONS) + 2) + "|"
    for platform in PLATFORMS:
        cells = [missing(there, platform, python) for python in PYTHONS]
        oldest = f"{platform.system} {'.'.join(map(str, oldest_system(there, platform)))}".strip()
        yield f"| {platform.name} | {oldest} | " + " | ".join(cells) + " |"
