"""HiGHS, the solver of the linear and whole-number programmes: made quiet, repeatable, and able to hear a stop."""

from __future__ import annotations

import math
from typing import Any, Final

__all__ = ["Halt", "quiet_solver", "run", "set_whole"]

WORK_OF_A_PROGRAMME: Final = 5_000
WORK_OF_AN_ITERATION: Final = 200
"""About how many microseconds a whole-number programme takes, by itself and for each iteration of its fractional ones."""


def quiet_solver() -> Any:
    """A HiGHS solver that says nothing, uses one thread and one seed, so that its answers can be repeated."""
    import highspy  # noqa: PLC0415  # heavy: loaded only when a search is made

    class Silent(highspy.Highs):
        """HiGHS greets on standard output when its own callbacks are switched on; `run` sets ours later."""

        def enableCallbacks(self) -> None:  # noqa: N802  # the library's name
            """Leave them off."""

    solver: Any = Silent()  # type: ignore[no-untyped-call]  # its types are not declared
    for option, value in (("output_flag", False), ("log_to_console", False), ("threads", 1), ("random_seed", 0)):
        solver.setOptionValue(option, value)
    return solver


class Halt:
    """Stops a programme that another thread solves, without a call from there that would hold both up."""

    def __init__(self) -> None:
        self.solver: Any = None
        self.is_said = False

    def hold(self, solver: Any) -> None:
        """From now on it is this programme that is stopped."""
        self.solver = solver
        if self.is_said:
            self.say()

    def say(self) -> None:
        """Stop: what was found by then is the answer. HiGHS looks at its time limit again and again, so it is given none."""
        self.is_said = True
        if self.solver is not None:
            self.solver.setOptionValue("time_limit", 0.0)


def run(solver: Any, halt: Halt, *, enough: float = -math.inf) -> int:
    """Solve a whole-number programme; what is found by then is the answer when it is worth `enough`, or when a halt is said.

    How much work that was, in microseconds (counted by its iterations, not measured).
    """
    if enough > -math.inf:
        solver.setOptionValue("objective_target", enough)
    halt.hold(solver)
    solver.run()
    return WORK_OF_A_PROGRAMME + WORK_OF_AN_ITERATION * max(0, int(solver.getInfo().simplex_iteration_count))


def set_whole(solver: Any, columns: int) -> None:
    """Let every column take whole numbers only."""
    import highspy  # noqa: PLC0415  # heavy: loaded only when a search is made
    import numpy as np  # noqa: PLC0415

    places = np.arange(columns, dtype=np.int32)
    kinds = np.array([highspy.HighsVarType.kInteger] * columns)
    solver.changeColsIntegrality(columns, places, kinds)
