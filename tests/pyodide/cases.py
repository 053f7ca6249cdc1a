"""What must come out with the same bits on every Python: a name, and how to compute it.

A module of the engine adds its cases here, over a grid wide enough to reach
each of its branches. No random numbers, and no arithmetic that rounds
differently elsewhere: the rules of the engine hold for its grid as well.
"""

from collections.abc import Callable, Iterator
from math import ldexp

from uncertainties import ufloat

from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.boxes.sample import counted
from evenstand.engine.boxes.sorting import sorting
from evenstand.engine.boxes.split import splits
from evenstand.engine.calibration.chart import Chart, curve_from_charts
from evenstand.engine.calibration.choose import CaughtAt, choose
from evenstand.engine.catch.rate import measure
from evenstand.engine.catch.target import Target
from evenstand.engine.catch.weighing import Bag, Prior, WeighScale
from evenstand.engine.drill.drill import Drill, Gear, Scale
from evenstand.engine.drill.travel import taped, turned
from evenstand.engine.mix.carbon import Residue, biomass_by_full_rate, combine
from evenstand.engine.mix.member import (
    BulkRate,
    Carrier,
    LiveSeeds,
    Member,
    OfFull,
    PlsRate,
    Rest,
    Seed,
)
from evenstand.engine.mix.mix import design
from evenstand.engine.order.bags import BagSize
from evenstand.engine.order.need import OrderJob as SeedJob
from evenstand.engine.order.purchase import order
from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities import units
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import FOOT, GRAM, INCH, POUND_PER_ACRE, Amount
from evenstand.engine.rows.evenness import evenness
from evenstand.engine.seed.count import printed, samples_for
from evenstand.engine.seed.replicates import Dish
from evenstand.engine.seed.result import WantedRate, tag_result
from evenstand.engine.seed.retest import HomeTest
from evenstand.engine.seed.retest import combine as combine_tests
from evenstand.engine.seed.tag import Tag
from evenstand.engine.seeding.behind import count_behind
from evenstand.engine.seeding.depth_check import depths
from evenstand.engine.seeding.events import Event, Level, bags, weighed
from evenstand.engine.seeding.field_area import checked_meter
from evenstand.engine.seeding.field_ratio import PastField, learn_ratio
from evenstand.engine.seeding.level import InBox
from evenstand.engine.seeding.seeding import Rest as RestOfField
from evenstand.engine.seeding.seeding import sowing
from evenstand.engine.seeding.steps import Known
from evenstand.engine.stand.emergence import emergence, live_seeds
from evenstand.engine.stand.gaps import gaps
from evenstand.engine.stand.learned import Season, learned
from evenstand.engine.stand.next_seeds import seeds_for
from evenstand.engine.stand.place import Place, hoop_area, row_area
from evenstand.engine.stand.species import SownSpecies
from evenstand.engine.stand.species import composition as parts_of_mix
from evenstand.engine.stand.stand import stand
from evenstand.engine.stand.surer import places_needed
from evenstand.engine.stand.usual import USUAL
from evenstand.engine.statistics import composition, counting, elementary, incomplete
from evenstand.engine.statistics import distributions as stats
from evenstand.engine.statistics.budget import Cause, budget, estimate, nominal
from evenstand.engine.statistics.line import straight_line, through_origin
from evenstand.engine.statistics.variance import cv_range, one_way

WIDE = [x * ldexp(1.0, e) for e in range(-1060, 1020, 20) for x in (1.0, 1.2, 1.41, 1.7)]
EXPONENTS = [-744.5 + 0.93 * i for i in range(1560)]
POSITIVE = [0.013 * i for i in range(1, 800)] + [9.7 * i for i in range(1, 400)]
SIGNED = [0.0, *POSITIVE[::40], *(-x for x in POSITIVE[::40])]
SHARES = [1e-300, 1e-12, 1e-4, 0.01, 0.025, *(0.05 * i for i in range(1, 20)), 0.975, 0.9999]
DOFS = [0.3, 1.0, 2.0, 3.7, 12.0, 150.0, 1e6]
SHAPES = [(0.4, 0.7), (1.0, 1.0), (2.5, 9.0), (17.0, 3.0), (300.0, 1200.0)]


