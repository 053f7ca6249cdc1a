"""Random problems, and SciPy's answer to them by a formulation of its own."""

import math
from dataclasses import dataclass

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from evenstand.engine.mix.member import Published, Seed
from evenstand.engine.statistics.budget import nominal
from evenstand.office.limits import (
    CostWithin,
    Everything,
    Grouped,
    RateWithin,
    SeedShareWithin,
    SeedsWithin,
    Species,
    SpeciesWithin,
    WeightShareWithin,
    WeightWithin,
)
from evenstand.office.offer import LeastCost, Nearest, Offer, published

GROUPS = ("grass", "legume", "broadleaf", "brassica")
CAP = 0.1  # kg/m² of one species, as the product has it


@dataclass(frozen=True)
class Problem:
    """What ``solve`` is called with."""

    offers: tuple
    limits: tuple
    goal: object
    area: float | None = None


def random_offers(random, n, *, bag=None):
    """Species with the spread of sizes, prices and tags that seed has."""
    offers = []
    for i in range(n):
        count = 10 ** random.uniform(3.6, 6.3)
        full = 10 ** random.uniform(2.0, 2.8) / count  # kg/m² that gives 100 to 600 seeds/m²
        seed = Seed(
            name=f"species {i}",
            pls=random.uniform(0.6, 0.98),
            seeds_per_kg=count,
            price=count / 10**5 * random.uniform(1, 8),
            group=GROUPS[i % 4],
            published=(Published(low=0.05 * full, high=0.6 * full, place="in mix"),),
        )
        offers.append(Offer(seed=seed, bag=bag))
    return tuple(offers)


