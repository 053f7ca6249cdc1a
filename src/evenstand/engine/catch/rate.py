"""Seeding rate from a catch, with everything that makes it uncertain.

The drive wheel is turned a counted number of times, the seed that some rows
drop is caught and weighed, and the catch is divided by the ground that those
rows would have covered.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt
from typing import Annotated

from ..drill.drill import Drill
from ..drill.travel import Run
from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import CATCH, RATE, SHARE
from ..quantities.working import Line
from ..rows.evenness import sampling
from ..statistics.budget import (
    Cause,
    Estimate,
    Quantity,
    Share,
    budget,
    estimate,
    nominal,
    uncertain,
)
from .target import Target, Verdict, judge
from .weighing import Catch, Prior, WeighScale, repeat_scatter, row_spread
from .working import field_lines, static_lines


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What a catch, with its repeats, says.

    ``static`` is the rate at the stand, ``field`` what the field gets from
    it: slip of a taped wheel and the drill's field ratio are in it. ``shares``
    is the budget of ``field``. All rates in kg/m².
    """

    static: Annotated[Estimate, RATE]
    field: Annotated[Estimate, RATE]
    shares: tuple[Share, ...]
    verdict: Verdict | None
    working: tuple[Line, ...]
    assumed: tuple[Phrase, ...]
    catch: Annotated[float, CATCH]
    rows_caught: int
    repeats: int

    @property
    def common(self) -> float:
        """Relative uncertainty that all catches of the job share. [-]"""
        squares = (s.u * s.u for s in self.shares if s.common)
        return sqrt(fsum(squares)) / self.field.value

    @property
    def per_catch(self) -> float:
        """Relative uncertainty that another catch averages down. [-]"""
        squares = (s.u * s.u for s in self.shares if not s.common)
        return sqrt(fsum(squares)) / self.field.value


def static_rate(
    catch: Quantity,
    *,
    distance: Quantity,
    spacing: Quantity,
    rows_caught: int,
    sown: float = 1.0,
) -> Quantity:
    """Seeding rate that a catch stands for, at the stand.

    rate = catch ÷ (distance × spacing × rows caught) × sown

    Parameters
    ----------
    catch : Quantity
        Net seed from all caught rows together. [kg]
    distance : Quantity
        Turns × ground per turn. [m]
    spacing : Quantity
        Distance between neighbouring rows. [m]
    rows_caught : int
        Rows whose seed is in the catch, ≥ 1.
    sown : float
        Open rows ÷ rows whose ground is covered, 1 where none is blocked. [-]

    Returns
    -------
    Quantity [kg/m²]
        Rate over the covered width. How well the caught rows stand for all
        of them is a share of its own: see ``rows.sampling``.

    Raises
    ------
    MeasurementError
        For any input that is not above zero; ``field`` names it.

    References
    ----------
    Common practice, no source; JCGM 100:2008 (GUM), eq. (10), for the uncertainty.

    Examples
    --------
    Twenty turns of 8 ft under four rows 7.5 in apart are 400 ft². Seed at
    60 lb/ac on them weighs 8.8 oz:

    >>> from uncertainties import ufloat
    >>> from evenstand.engine.quantities.units import FOOT, INCH, OUNCE, POUND_PER_ACRE
    >>> rate = static_rate(
    ...     ufloat(8.8, 0.1, "scale reading") * OUNCE,
    ...     distance=ufloat(20, 0.05, "turn count") * ufloat(8, 0.08, "rolled distance") * FOOT,
    ...     spacing=7.5 * INCH,
    ...     rows_caught=4,
    ... )
    >>> print(f"{rate / POUND_PER_ACRE:.1u} lb/ac")
    59.9+/-0.9 lb/ac
    """
    require_positive("catch", nominal(catch), "kg")
    require_positive("distance", nominal(distance), "m")
    require_positive("spacing", nominal(spacing), "m")
    require_positive("rows_caught", rows_caught, "rows")
    return catch / (distance * spacing * rows_caught) * sown


