"""A linear program in HiGHS: built once, solved, changed a little, solved again."""

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import highspy
import numpy as np

INFINITY = highspy.kHighsInf
Ending = Literal["best", "none", "out of time"]


@dataclass(frozen=True, slots=True)
class Row:
    """low ≤ Σ coefficient × column ≤ high."""

    terms: Mapping[int, float]
    low: float = -INFINITY
    high: float = INFINITY


@dataclass(frozen=True, slots=True)
class Column:
    """A number to be found, with its ends and what one of it costs."""

    high: float
    cost: float = 0.0
    whole: bool = False


@dataclass(frozen=True, slots=True)
class Found:
    """How a search ended; ``gap`` is how far from the best it may be, as a share."""

    ending: Ending
    objective: float = 0.0
    values: tuple[float, ...] = ()
    duals: tuple[float, ...] = ()
    gap: float = 0.0


class _Quiet(highspy.Highs):
    def enableCallbacks(self) -> None:  # noqa: N802 - the library's own name
        # Called first by the library's constructor; otherwise it prints a banner.
        self.silent()
        super().enableCallbacks()  # type: ignore[no-untyped-call]


class Program:
    """A program whose rows can be let go, whose whole numbers can be fixed.

    HiGHS keeps state between runs; that is what makes the next run quick.
    """

    def __init__(
        self,
        columns: Sequence[Column],
        rows: Sequence[Row],
        *,
        seconds: float,
        whole: bool = True,
    ) -> None:
        self.columns, self.rows = columns, rows
        self._highs = _Quiet()  # type: ignore[no-untyped-call]
        for option, value in (
            ("parallel", "off"),
            ("time_limit", seconds),
            ("mip_rel_gap", 1e-9),
            ("mip_feasibility_tolerance", 1e-9),
            ("primal_feasibility_tolerance", 1e-9),
        ):
            self._highs.setOptionValue(option, value)
        self._highs.passModel(_model(columns, rows, whole=whole))

    def solve(self) -> Found:
        """Search for the best values of all columns."""
        self._highs.run()
        status = self._highs.getModelStatus()
        if status in (
            highspy.HighsModelStatus.kInfeasible,
            highspy.HighsModelStatus.kUnboundedOrInfeasible,
        ):
            return Found("none")
        solution, info = self._highs.getSolution(), self._highs.getInfo()
        done = status == highspy.HighsModelStatus.kOptimal
        return Found(
            "best" if done else "out of time",
            info.objective_function_value,
            tuple(solution.col_value) if solution.value_valid else (),
            tuple(solution.row_dual) if solution.dual_valid else (),
            0.0 if done else info.mip_gap,
        )

    def let_go(self, row: int) -> None:
        """Drop one row, for now."""
        self._highs.changeRowBounds(row, -INFINITY, INFINITY)

    def hold(self, row: int) -> None:
        """Take a dropped row back."""
        self._highs.changeRowBounds(row, self.rows[row].low, self.rows[row].high)

    def bound(self, row: int, low: float, high: float) -> None:
        """Give a row other ends, for now."""
        self._highs.changeRowBounds(row, low, high)

    def fix(self, values: Sequence[float], *, loose: Container[int] = ()) -> None:
        """Make every whole column what it was found to be, the loose ones any number."""
        for index, column in enumerate(self.columns):
            if column.whole:
                value = float(round(values[index]))
                low, high = (0.0, column.high) if index in loose else (value, value)
                self._highs.changeColIntegrality(index, highspy.HighsVarType.kContinuous)
                self._highs.changeColBounds(index, low, high)

    def aim(self, costs: Mapping[int, float]) -> None:
        """Look for the least of something else."""
        for index in range(len(self.columns)):
            self._highs.changeColCost(index, costs.get(index, 0.0))


def _model(columns: Sequence[Column], rows: Sequence[Row], *, whole: bool) -> highspy.HighsLp:
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(columns), len(rows)
    model.col_cost_ = np.array([column.cost for column in columns])
    model.col_lower_ = np.zeros(len(columns))
    model.col_upper_ = np.array([column.high for column in columns])
    model.row_lower_ = np.array([row.low for row in rows])
    model.row_upper_ = np.array([row.high for row in rows])
    matrix = model.a_matrix_
    matrix.format_ = highspy.MatrixFormat.kRowwise
    matrix.start_ = np.cumsum([0, *(len(row.terms) for row in rows)], dtype=np.int32)
    matrix.index_ = np.array([i for row in rows for i in row.terms], dtype=np.int32)
    matrix.value_ = np.array([a for row in rows for a in row.terms.values()], dtype=float)
    if whole and any(column.whole for column in columns):
        kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
        model.integrality_ = [kinds[column.whole] for column in columns]
    return model