def distributions() -> dict[str, Callable[[], list[float]]]:
    """Each distribution and its quantile over a grid of arguments and parameters."""
    s = stats
    return {
        "normal_cdf": lambda: [s.normal_cdf(x) for x in SIGNED],
        "normal_quantile": lambda: [s.normal_quantile(p) for p in SHARES],
        "t_cdf": lambda: [s.t_cdf(x, dof=v) for x in SIGNED for v in DOFS],
        "t_quantile": lambda: [s.t_quantile(p, dof=v) for p in SHARES[1:] for v in DOFS],
        "gamma_cdf": lambda: [s.gamma_cdf(abs(x), shape=v) for x in SIGNED for v in DOFS],
        "gamma_quantile": lambda: [s.gamma_quantile(p, shape=v) for p in SHARES for v in DOFS],
        "chi_square_cdf": lambda: [s.chi_square_cdf(abs(x), dof=v) for x in SIGNED for v in DOFS],
        "chi_square_quantile": lambda: [
            s.chi_square_quantile(p, dof=v) for p in SHARES for v in DOFS
        ],
        "beta_cdf": lambda: [s.beta_cdf(p, a=a, b=b) for p in SHARES for a, b in SHAPES],
        "beta_quantile": lambda: [s.beta_quantile(p, a=a, b=b) for p in SHARES for a, b in SHAPES],
    }


