"""The exact programme for one sheet against published optima."""

import time
from collections.abc import Iterator

from benchmarks.cutting.measured import read, turns
from kitwright.cutting import PieceType, Stock, TrimmerLimits
from kitwright.cutting.job import make_job
from kitwright.cutting.knapsack import make_table, sheet_value, solve_table


def knapsack() -> Iterator[str]:
    """Guillotine knapsack gcut1-12, without and with quarter turns: published optima."""
    right, total = 0, 0.0
    for name, case in read("gcut.json").items():
        for turned in (False, True):
            pieces = [PieceType(str(i), w, h, 1, turns(turned=turned)) for i, (w, h) in enumerate(case["pieces"])]
            start = time.perf_counter()
            job = make_job(pieces, [Stock("sheet", *case["sheet"])], TrimmerLimits())
            table = make_table(job, range(len(job.kinds)), [0], strip=0)
            assert table is not None
            values = solve_table(table, [kind.area for kind in job.kinds])
            value = sheet_value(table, values, job.sheets[0].width, job.sheets[0].height) * job.unit**2
            total += time.perf_counter() - start
            wanted = case["optimum_turned" if turned else "optimum"]
            right += value == wanted
            if value != wanted:
                yield f"{name} {'turned' if turned else 'upright'}: {value}, published {wanted}"
    yield f"{right} of 24 optima, {total:.2f} s in all"
