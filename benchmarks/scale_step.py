"""Coarse scales at a light rate: do the ranges hold when the step is read off what is typed?

A drill seeds about 5 lb/ac; all 24 rows are caught over 20 turns, once or three
times, and weighed on scales that round to their step and are off by up to one.
Each weight is typed as the scale shows it. Beside it stands what a step of 1 g
would have promised.
"""

import sys
from dataclasses import dataclass
from random import Random
from statistics import fmean

from evenstand.engine.catch.rate import Measured, measure
from evenstand.engine.catch.target import Target
from evenstand.engine.catch.weighing import Bag, Prior, WeighScale, read_off
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import Run, rolled, turned
from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.units import CATCH, GRAM, INCH, POUND_PER_ACRE, Unit
from evenstand.engine.statistics.budget import nominal

DRILL = Drill(rows=24, spacing=7.5 * INCH)
TURNS = 20
PRIOR = Prior()
LIKELY = 0.9  # odds from which a rate is taken as settled


@dataclass(frozen=True)
class OnScale:
    """A scale: its step in a unit, and how its weights are typed."""

    name: str
    step: float
    unit: Unit
    places: int

    def shown(self, weight: float, off: float) -> str:
        """Type what it shows of a weight."""
        steps = round(weight / self.unit.size / self.step + off)
        return f"{max(steps, 1) * self.step:.{self.places}f} {self.unit.symbol}"


SCALES = (
    OnScale("1 oz", 1, CATCH.us, 0),
    OnScale("5 g", 5, CATCH.metric, 0),
    OnScale("0.1 oz", 0.1, CATCH.us, 1),
    OnScale("1 g", 1, CATCH.metric, 0),
)


def caught(random: Random, scale: OnScale, *, repeats: int, run: Run) -> tuple[float, list[str]]:
    """Return the true rate of a drill and what is typed of its catches."""
    rate = 5 * POUND_PER_ACRE * random.uniform(0.8, 1.25)
    area = nominal(run.distance) * nominal(DRILL.width)
    off = random.uniform(-1, 1)
    cv = PRIOR.repeat(nominal(run.distance) * DRILL.rows)
    weights = [rate * area * random.gauss(1, cv) for _ in range(repeats)]
    return rate, [scale.shown(weight, off) for weight in weights]


def measured(texts: list[str], target: Target, *, run: Run, by: WeighScale | None) -> Measured:
    """Measure catches as they were typed, on a scale that is read off them or given."""
    readings = [read(text, CATCH, field="net") for text in texts]
    (scale,) = {by} if by else set(read_off([[each] for each in readings], WeighScale()))
    return measure(
        [(Bag(weight=each.value, rows=DRILL.rows),) for each in readings],
        run=run,
        drill=DRILL,
        scale=scale,
        prior=PRIOR,
        target=target,
    )


def held(scale: OnScale, *, repeats: int, drills: int, by: WeighScale | None) -> list[str]:
    """Say how many ranges hold, and of rates claimed within 5% how many are, and claimed."""
    random, run = Random(11), turned(rolled(95 * INCH), TURNS)
    holds, within, claimed = 0, [], []
    for _ in range(drills):
        rate, texts = caught(random, scale, repeats=repeats, run=run)
        target = Target(rate=rate * random.uniform(0.92, 1.08), tolerance=0.05)
        found = measured(texts, target, run=run, by=by)
        holds += found.static.low <= rate <= found.static.high
        if found.verdict and found.verdict.odds_within >= LIKELY:
            within.append(target.low <= rate <= target.high)
            claimed.append(found.verdict.odds_within)
    if not within:
        return [f"{holds / drills:.1%}", "–", "–", "0"]
    share = len(within) / drills
    return [
        f"{holds / drills:.1%}",
        f"{fmean(within):.0%}",
        f"{fmean(claimed):.0%}",
        f"{share:.0%}",
    ]


def main(drills: int = 2000) -> None:
    """Print a table."""
    print("| scale | catches | step | ranges hold | truly within | claimed | settled |")
    print("|---|---|---|---|---|---|---|")
    for scale in SCALES:
        for repeats in (1, 3):
            for name, by in (("as typed", None), ("1 g", WeighScale(resolution=GRAM))):
                cells = held(scale, repeats=repeats, drills=drills, by=by)
                print("|", " | ".join([scale.name, str(repeats), name, *cells]), "|")


if __name__ == "__main__":
    main(*(int(each) for each in sys.argv[1:]))
