"""Simulated fields with the truth known: does the monitor of Sow deserve its odds?

Every field has a true rate that nobody sees, perhaps another from some acre
on, bags that are not exactly their label, and levels read by eye. What is
said is held against what happened.
"""

import sys
from dataclasses import dataclass
from itertools import pairwise
from math import fsum, sqrt
from random import Random
from statistics import median

from uncertainties import ufloat

from evenstand.engine.catch.target import Target, judge
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import ACRE, POUND, POUND_PER_ACRE
from evenstand.engine.seed.size_class import SeedClass
from evenstand.engine.seeding.balance import follow
from evenstand.engine.seeding.change_point import find_turning
from evenstand.engine.seeding.events import Event, Level, Load
from evenstand.engine.seeding.field_area import AreaMeter
from evenstand.engine.seeding.field_ratio import PastField, Soil, learn_ratio
from evenstand.engine.seeding.level import InBox
from evenstand.engine.seeding.runout import run_out
from evenstand.engine.seeding.steps import DRIFT, Known
from evenstand.engine.statistics.budget import nominal

RATE = 60 * POUND_PER_ACRE
TOLERANCE = 0.05
LEVEL_U = 10 * POUND
PROMISE = 0.03
FILL, FILLS = 8, 10  # acres


@dataclass(frozen=True)
class Field:
    """What happened on a field: events, and the rate as it really was at the end."""

    events: tuple[Event, ...]
    rate: float
    needed: float  # seed that the next acres will really take


def field(rng: Random, *, off: float, turn: tuple[int, float] | None = None) -> Field:
    """Sow a field: a rate off by some share, and by another from a fill on."""
    rate, seed = RATE * (1 + off), 0.0
    events: list[Event] = []
    full = 2 * FILL * RATE * ACRE
    for fill in range(FILLS):
        at = fill * FILL * ACRE
        weight = full - seed
        seed += weight + rng.gauss(0, weight * 0.003)
        events.append(Load(at=at, weight=weight, u=weight * 0.003))
        if turn and fill == turn[0]:
            rate = rate * (1 + turn[1])
        for _ in range(FILL):
            rate += rng.gauss(0, DRIFT * RATE)
            seed -= rate * ACRE
        seen = InBox(weight=max(0.0, rng.gauss(seed, LEVEL_U)), u=LEVEL_U, by_volume=False)
        events.append(Level(at=at + FILL * ACRE, seed=seen))
    rest = 0.0
    ahead = rate
    for _ in range(3 * FILL):
        ahead += rng.gauss(0, DRIFT * RATE)
        rest += ahead * ACRE
    return Field(tuple(events), rate, rest)


def known(meter: AreaMeter | None = None) -> Known:
    """What the farmer knows: a promise of ± 3 %, and an exact area meter."""
    exact = AreaMeter(factor=1.0, known=True, say=say("exact"))
    promised = ufloat(RATE, PROMISE * RATE, "calibration")
    target = Target(rate=RATE, tolerance=TOLERANCE)
    return Known(target=target, expected=promised, meter=meter or exact, reading_u=0.0)


def first_alarm(sown: Field) -> int | None:
    """The fill after which 9 in 10 first speak for a rate outside the band."""
    whole = follow(sown.events, known())
    for number, point in enumerate((p for p in whole.points if p.z is not None), start=1):
        if judge(point.rate, whole.known.target).word in ("light", "heavy"):
            return number
    return None


def alarms(off: float, *, fields: int, seed: int) -> tuple[float, float | None]:
    """Share of fields with an alarm, and acres to it in the middle field."""
    rng = Random(seed)
    found = [first_alarm(field(rng, off=off)) for _ in range(fields)]
    acres = [number * FILL for number in found if number]
    return len(acres) / fields, median(acres) if acres else None


def covered(*, fields: int, seed: int, off: float = PROMISE) -> float:
    """Share of fields whose true rate at the end lies in the range that is said."""
    rng, inside = Random(seed), 0
    for _ in range(fields):
        sown = field(rng, off=rng.gauss(0, off))
        said = follow(sown.events, known()).rate
        inside += said.low <= sown.rate <= said.high
    return inside / fields


def turns(change: float, *, fields: int, seed: int) -> tuple[float, float, float]:
    """Share of fields where a change is found, placed within its range, and how far off."""
    rng, found, placed, offs = Random(seed), 0, 0, []
    for _ in range(fields):
        fill = 4 if change else 0
        sown = field(rng, off=rng.gauss(0, 0.01), turn=(fill, change) if change else None)
        turning = find_turning(follow(sown.events, known()))
        if turning is not None:
            found += 1
            truth = fill * FILL * ACRE
            placed += turning.place.low <= truth <= turning.place.high
            offs.append(abs(turning.place.value - truth) / ACRE)
    return found / fields, placed / found if found else 0.0, median(offs) if offs else 0.0