def counts_of_seeds() -> Iterator[float]:
    """Probabilities of counts, ranges of a share and fits, for small trials and large ones."""
    c = counting
    for n in (1, 7, 100, 2500):
        for k in sorted({0, 1, n // 3, n - 1, n}):
            yield from (*c.wilson(k, n=n), *c.clopper_pearson(k, n=n, level=0.9))
            for p in (0.003, 0.4, 0.97):
                yield from (c.binomial_pmf(k, n=n, p=p), c.binomial_cdf(k, n=n, p=p))
                yield c.poisson_cdf(k, mean=n * p)
            for a, b in SHAPES:
                yield from (f(k, n=n, a=a, b=b) for f in (c.beta_binomial_pmf, c.beta_binomial_cdf))
    for counts in ([31, 12, 9, 1, 2], [400, 300, 290, 10]):
        fit = composition.fit(counts, shares=[0.5 / (1 + i * i) for i in range(len(counts))])
        yield from (fit.statistic, fit.p)


def spreads_and_lines() -> Iterator[float]:
    """Analyses of variance, ranges of a coefficient of variation, lines through points."""
    groups = [[0.1 * ((7 * i * i + 3 * j) % 11) + i / 7 for j in range(2 + i)] for i in range(5)]
    for origin in (0.0, 1.7, 1e6):
        table = one_way([[x + origin for x in group] for group in groups])
        yield from (table.between, table.within, table.f, table.p, table.group_sd)
    for group in groups:
        x = [1.3 * i + 0.7 for i in range(len(group))]
        fits = [through_origin(x, y=group)]
        fits += [straight_line(x, y=group)] if len(group) > 2 else []
        yield from (value for line in fits for value in (*line.at(3.1), line.residual_sd))
    for cv in (0.01, 0.08, 0.3):
        yield from (end for n in (2, 6, 24, 160) for end in cv_range(cv, n=n))


def uncertain_products() -> Iterator[float]:
    """Budgets and ranges of a product whose inputs are partly shared."""
    for scale in (0.0003, 0.004, 0.05, 0.4):
        wheel = ufloat(2.4384, 0.02 * scale, "rolled distance")
        seed = [ufloat(0.25 + 0.01 * i, 0.1 * scale, "scale reading") for i in range(5)]
        rate = (seed[0] + seed[1] + seed[2] + seed[3] + seed[4]) / (20 * wheel * wheel / 3)
        shares = budget(rate, {"scale reading": Cause(dof=4.5, common=False)})
        found = estimate(rate, shares)
        yield from (found.value, found.u, found.low, found.high, found.dof)
        yield from (share.u for share in shares)


def a_morning_at_the_stand() -> Iterator[float]:
    """Charts, then four catches in two gears: each rate, its budget and every notch's odds."""
    gears = (Gear(name="full"), Gear(name="half", ratio=0.5))
    drill = Drill(rows=20, spacing=7.5 * INCH, gears=gears, scale=Scale(low=0, high=40))
    wheel = taped(ufloat(8 * FOOT, 0.01, "taped circumference"), slip=ufloat(0.03, 0.01, "slip"))
    points = tuple((s, (1.7 * s + 2.0) * POUND_PER_ACRE) for s in (10.0, 20.0, 30.0, 40.0))
    curve = curve_from_charts([Chart(points=points, gear="full")], drill)
    target = Target(rate=58.0 * POUND_PER_ACRE, tolerance=0.05)
    seen = []
    for setting, gear, grams in ((30.0, 0, 231.0), (34.0, 0, 268.0), (33.0, 1, 128.0)):
        runs = [tuple(Bag(weight=(grams + row + k) / 4 * GRAM) for row in range(4)) for k in (0, 2)]
        found = measure(
            runs,
            run=turned(wheel, 20.0),
            drill=drill,
            scale=WeighScale(),
            prior=Prior(),
            target=target,
        )
        yield from (found.static.value, found.static.u, found.field.low, found.field.high)
        yield from (share.u for share in found.shares)
        rate, cv = found.static.value, found.per_catch
        seen.append(CaughtAt(setting=setting, gear=gears[gear], rate=rate, cv=cv))
        choice = choose(curve, seen, target, factor=0.97, common=found.common)
        for notch in choice.candidates:
            yield from (notch.rate.value, notch.rate.low, notch.odds, notch.loss)


def a_drill_row_by_row() -> Iterator[float]:
    """Catches of one drill's rows, once and three times: scatter, odd rows and every pattern."""
    grams = (251.0, 243.0, 248.0, 262.0, 239.0, 244.0, 190.0, 255.0, 0.0, 247.0, 236.0, 259.0)
    catches = [[(g + (7 * row + k) % 5) * GRAM for row, g in enumerate(grams)] for k in range(3)]
    catches[0][8] = catches[1][8] = catches[2][8] = 0.0
    for weights in (catches[:1], catches):
        for row_cv in (None, 0.03):
            even = evenness(weights, resolution=GRAM, row_cv=row_cv, limit=0.1, tolerance=0.05)
            yield from (even.mean.low, even.mean.high, even.cv.low, even.cv.high, even.finds)
            yield from (even.scatter.row_cv, even.scatter.statistic, even.scatter.p)
            yield from (row.shrunk for row in even.rows)
            yield from (value for odd in even.odd_rows for value in (odd.off, odd.z, odd.p))
            yield from (value for it in even.tested for value in (it.off, it.statistic, it.p))


def a_mix_on_every_basis() -> Iterator[float]:
    """Members given by share, seeds, live weight and as the rest, with their budgets and C:N."""
    for u in (0.002, 0.02, 0.2):
        tag = {
            "pls": ufloat(0.83, 0.83 * u, "tag"),
            "seeds_per_kg": ufloat(3.7e4, 3e3 * u, "count"),
        }
        full = PlsRate(0.0113)
        oats, peas = (Seed(name=n, price=0.7, full=full, **tag) for n in ("oats", "peas"))
        flax = Seed(name="flax", pls=0.91, seeds_per_kg=1.7e5, price=2.3, full=LiveSeeds(310.0))
        members = [
            Member(oats, OfFull(0.37)),
            Member(flax, LiveSeeds(97.0)),
            Member(peas, Rest()),
            Member(Carrier(name="hulls", price=0.1), BulkRate(0.0017)),
        ]
        for uplift, whole in ((0.0, OfFull(1.1)), (0.3, BulkRate(0.021))):
            mix = design(members, whole=whole, uplift=uplift)
            yield from (nominal(q) for q in (mix.seeds, mix.bulk_rate, mix.cost))
            for each in mix.sown:
                values = (each.seeds, each.pls_rate, each.bulk_rate, each.seed_share)
                yield from (x for q in values for x in (nominal(q), each.range_of(q).high))
            yield from (share.u for share in mix.why(mix.seeds))
            parts, _ = biomass_by_full_rate(mix)
            left = [
                Residue(name=n, ratio=11 + 13 * i, biomass=b)
                for i, (n, b) in enumerate(parts.items())
            ]
            yield from (combine(left).range.low, combine(left).range.high)


def written_and_read_back() -> Iterator[float]:
    """Amounts of every kind as each system writes them, and what is read from that."""
    kinds = [value for value in vars(units).values() if isinstance(value, units.Kind)]
    for style in (Style(), Style("metric", decimal=",")):
        for kind in kinds:
            for number in (0.07, 7.0, 18.35, 1234.567):
                text = style.amount(Amount(number * kind.us.size, kind, 5))
                yield read(f"{text} ± 3%", kind, field="x", decimal=style.decimal).value


def a_tag_and_a_retest() -> Iterator[float]:
    """Live seed both ways from a tag, bulk and seeds, and a home test joined with it."""
    for hard in (0.0, 0.03, 0.11):
        for germination in (0.61, 0.78, 0.875):
            tag = Tag(purity=0.983, germination=germination, hard=hard)
            rate = WantedRate(rate=0.0067, basis="pls")
            found = tag_result(tag, count=printed(39_700.0), count_hard=True, rate=rate)
            for value in (found.pls, found.pls_other_way, found.bulk_rate, found.seeds_per_area):
                yield from (value.value, value.low, value.high, value.u) if value else ()
            home = HomeTest(dishes=(Dish(41, 50), Dish(37, 50)))
            joined = combine_tests(germination, seeds=400, home=home).germination
            yield from (joined.value, joined.low, joined.high)
    for within in (0.01, 0.02, 0.03):
        yield float(samples_for(within, cv=0.0201, dof=7, samples=1) or 0)


def a_field_of_boxes_and_bags() -> Iterator[float]:
    """A mix among boxes, what each needs in bags, and whether a sample shows sorting."""
    portions = [
        Portion(name="rye", rate=0.0034, seeds_per_kg=40_000.0, live_per_kg=36_000.0),
        Portion(name="vetch", rate=0.0011, seeds_per_kg=36_000.0, live_per_kg=31_000.0),
        Portion(name="clover", rate=0.0006, seeds_per_kg=440_000.0, live_per_kg=400_000.0),
    ]
    boxes = [
        Box(name="grain", volume=0.7, seed=BOX_KINDS["grain"]),
        Box(name="small", volume=0.14, seed=BOX_KINDS["small seed"]),
    ]
    split = splits(portions, boxes).best[0]
    yield from (box.rate for box in split.boxes)
    sizes = {"rye": [BagSize(weight=22.7, price=30.0)]}
    bought = order(split, SeedJob(area=155_000.0, overlap=0.04), bags=sizes)
    for line in bought.lines:
        yield from (nominal(line.need.total), line.need.range.low, line.need.range.high)
    for rye in (160, 140, 90):
        found = sorting(split.boxes[0], counted({"rye": rye, "vetch": 41}))
        yield from (found.test.statistic, found.test.p, found.live.low, found.live.high)


def a_field_that_came_up() -> Iterator[float]:
    """Stands of many, few and empty places, what came up, its parts, and the next season."""
    grain = USUAL["small grain"]
    pieces = [(31, 4), (27, 9), (35, 0), (22, 6), (29, 2), (33, 7), (26, 5)]
    for spacing in (0.15, ufloat(0.19, 0.004, "row spacing")):
        area = row_area(0.9144, spacing=spacing)
        places = [
            Place(area=area, plants={"rye": rye, "vetch": vetch}, row=0.9144, gaps=(0.02 * vetch,))
            if vetch
            else Place(area=area, plants={"rye": rye, "vetch": 0}, row=0.9144)
            for rye, vetch in pieces
        ]
        for n in (1, 3, 7):
            found = stand(places[:n])
            yield from (found.range.value, found.range.low, found.range.high, found.dof)
            came = emergence(found, seeds=live_seeds(300.0, u=9.0), usual=grain)
            yield from (came.share.value, came.share.low, came.share.high, came.effective)
            yield from (came.updated.low, came.updated.high) if came.updated else ()
            sown = [
                SownSpecies(name="rye", seeds=200.0, usual=grain),
                SownSpecies(name="vetch", seeds=60.0),
            ]
            for part in parts_of_mix(places[:n], sown).parts:
                yield from (part.p, part.seen.low, part.expected.high)
        shape, share = stand(places).scatter, gaps(places).share
        yield from (shape.ratio, shape.p, shape.morisita, shape.cv) if shape else ()
        yield from (share.low, share.high)
    yield stand([Place(area=hoop_area(diameter=0.61), plants=0)] * 3).range.high
    yield from (float(places_needed(cv) or 0) for cv in (0.1, 0.175, 0.4, 0.9))
    seasons = [
        Season(field=f, emergence=e, u=0.04) for f, e in (("a", 0.6), ("a", 0.7), ("b", 0.8))
    ]
    for field in (None, "a", "b"):
        share = learned(seasons, usual=grain, field=field).share
        next_time = seeds_for(250.0, share, counted_at=300.0)
        yield from (share.value, share.low, share.high, next_time.low, next_time.high)


def a_field_on_the_way() -> Iterator[float]:
    """A box along the acres: rate, causes, a change, run-out, the lever; ratio, seeds and depth."""
    exact = checked_meter(40_000.0, shown=40_500.0)
    known = Known(target=Target(rate=0.0067), expected=ufloat(0.0068, 2e-4, "x"), meter=exact)
    events: list[Event] = [bags(0.0, count=20, weight=22.7)]
    for i, used in enumerate((217.0, 221.0, 214.0, 196.0, 190.0, 188.0), start=1):
        seed = InBox(weight=454.0 - used, u=4.5, by_volume=i % 2 == 0)
        at = 32_400.0 * i
        events += [Level(at=at, seed=seed), weighed(at, used)]
        found = sowing(events, known, rest=RestOfField(ground=260_000.0, at_edge=300.0))
        yield from (found.rate.low, found.rate.high, found.verdict.odds_within, found.until.low)
        yield from (share.u for share in found.shares)
        yield from (found.run_out.odds, found.run_out.more) if found.run_out else ()
        if turning := found.turning:
            yield from (turning.place.low, turning.place.value, turning.odds, turning.by_chance)
    for own in (0, 1, 6):
        fields = [PastField(ratio=ufloat(0.93, 0.01), seed_class="large", soil="firm")] * own
        learned = learn_ratio(fields, seed_class="small", soil="firm")
        yield from (learned.ratio.value, learned.ratio.low, learned.own)
    seeds = count_behind([31, 28, 40], length=1.0, spacing=0.19, rate=0.0067, seeds_per_kg=25_000.0)
    yield from (seeds.expected.low, seeds.odds, seeds.rate.high)
    deep = depths([[0.02, 0.024, 0.03], [0.028, 0.035]], wanted=0.025)
    yield from (deep.mean.low, deep.mean.high, deep.row_sd or 0.0)


CASES: dict[str, Callable[[], list[float]]] = {
    "elementary.exp": lambda: [elementary.exp(x) for x in EXPONENTS],
    "elementary.log": lambda: [elementary.log(x) for x in WIDE],
    "elementary.lgamma": lambda: [elementary.lgamma(x) for x in POSITIVE],
    "elementary.stirling_error": lambda: [elementary.stirling_error(x) for x in POSITIVE],
    "incomplete.deviance": lambda: [
        incomplete.deviance(x, mean=m) for x in POSITIVE[::40] for m in POSITIVE[::60]
    ],
    **{f"stats.{name}": compute for name, compute in distributions().items()},
    "counting": lambda: list(counts_of_seeds()),
    "variance and line": lambda: list(spreads_and_lines()),
    "budget": lambda: list(uncertain_products()),
    "parse": lambda: list(written_and_read_back()),
    "rows": lambda: list(a_drill_row_by_row()),
    "mix": lambda: list(a_mix_on_every_basis()),
    "tag": lambda: list(a_tag_and_a_retest()),
    "boxes and bags": lambda: list(a_field_of_boxes_and_bags()),
    "a field that came up": lambda: list(a_field_that_came_up()),
    "a morning at the stand": lambda: list(a_morning_at_the_stand()),
    "a field on the way": lambda: list(a_field_on_the_way()),
}
