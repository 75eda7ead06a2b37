"""The README is true: its pictures are the program's own, its kit document is proved, its commands and links exist."""

import re
import tomllib
from pathlib import Path

from docs.readme_pictures import readme_pictures
from kitwright.cli import COMMANDS
from kitwright.kit import build, prove, read_kit

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
PICTURES = ROOT / "docs" / "pictures"


def test_the_pictures_are_what_the_program_draws_now() -> None:
    made = readme_pictures()
    assert {name: (PICTURES / name).read_text(encoding="utf-8") for name in made} == made


def test_the_kit_document_in_it_is_proved() -> None:
    document = re.search(r"^    \[kit\]\n(?:    .*\n|\n)+", README, flags=re.MULTILINE)
    assert document is not None
    text = re.sub(r"^    ", "", document[0], flags=re.MULTILINE)
    assert tomllib.loads(text)["kit"]["name"] == "Tea box"
    assert prove(build(read_kit(text))).is_proved


def test_every_command_it_names_exists() -> None:
    named = set(re.findall(r"^    kitwright ([a-z]+)", README, flags=re.MULTILINE))
    assert named
    assert named <= set(COMMANDS)


def test_every_file_it_links_to_exists() -> None:
    links = re.findall(r"\]\(([^)]+)\)", README)
    assert links
    for link in links:
        assert (ROOT / link).exists(), link


def test_it_gives_the_two_commands_with_and_without_make() -> None:
    for words in ("make demo", "make test", "python run.py demo", "python run.py test"):
        assert words in README
