"""Benchmarks of the cutting layer."""

from collections.abc import Callable, Iterator

from benchmarks.cutting.batches import flat_in_kits, largest_offcut, many_kinds, one_sheet
from benchmarks.cutting.bins import bins_oriented, bins_turned
from benchmarks.cutting.craft import craft, kits
from benchmarks.cutting.knapsack import knapsack
from benchmarks.cutting.limits import work_and_memory
from benchmarks.cutting.stock import cutting_stock, several_sheets

BENCHMARKS: dict[str, Callable[[], Iterator[str]]] = {
    "knapsack": knapsack,
    "cutting-stock": cutting_stock,
    "several-sheets": several_sheets,
    "craft": craft,
    "kits": kits,
    "many-kinds": many_kinds,
    "flat-in-kits": flat_in_kits,
    "one-sheet": one_sheet,
    "largest-offcut": largest_offcut,
    "bins-oriented": bins_oriented,
    "bins-turned": bins_turned,
    "work-and-memory": work_and_memory,
}

__all__ = ["BENCHMARKS"]
