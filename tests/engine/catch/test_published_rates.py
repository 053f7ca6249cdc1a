"""Published rates and formulas, and published mistakes with how far the print is off."""

from math import pi

import pytest

from evenstand.engine.catch.rate import static_rate
from evenstand.engine.catch.target import Target
from evenstand.engine.drill.course import course
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import rolled, sown, turned
from evenstand.engine.mix.member import LiveSeeds, Member, Seed
from evenstand.engine.mix.mix import design
from evenstand.engine.quantities.units import (
    ACRE,
    FOOT,
    GRAM,
    HECTARE,
    INCH,
    KG_PER_HECTARE,
    POUND,
    POUND_PER_ACRE,
    SQUARE_FOOT,
)
from evenstand.engine.statistics.budget import nominal


def rate_for(plants, *, tsw, live):
    """Bulk rate of a mix of one."""
    seed = Seed(name="seed", pls=live, seeds_per_kg=1000 / (tsw * GRAM))
    return nominal(design([Member(seed, LiveSeeds(plants))]).bulk_rate)


def test_rates_from_plants_seed_weight_and_establishment(published):
    for row in published("seed_rates.csv"):
        rate = rate_for(row["plants"], tsw=row["tsw"], live=row["live"]) / KG_PER_HECTARE
        assert rate == pytest.approx(row["rate"], abs=5e-4), row["source"]
        assert rate == pytest.approx(row["printed"], abs=row["off"]), row["source"]


def test_the_divisor_of_pounds_per_acre():
    """Plants/ft² × TKW ÷ survival ÷ 10.4 (farm press); another prints ÷ 10: 4.1% too much."""
    exact = rate_for(1 / SQUARE_FOOT, tsw=1, live=1) / POUND_PER_ACRE
    assert 1 / exact == pytest.approx(10.413, abs=5e-4)
    assert 1 / 10 / exact == pytest.approx(1.041, abs=5e-4)


def test_row_metres_are_not_machine_metres():
    """An exam page spreads 8,000 seeds over 2,500 m of travel: 1.98 where 7.96 is right.

    Four rows 100 cm apart, wheel 0.50 m, 10 cells, 6,000 plants/ha at 75%.
    """
    drill = Drill(rows=4, spacing=1.0)
    travel = nominal(course(drill, rolled(pi * 0.5), area=HECTARE).distance)
    assert travel == pytest.approx(2500)
    seed_spacing = travel * drill.rows / (6000 / 0.75)
    assert seed_spacing == pytest.approx(1.25)
    assert 10 * seed_spacing / (pi * 0.5) == pytest.approx(7.96, abs=0.005)
    assert 10 * seed_spacing / drill.rows / (pi * 0.5) == pytest.approx(1.98, abs=0.011)


def test_row_length_of_a_thousandth_hectare():
    """lecture notes on setting drills: 14.30 m for 0.70-m rows, 19.20 m for 0.525-m rows."""
    lengths = [
        nominal(course(Drill(rows=1, spacing=w), rolled(1.0), area=10.0).distance)
        for w in (0.70, 0.525)
    ]
    assert lengths == pytest.approx([14.286, 19.048], abs=5e-4)
    assert 19.20 / lengths[1] - 1 == pytest.approx(0.008, abs=5e-4)


def test_row_length_of_a_hundredth_acre():
    """A university extension page on soybean drills: 7.5-in rows, 697 ft."""
    run = course(Drill(rows=1, spacing=7.5 * INCH), rolled(1.0), area=ACRE / 100).distance
    assert nominal(run) / FOOT == pytest.approx(697, abs=0.5)


def test_the_ten_per_cent_rule_is_five_on_each_side():
    """Introduction to Agricultural Engineering Technology: 0.95 to 1.05 of the target."""
    band = Target(rate=100.0, tolerance=0.05)
    assert (band.low, band.high) == pytest.approx((95, 105))


def test_turns_for_a_hundred_feet():
    """A university extension page on drill calibration: 100 ÷ (3.14 × wheel diameter in ft)."""
    wheel = rolled(pi * 2.5 * FOOT)
    turns = course(Drill(rows=1, spacing=1.0), wheel, area=100 * FOOT).turns
    assert nominal(turns) == pytest.approx(100 / (3.14 * 2.5), rel=1e-3)


def test_pounds_per_acre_from_the_test_area():
    """UW column: lb/ac = lb caught ÷ (circumference × spacing × turns × rows ÷ 43,560)."""
    run = turned(rolled(8 * FOOT), 20)
    rate = static_rate(
        0.5 * POUND, distance=nominal(run.distance), spacing=7.5 * INCH, rows_caught=2
    )
    area = 8 * 7.5 / 12 * 20 * 2
    assert rate / POUND_PER_ACRE == pytest.approx(0.5 / (area / 43560))


def test_kilograms_per_hectare_from_one_tube():
    """Grain SA, Grain Guide 2018, p. 34: g over 10 m ÷ row spacing in m."""
    rate = static_rate(18 * GRAM, distance=10.0, spacing=0.15, rows_caught=1)
    assert rate / KG_PER_HECTARE == pytest.approx(18 / 0.15)


def test_seed_of_one_round():
    """Russian extension page: kg/ha = Q × 5,000 ÷ (L × B), two passes of length L and width B."""
    drill = Drill(rows=20, spacing=0.15)
    run = sown(2 * 400.0 * nominal(drill.width), drill)
    rate = static_rate(
        30.0, distance=nominal(run.distance), spacing=nominal(drill.spacing), rows_caught=20
    )
    assert rate / KG_PER_HECTARE == pytest.approx(30 * 5000 / (400 * 3.0))
