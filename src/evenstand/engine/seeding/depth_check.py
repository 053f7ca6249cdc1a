"""How deep the seed lies, dug up at several rows, and what usually makes it uneven."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum, sqrt
from typing import Literal

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import MILLIMETRE, SHARE, SPACING
from ..rows.causes import EMERGED, Check
from ..statistics.budget import Estimate
from ..statistics.distributions import t_quantile
from ..statistics.quantile import require_number
from ..statistics.variance import one_way

ALLOWED = 10 * MILLIMETRE  # a quality card of drilling: ± 1.0 to 1.5 cm
SEEDS_TO_DIG = 10  # the same card: dig at least ten times a shift, across the width
EVEN_ENOUGH = 0.80  # judgement: share of seeds within the allowed depth
ROWS_DIFFER = 0.05  # odds by chance below which rows are said to differ

DepthFault = Literal["shallow", "deep", "rows", "uneven", "none"]

DEPTH_CAUSES: Mapping[DepthFault, tuple[Check, ...]] = {
    "none": (),
    "shallow": (
        Check(say("Is there enough down pressure for this ground and speed?")),
        Check(say("Is the residue being cut, or hairpinned into the slot with the seed on top?")),
        Check(say("Are the openers worn, or the disks smaller than they used to be?")),
        Check(say("Is the drill running level, with the hitch at the right height?")),
        Check(say("Make a pass at a slower speed: is the seed deeper then?")),
    ),
    "deep": (
        Check(say("Are the depth wheels or stops set right for this ground?")),
        Check(say("Is there more down pressure than this soft ground needs?")),
        Check(say("Do front rows throw soil over the rows behind?"), EMERGED),
    ),
    "rows": (
        Check(say("Are the depth stops on these rows set like the others?")),
        Check(say("Do these rows run in a wheel track?")),
        Check(say("Is there a broken spring, a worn bearing or a plugged opener?")),
        Check(say("Do the front and rear ranks differ: is the drill level?"), EMERGED),
    ),
    "uneven": (
        Check(say("Are you driving too fast for this ground?")),
        Check(say("Is residue bunched up so openers ride over it?")),
        Check(say("Is there enough down pressure to keep the openers in the ground?")),
        Check(say("Does the seed bounce: is the seed firmer or press wheel in place?")),
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Depths:
    """Depths that were dug up. [m]

    ``mean`` is with its 95% range, ``sd`` the spread of single seeds;
    ``within`` is the share of them inside wanted ± allowed, and ``row_sd``
    what the rows differ by of themselves, None where each was dug once.
    """

    mean: Estimate
    sd: float
    within: float
    row_sd: float | None
    fault: DepthFault
    say: Phrase
    next: Phrase
    causes: tuple[Check, ...]
    assumed: tuple[Phrase, ...]


def depths(dug: Sequence[Sequence[float]], *, wanted: float, allowed: float = ALLOWED) -> Depths:
    """Judge the depths of seeds dug up in some rows.

    Parameters
    ----------
    dug : sequence of sequences of float
        Depths of the seeds of each row, from the surface to the seed. [m]
    wanted : float
        Depth that the seed should lie at. [m]
    allowed : float
        How far from it a seed may lie. [m]

    Raises
    ------
    MeasurementError
        For fewer than two seeds, a depth below zero, or a wanted or allowed
        depth not above zero.

    References
    ----------
    ± 1.0 to 1.5 cm and ten digs a shift: a quality card of drilling, as
    quoted. Start 100 ft behind where the drill stopped, several rows, front
    to back and across: Canola Council of Canada. Causes: common practice, no
    source, but for those that name one.
    """
    require_positive("wanted", wanted, "m")
    require_positive("allowed", allowed, "m")
    seeds = [depth for row in dug for depth in row]
    _check(seeds)
    mean = _mean(seeds)
    sd = mean.u * sqrt(len(seeds))
    within = sum(abs(depth - wanted) <= allowed + 1e-12 for depth in seeds) / len(seeds)
    row_sd, p = _between(dug)
    fault = _fault(mean, within, wanted=wanted, rows_differ=p < ROWS_DIFFER)
    return Depths(
        mean=mean,
        sd=sd,
        within=within,
        row_sd=row_sd,
        fault=fault,
        say=_headline(mean, within, wanted=wanted, allowed=allowed),
        next=_next(fault, seeds=len(seeds)),
        causes=DEPTH_CAUSES[fault],
        assumed=_assumed(allowed),
    )


def _check(seeds: Sequence[float]) -> None:
    if len(seeds) < 2:
        raise MeasurementError("depths", tuple(seeds), say("dig up at least two seeds"))
    for depth in seeds:
        require_number("depths", depth)
        if not depth >= 0:
            raise MeasurementError(
                "depths", depth, say("enter 0 for seed on the surface, or a depth")
            )


def _mean(seeds: Sequence[float]) -> Estimate:
    n = len(seeds)
    mean = fsum(seeds) / n
    sd = sqrt(fsum((d - mean) * (d - mean) for d in seeds) / (n - 1))
    u, dof = sd / sqrt(n), float(n - 1)
    reach = t_quantile(0.975, dof=dof) * u
    return Estimate(mean, max(0.0, mean - reach), mean + reach, u, dof)


def _between(rows: Sequence[Sequence[float]]) -> tuple[float | None, float]:
    """What rows differ by of themselves, and how often chance alone would show that."""
    filled = [row for row in rows if row]
    seeds = [depth for row in filled for depth in row]
    if len(filled) < 2 or len(seeds) == len(filled) or min(seeds) == max(seeds):
        return None, 1.0
    table = one_way(filled)
    return table.group_sd, table.p


def _fault(mean: Estimate, within: float, *, wanted: float, rows_differ: bool) -> DepthFault:
    if rows_differ:
        return "rows"
    if within >= EVEN_ENOUGH:
        return "none"
    if mean.high < wanted:
        return "shallow"
    return "deep" if mean.low > wanted else "uneven"


def _headline(mean: Estimate, within: float, *, wanted: float, allowed: float) -> Phrase:
    text = (
        "Average seed depth is {mean} ({low} to {high}); {within} of seeds are "
        "within {allowed} of the {wanted} target."
    )
    return say(
        text,
        mean=SPACING(mean.value, 2),
        low=SPACING(mean.low, 2),
        high=SPACING(mean.high, 2),
        within=SHARE(within, 2),
        allowed=SPACING(allowed, 2),
        wanted=SPACING(wanted, 2),
    )


def _next(fault: DepthFault, *, seeds: int) -> Phrase:
    if fault != "none":
        return say(
            "Stop, shut off the tractor, then check: {first}", first=DEPTH_CAUSES[fault][0].say
        )
    if seeds < SEEDS_TO_DIG:
        return say("Dig up {n} more, in other rows.", n=SEEDS_TO_DIG - seeds)
    return say("Keep going: the depth is right.")


def _assumed(allowed: float) -> tuple[Phrase, ...]:
    text = "dug where the drill was running at full speed, 100 ft or more from where it stopped"
    if allowed != ALLOWED:
        return (say(text),)
    return (say("a seed may be {allowed} off", allowed=SPACING(allowed, 2)), say(text))
