"""The pencil lines from a catch to a rate."""

from collections.abc import Iterator, Sequence
from math import fsum

from ..drill.drill import Drill
from ..drill.travel import Run
from ..quantities.phrases import say
from ..quantities.units import (
    CATCH,
    CATCHES,
    GROUND,
    LENGTH,
    NUMBER,
    RATE,
    ROWS,
    SHARE,
    SPACING,
)
from ..quantities.working import PRACTICE, Line, added
from ..statistics.budget import nominal
from .weighing import Catch


def static_lines(
    catches: Sequence[Catch], *, mean: float, run: Run, drill: Drill, static: float
) -> Iterator[Line]:
    """Show how weights become a rate at the stand.

    Parameters
    ----------
    mean : float
        Mean net seed of the repeats. [kg]
    static : float
        The rate they come to. [kg/m²]
    """
    rows_caught = sum(bag.rows for bag in catches[0])
    ground = nominal(run.distance) * nominal(drill.spacing) * rows_caught
    rate = mean / ground
    yield from _weight_lines(catches, mean)
    yield Line(
        say("Area under the rows caught: distance × rows × row spacing"),
        GROUND(ground),
        LENGTH(nominal(run.distance), 5) * ROWS(rows_caught) * SPACING(nominal(drill.spacing)),
        PRACTICE,
    )
    text = say("Rate of these rows: catch ÷ area")
    yield Line(text, RATE(rate), CATCH(mean) / GROUND(ground), PRACTICE)
    if drill.open_rows < drill.covered_rows:
        terms = RATE(rate) * ROWS(drill.open_rows) / ROWS(drill.covered_rows)
        yield Line(say("Over the full width: open rows ÷ all rows"), RATE(static), terms)


def field_lines(run: Run, *, field_ratio: float, static: float) -> Iterator[Line]:
    """Show how the rate at the stand becomes the field's, where they differ."""
    slip, rate = nominal(run.slip), static
    if slip:
        left = 1 - slip
        text = say("Slip {slip}, counted here only", slip=SHARE(slip))
        yield Line(text, RATE(rate * left), RATE(rate) * NUMBER(left))
        rate *= left
    if field_ratio != 1:
        text = say("This drill: field vs. stationary")
        yield Line(text, RATE(rate * field_ratio), RATE(rate) * NUMBER(field_ratio))


def _weight_lines(catches: Sequence[Catch], mean: float) -> Iterator[Line]:
    totals = [fsum(bag.weight for bag in catch) for catch in catches]
    for catch, total in zip(catches, totals, strict=True):
        if len(catch) > 1:
            terms = added(CATCH(bag.weight) for bag in catch)
            yield Line(say("Seed from all bags"), CATCH(total, 5), terms)
    if len(totals) > 1:
        whole = CATCH(fsum(totals), 5)
        yield Line(say("All repeats combined"), whole, added(CATCH(total, 5) for total in totals))
        yield Line(say("Average catch"), CATCH(mean, 5), whole / CATCHES(len(totals)))