def measure(
    catches: Sequence[Catch],
    *,
    run: Run,
    drill: Drill,
    scale: WeighScale,
    prior: Prior,
    field_ratio: Quantity = 1.0,
    target: Target | None = None,
) -> Measured:
    """Turn a catch and its repeats into a rate, a range and a verdict.

    field rate = static rate × (1 − slip) × field ratio

    Parameters
    ----------
    catches : sequence of Catch, length k ≥ 1
        Repeats of the same run at the same setting.
    run : Run
        Ground that each of them stands for.
    field_ratio : Quantity
        Field rate ÷ what the bench makes of it, slip already counted. [-]
    target : Target, optional
        Without one there is no verdict.

    Raises
    ------
    MeasurementError
        For no catch, an empty catch, more rows caught than open rows,
        repeats from different rows, or a field ratio not above zero.

    Notes
    -----
    Terms of the budget, as relative variances: scatter of the repeats pooled
    with the prior; d²/6 for gross and tare read to a step d; tolerance²/3;
    turn count; tape or rolled distance; spacing; (1 − r/N)·CV²/r for the rows
    not caught; slip; field ratio.

    References
    ----------
    JCGM 100:2008 (GUM), 5.1, 4.3.7, F.2.2.1 and G.4.
    """
    rows_caught = _rows_caught(catches, drill)
    require_positive("field_ratio", nominal(field_ratio))
    weights = [fsum(bag.weight for bag in catch) for catch in catches]
    for weight in weights:
        require_positive("catch", weight, "kg")
    mean = fsum(weights) / len(weights)
    terms, causes = _terms(catches, weights, run, scale=scale, prior=prior, drill=drill)
    static = static_rate(
        mean * terms,
        distance=run.distance,
        spacing=drill.spacing,
        rows_caught=rows_caught,
        sown=drill.sown_share,
    )
    on_field = static * (1 - run.slip) * field_ratio
    shares = budget(on_field, causes)
    ranged = estimate(on_field, shares)
    static_range = estimate(static, budget(static, causes))
    return Measured(
        static=static_range,
        field=ranged,
        shares=shares,
        verdict=_judge(static_range, ranged, target),
        working=(
            *run.working,
            *static_lines(catches, mean=mean, run=run, drill=drill, static=nominal(static)),
            *field_lines(run, field_ratio=nominal(field_ratio), static=nominal(static)),
        ),
        assumed=run.assumed
        + drill.assumed
        + _assumptions(scale, prior, rows_caught=rows_caught, drill=drill),
        catch=mean,
        rows_caught=rows_caught,
        repeats=len(catches),
    )


def _judge(static: Estimate, on_field: Estimate, target: Target | None) -> Verdict | None:
    if target is None:
        return None
    return judge(static if target.on == "static" else on_field, target)


def _rows_caught(catches: Sequence[Catch], drill: Drill) -> int:
    if not catches or not all(catches):
        raise MeasurementError("catch", (), say("enter at least one weight"))
    counts = {sum(bag.rows for bag in catch) for catch in catches}
    if len(counts) > 1:
        raise MeasurementError("again", sorted(counts), say("catch the same rows every time"))
    rows_caught = counts.pop()
    if rows_caught > drill.open_rows:
        need = say("enter no more than the drill's {rows} open rows", rows=drill.open_rows)
        raise MeasurementError("rows_caught", rows_caught, need)
    return rows_caught


def _terms(
    catches: Sequence[Catch],
    weights: Sequence[float],
    run: Run,
    *,
    scale: WeighScale,
    prior: Prior,
    drill: Drill,
) -> tuple[Quantity, dict[str, Cause]]:
    """Return the factor 1 with all terms that a catch itself brings, and causes."""
    k, mean, bags = len(weights), fsum(weights) / len(weights), catches[0]
    rows_caught = sum(bag.rows for bag in bags)
    row_length = nominal(run.distance) * rows_caught
    scatter, scatter_dof = repeat_scatter(weights, row_length=row_length, scale=scale, prior=prior)
    row_cv, row_dof = row_spread(catches, prior)
    limits = fsum(scale.limits(bag.weight) for bag in bags)
    reading = scale.resolution * sqrt(len(bags) / 6)
    terms = (
        uncertain(1.0, scatter / sqrt(k), "catch-to-catch variation")
        * uncertain(1.0, reading / mean, "scale reading")
        * uncertain(1.0, limits / mean / sqrt(3), "scale error")
        * uncertain(
            1.0, sampling(drill.open_rows, rows_caught, cv=row_cv), "the rows you didn't catch"
        )
    )
    return terms, {
        "catch-to-catch variation": Cause(scatter_dof, common=False),
        "scale reading": Cause(common=False),
        "turn count": Cause(common=False),
        "measured distance": Cause(common=False),
        "the rows you didn't catch": Cause(row_dof),
    }


def _assumptions(
    scale: WeighScale, prior: Prior, *, rows_caught: int, drill: Drill
) -> tuple[Phrase, ...]:
    said = [scale.read_to]
    if scale.tolerance is None:
        said.append(
            say(
                "scale assumed good to 1 to 3 of its smallest steps, like a "
                "legal-for-trade scale in use"
            )
        )
    if rows_caught < drill.open_rows:
        said.append(say("rows vary by {cv} around their average", cv=SHARE(prior.row_cv)))
    return tuple(said)
