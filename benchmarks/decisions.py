"""Simulated drills with the truth known: does the next setting deserve its odds?

Every drill has a true metering curve that nobody sees, a chart that is wrong
in the way charts are, and catches that scatter. Three rules set it: ours, the
proportional rule, and the line through the last two catches.
"""

import sys
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from random import Random

from evenstand.engine.calibration.chart import Chart, Curve, curve_from_charts, curve_without_chart
from evenstand.engine.calibration.choose import CaughtAt, Choice, choose
from evenstand.engine.catch.target import Target
from evenstand.engine.catch.weighing import Prior
from evenstand.engine.drill.drill import Drill, Gear, Scale

MOST_CATCHES = 8
WHEEL = 2.44  # m/turn


@dataclass(frozen=True)
class Scenario:
    """A kind of drill and a way of catching."""

    name: str
    turns: int = 20
    rows: int = 4
    factor: float = 0.20
    shift: float = 0.05
    bend: float = 0.05
    low: float = 0
    high: float = 100
    step: float = 1
    reversed: bool = False
    chart: bool = True
    tolerance: float = 0.03
    noise_factor: float = 1.0  # true scatter ÷ the scatter that is expected
    common: float = 0.0  # relative error shared by all catches of a drill


SCENARIOS = (
    Scenario("poor chart, 20 turns × 4 rows"),
    Scenario("poor chart, 10 turns × 1 row", turns=10, rows=1),
    Scenario("good chart, 20 × 4", factor=0.10, shift=0.02, bend=0.03),
    Scenario("no chart, 20 × 4", chart=False),
    Scenario("reversed scale, 20 × 4", reversed=True),
    Scenario("coarse notches 1–40, 5 %", low=0, high=40, tolerance=0.05),
    Scenario("scatter 1.27 × the expected, 20 × 4", noise_factor=1.27),
    Scenario("scatter 0.7 × the expected, 20 × 4", noise_factor=0.7),
    Scenario("chart 40 % wrong, 20 × 4", factor=0.40, shift=0.08),
    Scenario("4 of 24 rows, 5 %", tolerance=0.05, common=0.0228),
)


@dataclass
class Outcome:
    """What one drill ended with."""

    catches: int
    stopped: bool
    true_off: float
    odds: float


class Truth:
    """A drill nobody sees into."""

    def __init__(self, scenario: Scenario, random: Random) -> None:
        self.scenario, self.random = scenario, random
        self.scale = Scale(
            low=scenario.low, high=scenario.high, step=scenario.step, reversed=scenario.reversed
        )
        self.drill = Drill(rows=24, spacing=0.1905, scale=self.scale, gears=(Gear(),))
        self.factor = 2.718281828459045 ** random.gauss(0, scenario.factor)
        self.shift = random.gauss(0, scenario.shift)
        self.bend = random.gauss(0, scenario.bend)
        self.common = 1 + random.gauss(0, scenario.common)
        self.target = Target(
            rate=self.chart_rate(random.uniform(0.25, 0.65)), tolerance=scenario.tolerance
        )
        self.cv = Prior().repeat(scenario.turns * WHEEL * scenario.rows)

    @staticmethod
    def chart_rate(opening: float) -> float:
        """Rate that the chart prints, kg/m²."""
        return 0.002 + 0.013 * opening

    def rate(self, setting: float) -> float:
        """True static rate."""
        o = self.scale.opening(setting)
        bent = 0.013 * (self.shift + self.bend * 4 * o * (1 - o))
        return max(1e-6, self.factor * self.chart_rate(o) + bent)

    def catch(self, setting: float) -> float:
        """One catch."""
        scatter = self.random.gauss(0, self.cv * self.scenario.noise_factor)
        return self.rate(setting) * self.common * max(0.05, 1 + scatter)

    def curve(self) -> Curve:
        """Where ours starts."""
        if not self.scenario.chart:
            return curve_without_chart(self.drill, rate=self.target.rate)
        points = tuple((s, self.chart_rate(self.scale.opening(s))) for s in self.chart_settings())
        return curve_from_charts([Chart(points=points)], self.drill)

    def chart_settings(self) -> list[float]:
        """Settings that the chart lists."""
        span = self.scenario.high - self.scenario.low
        return [self.scenario.low + span * i / 10 for i in range(1, 11)]

    def off(self, setting: float) -> float:
        """True relative miss."""
        return self.rate(setting) / self.target.rate - 1

    def nearest(self, setting: float) -> float:
        """Nearest notch on the scale."""
        s = self.scenario
        notch = s.low + round((setting - s.low) / s.step) * s.step
        return min(s.high, max(s.low + s.step, notch))


