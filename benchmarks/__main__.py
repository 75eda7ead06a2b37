"""Run the benchmarks: `python -m benchmarks` for all, `python -m benchmarks NAME ...` for some of them.

`ablation`, `fuzz` and `mutants` take options of their own after their name; `--help` tells them. The first and the last are not among all.
"""

import sys

from benchmarks.again import BENCHMARKS as AGAIN
from benchmarks.chain import BENCHMARKS as CHAIN
from benchmarks.cutting import BENCHMARKS as CUTTING
from benchmarks.cutting.ablation import main as ablation
from benchmarks.folding import BENCHMARKS as FOLDING
from benchmarks.fuzz import BENCHMARKS as FUZZ
from benchmarks.fuzz import main as fuzz
from benchmarks.kills import BENCHMARKS as KILLS
from benchmarks.mending import BENCHMARKS as MENDING
from benchmarks.mutants import main as mutants
from benchmarks.nesting import BENCHMARKS as NESTING
from benchmarks.packing import BENCHMARKS as PACKING
from benchmarks.page import BENCHMARKS as PAGE
from benchmarks.printing import BENCHMARKS as PRINTING
from benchmarks.proof import BENCHMARKS as PROOF
from benchmarks.same import BENCHMARKS as SAME

BENCHMARKS = {
    **AGAIN,
    **CHAIN,
    **CUTTING,
    **FOLDING,
    **FUZZ,
    **KILLS,
    **MENDING,
    **NESTING,
    **PACKING,
    **PAGE,
    **PRINTING,
    **PROOF,
    **SAME,
}
COMMANDS = {"ablation": ablation, "fuzz": fuzz, "mutants": mutants}


def main(names: list[str]) -> int:
    """Run the named benchmarks, or all; 2 if there is no such name."""
    if names and names[0] in COMMANDS and (len(names) > 1 or names[0] not in BENCHMARKS):
        return COMMANDS[names[0]](names[1:])
    unknown = [name for name in names if name not in BENCHMARKS]
    if unknown:
        sys.stdout.write(f"There is no benchmark {unknown[0]!r}. Known: {', '.join(BENCHMARKS)}.\n")
        return 2
    for name in names or BENCHMARKS:
        sys.stdout.write(f"== {name}: {BENCHMARKS[name].__doc__}\n")
        for line in BENCHMARKS[name]():
            sys.stdout.write(line + "\n")
            sys.stdout.flush()
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