def random_problem(number, *, n=None, whole=False, bag=None):
    """A problem of up to ten species with most kinds of limits, some of which clash."""
    random = np.random.default_rng(number)
    n = n or int(random.integers(2, 11))
    if whole:
        bag = bag or float(random.choice([10.0, 25.0]))
    offers = random_offers(random, n, bag=bag)
    low = random.uniform(100, 400)
    limits = [
        SeedsWithin(low=low, high=low * random.uniform(1, 1.5)),
        SeedShareWithin(of=Grouped("legume"), low=random.uniform(0, 0.4)),
        WeightShareWithin(of=Grouped("grass"), high=random.uniform(0.3, 0.9)),
        SeedsWithin(of=Species("species 0"), high=low * random.uniform(0.1, 1)),
        SpeciesWithin(low=int(random.integers(1, n + 1))),
        SpeciesWithin(high=max(1, n - 1)),
        CostWithin(high=random.uniform(0.002, 0.05)),
        WeightWithin(high=random.uniform(0.002, 0.02)),
        *published(offers),
    ]
    keep = random.random(len(limits)) < 0.7
    kept = tuple(limit for limit, wanted in zip(limits, keep, strict=True) if wanted)
    goal = LeastCost()
    if number % 3 == 0:
        wished = random.choice(n, size=max(1, n // 2), replace=False)
        goal = Nearest({f"species {i}": random.uniform(10, 200) for i in wished})
    limits = (limits[0], *kept) if limits[0] not in kept else kept
    return Problem(offers, limits, goal, area=random.uniform(2e4, 2e5) if whole else None)


class Peer:
    """The same problem in live seeds per m², a matrix, and SciPy's milp."""

    def __init__(self, problem, least_seeds=1.0):
        self.problem, self.offers = problem, problem.offers
        self.names = list(dict.fromkeys(offer.seed.name for offer in self.offers))
        n, m = len(self.offers), len(self.names)
        self.n, self.m, self.width = n, m, 2 * n + 3 * m
        self.weight = np.array(
            [1 / (nominal(o.seed.pls) * nominal(o.seed.seeds_per_kg)) for o in self.offers]
        )
        self.lot_of = np.array([self.names.index(o.seed.name) for o in self.offers])
        self.counted = any(isinstance(limit, SpeciesWithin) for limit in problem.limits)
        self.rows, self.lows, self.highs = [], [], []
        self.high = np.concatenate([CAP / self.weight, np.ones(m), np.full(n + 2 * m, np.inf)])
        self._stock()
        self._presence(least_seeds)
        for limit in problem.limits:
            self._limit(limit)
        self.aim = self._aim()

    def add(self, row, low=-np.inf, high=np.inf):
        self.rows.append(row)
        self.lows.append(low)
        self.highs.append(high)

    def blank(self):
        return np.zeros(self.width)

    def mask(self, scope):
        match scope:
            case Everything():
                return np.ones(self.n)
            case Species(name):
                return np.array([o.seed.name == name for o in self.offers], dtype=float)
            case Grouped(group):
                return np.array([o.seed.group == group for o in self.offers], dtype=float)

    def bagged(self, i):
        return self.offers[i].buy and bool(self.offers[i].on_hand or self.offers[i].bag)

    def _stock(self):
        for i, offer in enumerate(self.offers):
            row = self.blank()
            if self.bagged(i):
                row[i] = self.weight[i] * self.problem.area
                row[self.n + self.m + i] = -(offer.bag or 1.0)
                self.add(row, high=offer.on_hand)
            elif not offer.buy:
                row[i] = self.weight[i] * self.problem.area
                self.add(row, high=offer.on_hand)

    def _presence(self, least_seeds):
        for j in range(self.m):
            lots = np.flatnonzero(self.lot_of == j)
            row = self.blank()
            row[lots] = self.weight[lots]
            row[self.n + j] = -CAP
            self.add(row, high=0.0)
            if self.counted:
                row = self.blank()
                row[lots] = 1.0
                row[self.n + j] = -least_seeds
                self.add(row, low=0.0)

    def cost(self):
        row = self.blank()
        for i, offer in enumerate(self.offers):
            price = offer.seed.price or 0.0
            if self.bagged(i):
                row[self.n + self.m + i] = price * (offer.bag or 1.0) / self.problem.area
            elif offer.buy:
                row[i] = price * self.weight[i]
        return row

    def _limit(self, limit):
        low = -np.inf if limit.low is None else limit.low
        high = np.inf if limit.high is None else limit.high
        row, seeds = self.blank(), slice(0, self.n)
        match limit:
            case SeedsWithin(of=of):
                row[seeds] = self.mask(of)
            case WeightWithin(of=of):
                row[seeds] = self.mask(of) * self.weight
            case CostWithin():
                row = self.cost()
            case SpeciesWithin(of=of):
                row[self.n + np.unique(self.lot_of[self.mask(of) > 0])] = 1.0
            case SeedShareWithin(of=of):
                return self._rows(limit, np.ones(self.n) * self.mask(of), whole=np.ones(self.n))
            case WeightShareWithin(of=of):
                return self._rows(limit, self.weight * self.mask(of), whole=self.weight)
            case RateWithin(of=of):
                pure = np.array([1 / nominal(o.seed.seeds_per_kg) for o in self.offers])
                present = self.n + self.names.index(of.name)
                return self._rows(limit, pure * self.mask(of), present=present)
        self.add(row, low, high)
        return None

    def _rows(self, limit, part, *, whole=0.0, present=None):
        """Part − end × whole, or part − end × present, against 0; one row for each end."""
        for end, bounds in ((limit.low, {"low": 0.0}), (limit.high, {"high": 0.0})):
            if end is not None:
                row = self.blank()
                row[: self.n] = part - end * whole
                if present is not None:
                    row[present] = -end
                self.add(row, **bounds)

    def _aim(self):
        goal = self.problem.goal
        if isinstance(goal, LeastCost):
            return self.cost()
        aim = self.blank()
        for j, name in enumerate(self.names):
            over, short = self.width - 2 * self.m + j, self.width - self.m + j
            aim[[over, short]] = goal.weight(name)
            row = self.blank()
            row[np.flatnonzero(self.lot_of == j)] = 1.0
            row[over], row[short] = -1.0, 1.0
            self.add(row, goal.wish.get(name, 0.0), goal.wish.get(name, 0.0))
        return aim

    def solve(self, gap=1e-9):
        """The least objective, None where nothing fits."""
        whole = np.zeros(self.width)
        whole[self.n : self.n + self.m] = 1
        for i, offer in enumerate(self.offers):
            whole[self.n + self.m + i] = offer.bag is not None
        found = milp(
            self.aim * 1e4,  # its gaps are absolute
            integrality=whole,
            bounds=Bounds(np.zeros(self.width), self.high),
            constraints=LinearConstraint(np.array(self.rows), self.lows, self.highs),
            options={"mip_rel_gap": gap},
        )
        return None if found.x is None else float(found.fun) / 1e4


@pytest.fixture(scope="session")
def by_scipy():
    """SciPy's least objective of a problem, None where nothing fits."""
    return lambda problem, **more: Peer(problem, **more).solve()


@pytest.fixture(scope="session")
def problem():
    return random_problem


MEASURES = {
    SeedsWithin: (lambda inside, _: sum(s.seeds for s in inside), 100.0),
    WeightWithin: (lambda inside, _: sum(s.bulk_rate for s in inside), 0.01),
    SeedShareWithin: (lambda inside, found: sum(s.seeds for s in inside) / found.mix.seeds, 1.0),
    WeightShareWithin: (
        lambda inside, found: sum(s.bulk_rate for s in inside) / found.mix.bulk_rate,
        1.0,
    ),
    SpeciesWithin: (lambda inside, _: len({s.name for s in inside}), 1.0),
    RateWithin: (lambda inside, _: sum(s.pls_rate for s in inside), 0.01),
}


def kept(limit, solution, problem):
    """By how much a mix misses a limit, worked out from the mix alone; 0 or less is kept."""
    inside = [s for s in solution.mix.sown if _inside(limit, s.seed)]
    if isinstance(limit, RateWithin) and not inside:
        return 0.0
    if isinstance(limit, CostWithin):
        return (_spent(solution, problem) - limit.high) / 0.01
    measure, size = MEASURES[type(limit)]
    value = measure(inside, solution)
    low = (limit.low - value) if limit.low is not None else -math.inf
    high = (value - limit.high) if limit.high is not None else -math.inf
    return max(low, high) / size


def _inside(limit, seed):
    if isinstance(limit, CostWithin) or isinstance(limit.of, Everything):
        return True
    if isinstance(limit.of, Species):
        return seed.name == limit.of.name
    return seed.group == limit.of.group


def _spent(solution, problem):
    if problem.area is None:
        return solution.mix.cost
    return sum(p.cost for p in solution.purchases if p.cost) / problem.area


@pytest.fixture(scope="session")
def missed():
    return kept
