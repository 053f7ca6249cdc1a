"""The pencil lines behind the evenness of rows."""

from collections.abc import Iterator, Sequence
from math import fsum

from ..quantities.phrases import Amount, say
from ..quantities.units import CATCH, CATCHES, NUMBER, ROWS, SHARE
from ..quantities.working import PENCIL_DIGITS, Line, divide, multiply
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
    catch : RowCatch
    scatter : Scatter
    odd : sequence of OddRow
    spread : Spread
        What the odd rows were held against.
    """
    cv = Line(
        say("Scatter between rows (CV): standard deviation ÷ mean"),
        Amount(scatter.cv, SHARE),
        (*multiply(_weight(scatter.cv * catch.mean)), *divide(_weight(catch.mean))),
        PRACTICE,
    )
    rows = [line for each in odd for line in _odd(catch, each, spread)]
    return (_mean(catch), cv, *rows)


def _mean(catch: RowCatch) -> Line:
    seed = fsum(weights[row - 1] for weights in catch.weights for row in catch.running)
    over = [Amount(len(catch.running), ROWS)]
    if len(catch.weights) > 1:
        over.append(Amount(len(catch.weights), CATCHES))
    return Line(
        say("Mean of the rows that run: their seed ÷ rows"),
        _weight(catch.mean),
        (*multiply(_weight(seed)), *divide(*over)),
        PRACTICE,
    )


def _odd(catch: RowCatch, odd: OddRow, spread: Spread) -> Iterator[Line]:
    weight = (1 + odd.off) * catch.mean
    yield Line(
        say("Row {row} in parts of the mean", row=odd.row),
        Amount(1 + odd.off, SHARE),
        (*multiply(_weight(weight)), *divide(_weight(catch.mean))),
        PRACTICE,
    )
    yield Line(
        say("Its distance in standard deviations of a sound row"),
        Amount(odd.z, NUMBER),
        (*multiply(Amount(abs(odd.off), SHARE)), *divide(Amount(spread.sd, SHARE))),
        "Rosner (1983), Technometrics 25, 165–172; Holm (1979)",
    )


def _weight(kg: float) -> Amount:
    return Amount(kg, CATCH, PENCIL_DIGITS)