def short(*, fields: int, seed: int) -> list[tuple[float, bool]]:
    """Odds that seed runs out over the next 24 acres, and whether it did."""
    rng, said = Random(seed), []
    for _ in range(fields):
        sown = field(rng, off=rng.gauss(0, PROMISE))
        balance = follow(sown.events, known())
        have = 3 * FILL * RATE * ACRE * rng.uniform(0.93, 1.07)
        ground = 3 * FILL * ACRE
        found = run_out(ufloat(have, LEVEL_U), rate=balance.rate_now, ground=ground)
        said.append((found.odds, sown.needed > rng.gauss(have, LEVEL_U)))
    return said


@dataclass(frozen=True)
class Machine:
    """A drill's true field ratio, by seed and soil."""

    drill: float
    kinds: dict[SeedClass, float]
    soils: dict[Soil, float]

    def ratio(self, rng: Random, kind: SeedClass, soil: Soil) -> float:
        """Ratio of one field: the drill's, that seed's, that soil's and the field's own."""
        return self.drill + self.kinds[kind] + self.soils[soil] + rng.gauss(0, 0.02)


def machine(rng: Random) -> Machine:
    """Draw a drill."""
    kinds: tuple[SeedClass, ...] = ("large", "small")
    soils: tuple[Soil, ...] = ("firm", "loose")
    return Machine(
        rng.gauss(0.977, 0.055),
        {kind: rng.gauss(0, 0.03) for kind in kinds},
        {soil: rng.gauss(0, 0.02) for soil in soils},
    )


def ratios(own: int, *, drills: int, seed: int) -> tuple[float, float, float]:
    """Error of the ratio told for the next field, its coverage, and the plain mean's error."""
    rng, errors, plain, inside = Random(seed), [], [], 0
    for _ in range(drills):
        true = machine(rng)
        past = []
        for _ in range(own):
            kind, soil = rng.choice(list(true.kinds)), rng.choice(list(true.soils))
            seen = rng.gauss(true.ratio(rng, kind, soil), 0.015)
            past.append(PastField(ratio=ufloat(seen, 0.015), seed_class=kind, soil=soil))
        told = learn_ratio(past, seed_class="large", soil="firm").ratio
        real = true.ratio(rng, "large", "firm")
        mean = fsum(nominal(p.ratio) for p in past) / own if own else 1.0
        errors.append((told.value - real) * (told.value - real))
        plain.append((mean - real) * (mean - real))
        inside += told.low <= real <= told.high
    ours, simple = (100 * sqrt(fsum(e) / drills) for e in (errors, plain))
    return ours, inside / drills, simple


BINS = (0.0, 0.05, 0.2, 0.5, 0.8, 0.95, 1.01)


def _bins(pairs: list[tuple[float, bool]]) -> list[str]:
    lines = []
    for low, high in pairwise(BINS):
        inside = [pair for pair in pairs if low <= pair[0] < high]
        if inside:
            said = fsum(odds for odds, _ in inside) / len(inside)
            was = sum(ran for _, ran in inside) / len(inside)
            lines.append(f"| {len(inside)} | {100 * said:.1f} | {100 * was:.1f} |")
    return lines


def main(fields: int) -> None:
    """Print the tables of docs/method.md."""
    print("| true deviation | fields with an alarm, % | acres to it, median |\n|---|---|---|")
    for off in (0.0, 0.03, 0.05, 0.08, 0.10, 0.15):
        share, acres = alarms(off, fields=fields, seed=1)
        print(f"| {100 * off:.0f} % | {100 * share:.1f} | {acres or '–'} |")
    print(f"\nranges of 95 % hold the rate in {100 * covered(fields=fields, seed=2):.1f} %\n")
    print("| change at 32 ac | found, % | in its range, % | acres off, median |\n|---|---|---|---|")
    for change in (0.0, -0.05, -0.08, 0.08, 0.12, 0.20):
        found, placed, off = turns(change, fields=max(50, fields // 8), seed=3)
        print(f"| {100 * change:.0f} % | {100 * found:.1f} | {100 * placed:.1f} | {off:.1f} |")
    print("\n| fields | said, % | ran out, % |\n|---|---|---|")
    print("\n".join(_bins(short(fields=fields, seed=4))))
    print(
        "\n| own fields | error | range includes it, % | error of their mean |\n|---|---|---|---|"
    )
    for own in (0, 1, 3, 20):
        ours, inside, plain = ratios(own, drills=fields, seed=5)
        print(f"| {own} | {ours:.1f} | {100 * inside:.1f} | {plain:.1f} |")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 400)
