"""The pencil lines from a catch to a rate."""

from collections.abc import Sequence
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
from ..quantities.working import Line, added
from ..statistics.budget import nominal
from .weighing import Catch

PRACTICE = "common practice, no source"


def static_lines(
    catches: Sequence[Catch], *, mean: float, run: Run, drill: Drill, static: float
) -> tuple[Line, ...]:
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
    lines = [*_weight_lines(catches, mean)]
    lines.append(
        Line(
            say("Ground under the rows caught: run × rows × spacing"),
            GROUND(ground),
            LENGTH(nominal(run.distance), 5) * ROWS(rows_caught) * SPACING(nominal(drill.spacing)),
            PRACTICE,
        )
    )
    lines.append(
        Line(
            say("Rate of these rows: catch ÷ ground"),
            RATE(rate),
            CATCH(mean) / GROUND(ground),
            PRACTICE,
        )
    )
    if drill.open_rows < drill.covered_rows:
        lines.append(
            Line(
                say("Over all the ground: open rows ÷ rows of ground"),
                RATE(static),
                RATE(rate) * ROWS(drill.open_rows) / ROWS(drill.covered_rows),
            )
        )
    return tuple(lines)


def field_lines(run: Run, *, field_ratio: float, static: float) -> tuple[Line, ...]:
    """Show how the rate at the stand becomes the field's, where they differ."""
    slip = nominal(run.slip)
    lines, rate = [], static
    if slip:
        left = 1 - slip
        lines.append(
            Line(
                say("Slip {slip}, counted here and nowhere else", slip=SHARE(slip)),
                RATE(rate * left),
                RATE(rate) * NUMBER(left),
            )
        )
        rate *= left
    if field_ratio != 1:
        lines.append(
            Line(
                say("This drill in the field, against the stand"),
                RATE(rate * field_ratio),
                RATE(rate) * NUMBER(field_ratio),
            )
        )
    return tuple(lines)


def _weight_lines(catches: Sequence[Catch], mean: float) -> list[Line]:
    lines = []
    totals = [fsum(bag.weight for bag in catch) for catch in catches]
    for catch, total in zip(catches, totals, strict=True):
        if len(catch) > 1:
            terms = added(CATCH(bag.weight) for bag in catch)
            lines.append(Line(say("Seed from all bags"), CATCH(total, 5), terms))
    if len(totals) > 1:
        lines.append(
            Line(
                say("All repeats together"),
                CATCH(fsum(totals), 5),
                added(CATCH(total, 5) for total in totals),
            )
        )
        whole = CATCH(fsum(totals), 5)
        count = CATCHES(len(totals))
        text = say("Mean catch")
        lines.append(Line(text, CATCH(mean, 5), whole / count))
    return lines
