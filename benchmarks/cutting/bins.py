"""500 batches of different pieces, one of each: Berkey and Wang, Martello and Vigo; a packing library without a bound as a peer."""

from collections.abc import Iterator
from itertools import product

from benchmarks.cutting.measured import measure, read, turns
from kitwright.cutting import PieceType, Stock

SECONDS = 5.0

GUILLOTINE = [
    f"Guillotine{choice}{split}"
    for choice, split in product(("Bssf", "Blsf", "Baf"), ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas"))
]


def peer(sheet: list[int], pieces: list[list[int]], *, turned: bool) -> int:
    """The fewest sheets of all guillotine modes of the peer."""
    import rectpack  # noqa: PLC0415  (only here; `python run.py benchmark` installs it)

    counts = []
    for algorithm in GUILLOTINE:
        packer = rectpack.newPacker(
            mode=rectpack.PackingMode.Offline,
            pack_algo=getattr(rectpack, algorithm),
            sort_algo=rectpack.SORT_AREA,
            rotation=turned,
        )
        packer.add_bin(*sheet, count=float("inf"))
        for width, height in pieces:
            packer.add_rect(width, height)
        packer.pack()
        if sum(len(one) for one in packer) == len(pieces):
            counts.append(len(packer))
    return min(counts)


def bins(*, turned: bool) -> Iterator[str]:
    """All 500, by class."""
    totals: dict[str, list[float]] = {}
    for name, case in read("bins.json").items():
        pieces = [PieceType(str(i), w, h, 1, turns(turned=turned)) for i, (w, h) in enumerate(case["pieces"])]
        done = measure(pieces, [Stock("sheet", *case["sheet"])], seconds=SECONDS)
        plan = done.plan
        other = peer(case["sheet"], case["pieces"], turned=turned)
        row = (
            plan.value,
            case["best"][turned],
            plan.is_proved,
            other,
            plan.value > other,
            done.is_verified,
            done.seconds,
        )
        sums = totals.setdefault(name[:2], [0.0] * len(row))
        for place, number in enumerate(row):
            sums[place] += number
        if name.endswith("_100_10"):
            yield show(f"class {name[:2]}", sums)
    yield show("all", [sum(column) for column in zip(*totals.values(), strict=True)])


def show(name: str, sums: list[float]) -> str:
    ours, best, proved, other, worse, verified, seconds = sums
    found = f"{ours:.0f} best known {best:.0f} proved {proved:.0f} verified {verified:.0f}"
    return f"{name}: {found} peer {other:.0f} worse than peer {worse:.0f}, {seconds:.0f} s"


def bins_oriented() -> Iterator[str]:
    """500 bin-packing batches without turning, 5 s each, against the best known 3-stage totals and a peer."""
    yield from bins(turned=False)


def bins_turned() -> Iterator[str]:
    """The same with quarter turns."""
    yield from bins(turned=True)
