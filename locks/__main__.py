"""Look after what Kitwright is made with: python -m locks JOB, in the environment that run.py made."""

from __future__ import annotations

import argparse
import datetime
import json
import re
import sys
from pathlib import Path

from locks.bill import Item, bill, faults, items
from locks.pins import ROOT, digest
from locks.renew import renew
from locks.wheels import table, wheels_there

PAGE = ROOT / "docs" / "platforms.md"


def licences() -> int:
    """Print licence and size of everything that is installed; 1 if a licence is missing or not one that we take."""
    runtime, all_of_it = items("runtime"), items("dev")
    names = {item.name for item in runtime}
    more = [item for item in all_of_it if item.name not in names]
    for title, there in (("For running Kitwright", runtime), ("For working on it", more)):
        print(f"{title}: {len(there)} packages, {megabytes(there):.0f} MB")
        for item in sorted(there, key=lambda item: -item.size):
            print(f"  {megabytes([item]):6.1f} MB  {item.name} {item.version}: {described(item)}")
    said = faults(all_of_it)
    print("\n".join(said) or "Every package has a licence that we take.")
    return 1 if said else 0


def megabytes(there: list[Item]) -> float:
    return sum(item.size for item in there) / 1e6


def described(item: Item) -> str:
    own = "no licence" if item.licence is None else item.licence.expression
    why = f" (read: {item.licence.reason})" if item.licence is not None and item.licence.reason else ""
    return own + why + "".join(f"; carries {name}: {expression}" for name, expression in item.carries.items())


def bills(into: Path) -> int:
    """Write the bills of materials, of what runs Kitwright and of what it is worked on with, into a folder."""
    into.mkdir(parents=True, exist_ok=True)
    for lock, name in (("runtime", "kitwright"), ("dev", "kitwright-development")):
        text = json.dumps(bill(items(lock)), indent=2, ensure_ascii=False)
        (into / f"{name}.cdx.json").write_text(text + "\n", encoding="utf-8")
    return 0


def wheels() -> int:
    """Ask for which computers there are wheels, and write the table into docs/platforms.md."""
    day = f"{datetime.date.today():%d %B %Y}".lstrip("0")
    rows = "\n".join(table(wheels_there()))
    told = f"<!-- table -->\nAsked on {day}, for the lock `{digest('dev')}`.\n\n{rows}\n<!-- end of table -->"
    page = PAGE.read_text(encoding="utf-8")
    PAGE.write_text(re.sub("<!-- table -->.*<!-- end of table -->", told, page, flags=re.DOTALL), encoding="utf-8")
    print(rows)
    return 0


def main() -> int:
    """Read the wanted job and do it."""
    parser = argparse.ArgumentParser(prog="python -m locks", description=__doc__)
    jobs = parser.add_subparsers(dest="job", required=True, metavar="JOB")
    jobs.add_parser("licences", help=licences.__doc__)
    jobs.add_parser("bills", help=bills.__doc__).add_argument("--into", type=Path, default=ROOT / "dist")
    jobs.add_parser("wheels", help=wheels.__doc__)
    jobs.add_parser("renew", help=renew.__doc__).add_argument("newer", nargs="*", metavar="PACKAGE")
    wanted = parser.parse_args()
    if wanted.job == "licences":
        return licences()
    if wanted.job == "bills":
        return bills(wanted.into)
    if wanted.job == "wheels":
        return wheels()
    renew(*wanted.newer)
    return 0


if __name__ == "__main__":
    sys.exit(main())