def ours(truth: Truth) -> tuple[Outcome, list[Choice]]:
    """Set the drill by the odds of its notches."""
    start, catches, choices = truth.curve(), [], []
    choice = choose(start, catches, truth.target, common=truth.scenario.common)
    while choice.ending == "go on" and len(catches) < MOST_CATCHES:
        setting = choice.best.setting
        rate = truth.catch(setting)
        catches.append(CaughtAt(setting=setting, gear=choice.best.gear, rate=rate, cv=truth.cv))
        choice = choose(start, catches, truth.target, common=truth.scenario.common)
        choices.append(choice)
    best = choice.best
    done = choice.ending == "accepted"
    return Outcome(len(catches), done, truth.off(best.setting), best.odds), choices


def chart_setting(truth: Truth) -> float:
    """Setting at which the chart prints the target, else the middle."""
    if not truth.scenario.chart:
        return truth.nearest((truth.scenario.low + truth.scenario.high) / 2)
    settings = truth.scale.settings()
    return min(
        settings, key=lambda s: abs(truth.chart_rate(truth.scale.opening(s)) - truth.target.rate)
    )


def by_rule(truth: Truth, rule: Callable[[Truth, list[tuple[float, float]]], float]) -> Outcome:
    """Stop at the first catch that lies within the tolerance."""
    setting, seen = chart_setting(truth), []
    for n in range(1, MOST_CATCHES + 1):
        rate = truth.catch(setting)
        seen.append((setting, rate))
        if abs(rate / truth.target.rate - 1) <= truth.scenario.tolerance:
            return Outcome(n, True, truth.off(setting), 0.0)
        setting = rule(truth, seen)
    return Outcome(MOST_CATCHES, False, truth.off(setting), 0.0)


def proportional(truth: Truth, seen: list[tuple[float, float]]) -> float:
    """Opening × target ÷ measured."""
    setting, rate = seen[-1]
    opening = truth.scale.opening(setting) * truth.target.rate / rate
    return truth.nearest(_setting(truth, opening))


def last_two(truth: Truth, seen: list[tuple[float, float]]) -> float:
    """Line through the last two catches, proportional where there is none."""
    if len(seen) < 2 or seen[-1][0] == seen[-2][0] or seen[-1][1] == seen[-2][1]:
        return proportional(truth, seen)
    (s1, r1), (s2, r2) = seen[-2:]
    return truth.nearest(s2 + (truth.target.rate - r2) * (s2 - s1) / (r2 - r1))


def _setting(truth: Truth, opening: float) -> float:
    s = truth.scenario
    return s.high - opening * (s.high - s.low) if s.reversed else s.low + opening * (s.high - s.low)


def summary(outcomes: list[Outcome], tolerance: float) -> str:
    """Mean catches, share stopped, share truly within when stopped."""
    stopped = [o for o in outcomes if o.stopped]
    catches = sum(o.catches for o in outcomes) / len(outcomes)
    within = sum(abs(o.true_off) <= tolerance for o in stopped) / max(1, len(stopped))
    return f"{catches:.2f} · {100 * len(stopped) / len(outcomes):.1f} · {100 * within:.1f}"


def calibration(pairs: list[tuple[float, bool]]) -> str:
    """Claimed against actual share, by bins of claimed odds above one half."""
    parts = []
    edges = (0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.001)
    for low, high in pairwise(edges):
        inside = [(p, ok) for p, ok in pairs if low <= p < high]
        if len(inside) >= 100:
            claimed = sum(p for p, _ in inside) / len(inside)
            actual = sum(ok for _, ok in inside) / len(inside)
            parts.append(f"{100 * claimed:.0f}→{100 * actual:.0f}")
    return " ".join(parts)


def main(drills: int = 2000) -> None:
    """Print one table."""
    print(f"{drills} simulated drills of each kind; catches · % that stop · % truly within\n")
    head = ("kind", "ours", "proportional", "last two catches", "claimed → actual, %")
    print("| " + " | ".join(head) + " |")
    print("|---" * len(head) + "|")
    for scenario in SCENARIOS:
        results: dict[str, list[Outcome]] = {"ours": [], "prop": [], "two": []}
        pairs: list[tuple[float, bool]] = []
        for seed in range(drills):
            truth = Truth(scenario, Random(seed))
            outcome, choices = ours(truth)
            results["ours"].append(outcome)
            pairs += [
                (c.best.odds, abs(truth.off(c.best.setting)) <= scenario.tolerance) for c in choices
            ]
            results["prop"].append(by_rule(Truth(scenario, Random(seed)), proportional))
            results["two"].append(by_rule(Truth(scenario, Random(seed)), last_two))
        cells = [summary(r, scenario.tolerance) for r in results.values()]
        print("| " + " | ".join([scenario.name, *cells, calibration(pairs)]) + " |", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
