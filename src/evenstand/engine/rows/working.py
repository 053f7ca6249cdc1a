"""The pencil lines behind the evenness of rows."""

from collections.abc import Iterator, Sequence
from math import fsum

from ..quantities.phrases import say
from ..quantities.units import CATCH, CATCHES, NUMBER, ROWS, SHARE, Amount
from ..quantities.working import Line
from .catch import RowCatch
from .odd import OddRow, Spread
from .scatter import Scatter

PRACTICE = "common practice, no source"


def row_lines(
    catch: RowCatch, scatter: Scatter, *, odd: Sequence[OddRow], spread: Spread
) -> tuple[Line, ...]:
    """Show the mean, the scatter and each odd row with its distance.

    Parameters
    ----------
    spread : Spread
        What the odd rows were held against.
    """
    cv = Line(
        say("Scatter between rows (CV): standard deviation ÷ mean"),
        SHARE(scatter.cv, 3),
        _weight(scatter.cv * catch.mean) / _weight(catch.mean),
        PRACTICE,
    )
    rows = [line for each in odd for line in _odd(catch, each, spread)]
    return (_mean(catch), cv, *rows)


def _mean(catch: RowCatch) -> Line:
    seed = fsum(weights[row - 1] for weights in catch.weights for row in catch.running)
    terms = _weight(seed) / ROWS(len(catch.running))
    if len(catch.weights) > 1:
        terms /= CATCHES(len(catch.weights))
    return Line(
        say("Mean of the rows that run: their seed ÷ rows"), _weight(catch.mean), terms, PRACTICE
    )


def _odd(catch: RowCatch, odd: OddRow, spread: Spread) -> Iterator[Line]:
    weight = (1 + odd.off) * catch.mean
    yield Line(
        say("Row {row} in parts of the mean", row=odd.row),
        SHARE(1 + odd.off, 3),
        _weight(weight) / _weight(catch.mean),
        PRACTICE,
    )
    yield Line(
        say("Its distance in standard deviations of a sound row"),
        NUMBER(odd.z, 3),
        SHARE(abs(odd.off), 3) / SHARE(spread.sd, 3),
        "Rosner (1983), Technometrics 25, 165–172; Holm (1979)",
    )


def _weight(kg: float) -> Amount:
    return CATCH(kg)
