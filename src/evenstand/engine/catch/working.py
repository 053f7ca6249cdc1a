"""The pencil lines from a catch to a rate."""

from collections.abc import Sequence
from math import fsum

from ..drill.drill import Drill
from ..drill.travel import Run
from ..quantities.phrases import Amount, say
from ..quantities.units import CATCH, CATCHES, GROUND, LENGTH, NUMBER, RATE, ROWS, SHARE, SPACING
from ..quantities.working import PENCIL_DIGITS, Line, Operator, divide, multiply
from ..statistics.budget import nominal
from .weighing import Catch

PRACTICE = "common practice, no source"


def static_lines(
    catches: Sequence[Catch], *, mean: float, run: Run, drill: Drill, static: float
) -> tuple[Line, ...]:
    """Show how weights become a rate at the stand.

    Parameters
    ----------
    catches : sequence of Catch
    mean : float
        Mean net seed of the repeats. [kg]
    run : Run
    drill : Drill
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
            Amount(ground, GROUND, PENCIL_DIGITS),
            multiply(
                Amount(nominal(run.distance), LENGTH, 5),
                Amount(rows_caught, ROWS),
                Amount(nominal(drill.spacing), SPACING, PENCIL_DIGITS),
            ),
            PRACTICE,
        )
    )
    lines.append(
        Line(
            say("Rate of these rows: catch ÷ ground"),
            Amount(rate, RATE, PENCIL_DIGITS),
            (
                *multiply(Amount(mean, CATCH, PENCIL_DIGITS)),
                *divide(Amount(ground, GROUND, PENCIL_DIGITS)),
            ),
            PRACTICE,
        )
    )
    if drill.open_rows < drill.covered_rows:
        lines.append(
            Line(
                say("Over all the ground: open rows ÷ rows of ground"),
                Amount(static, RATE, PENCIL_DIGITS),
                (
                    *multiply(Amount(rate, RATE, PENCIL_DIGITS), Amount(drill.open_rows, ROWS)),
                    *divide(Amount(drill.covered_rows, ROWS)),
                ),
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
                say("Slip {slip}, counted here and nowhere else", slip=Amount(slip, SHARE)),
                Amount(rate * left, RATE, PENCIL_DIGITS),
                multiply(Amount(rate, RATE, PENCIL_DIGITS), Amount(left, NUMBER, PENCIL_DIGITS)),
            )
        )
        rate *= left
    if field_ratio != 1:
        lines.append(
            Line(
                say("This drill in the field, against the stand"),
                Amount(rate * field_ratio, RATE, PENCIL_DIGITS),
                multiply(
                    Amount(rate, RATE, PENCIL_DIGITS), Amount(field_ratio, NUMBER, PENCIL_DIGITS)
                ),
            )
        )
    return tuple(lines)


def _weight_lines(catches: Sequence[Catch], mean: float) -> list[Line]:
    lines = []
    totals = [fsum(bag.weight for bag in catch) for catch in catches]
    for catch, total in zip(catches, totals, strict=True):
        if len(catch) > 1:
            terms: tuple[tuple[Operator, Amount], ...] = tuple(
                ("+", Amount(bag.weight, CATCH, PENCIL_DIGITS)) for bag in catch
            )
            lines.append(Line(say("Seed from all bags"), Amount(total, CATCH, 5), terms))
    if len(totals) > 1:
        lines.append(
            Line(
                say("All repeats together"),
                Amount(fsum(totals), CATCH, 5),
                tuple(("+", Amount(total, CATCH, 5)) for total in totals),
            )
        )
        whole = Amount(fsum(totals), CATCH, 5)
        count = Amount(len(totals), CATCHES)
        text = say("Mean catch")
        lines.append(Line(text, Amount(mean, CATCH, 5), (*multiply(whole), *divide(count))))
    return lines
