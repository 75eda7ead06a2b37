"""HiGHS, the solver of the linear and whole-number programmes: made quiet, repeatable, and able to hear a stop."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

__all__ = ["GoesOn", "Halt", "quiet_solver", "run", "set_whole"]

GoesOn = Callable[[], bool]
"""Asked again and again while a programme is solved; False stops it."""


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


def run(solver: Any, goes_on: GoesOn | Halt, *, enough: float = -math.inf) -> None:
    """Solve a whole-number programme; what is found by then is the answer when it is worth `enough`, or when `goes_on` says no."""
    import highspy  # noqa: PLC0415  # heavy: loaded only when a search is made

    if enough > -math.inf:
        solver.setOptionValue("objective_target", enough)
    if isinstance(goes_on, Halt):
        goes_on.hold(solver)
    else:

        def hear(_kind: Any, _message: str, _now: Any, answer: Any, _own: Any) -> None:
            if not goes_on():
                answer.user_interrupt = True

        solver.setCallback(hear, None)
        solver.startCallback(highspy.cb.HighsCallbackType.kCallbackMipInterrupt)
    solver.run()


def set_whole(solver: Any, columns: int) -> None:
    """Let every column take whole numbers only."""
    import highspy  # noqa: PLC0415  # heavy: loaded only when a search is made
    import numpy as np  # noqa: PLC0415

    places = np.arange(columns, dtype=np.int32)
    kinds = np.array([highspy.HighsVarType.kInteger] * columns)
    solver.changeColsIntegrality(columns, places, kinds)
