"""Catch to rate: by hand, published, by simulation, by its exponents, and refused."""

import re
from math import inf, nan, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.catch.rate import measure, static_rate
from evenstand.engine.catch.target import Target
from evenstand.engine.catch.weighing import Bag, Prior, WeighScale, net, repeat_scatter, row_spread
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import driven, rolled, taped, turned
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import (
    ACRE,
    FOOT,
    GRAM,
    INCH,
    KG_PER_HECTARE,
    OUNCE,
    POUND,
    POUND_PER_ACRE,
)
from evenstand.engine.statistics.budget import budget, give_or_take, nominal

positive = st.floats(min_value=0.01, max_value=100)
US = Style()


def by_hand(**changed):
    """50 turns × 2 m × 10 rows × 0.2 m = 200 m²; 2 kg on them is 100 kg/ha."""
    run = {
        "catch": ufloat(2.0, 0.02, "scale reading"),
        "distance": ufloat(50, 0.1, "turn count") * ufloat(2.0, 0.02, "rolled distance"),
        "spacing": ufloat(0.2, 0.001, "row spacing"),
        "rows_caught": 10,
    } | changed
    return static_rate(run.pop("catch"), **run)


def test_worked_by_hand():
    rate = by_hand()
    assert rate.n / KG_PER_HECTARE == pytest.approx(100)
    # Shares in kg/ha: scale 1 %, rolled distance 1 %, spacing 0.5 %, turns 0.2 %.
    shares = {s.name: s.u / KG_PER_HECTARE for s in budget(rate, {})}
    assert shares == pytest.approx(
        {"scale reading": 1.0, "rolled distance": 1.0, "row spacing": 0.5, "turn count": 0.2}
    )


def test_agrees_with_simulation():
    # JCGM 101:2008: push draws of every input through the formula itself.
    np = pytest.importorskip("numpy")
    draw, n = np.random.default_rng(1).normal, 400_000
    ground = draw(50, 0.1, n) * draw(2.0, 0.02, n) * 10 * draw(0.2, 0.001, n)
    simulated = draw(2.0, 0.02, n) / ground
    assert by_hand().s == pytest.approx(simulated.std(), rel=0.01)


@given(positive, positive, positive)
def test_exponents_of_every_input(a, b, c):
    """Mass enters as +1; distance and spacing as −1."""
    scaled = by_hand(catch=2.0 * a, distance=100.0 * b, spacing=0.2 * c)
    assert scaled == pytest.approx(by_hand().n * a / (b * c))


def test_published_catches(published):
    for row in published("catch_examples.csv"):
        rate = static_rate(
            row["catch"],
            distance=row["distance"],
            spacing=row["spacing"],
            rows_caught=int(row["rows"]),
        )
        assert rate / KG_PER_HECTARE == pytest.approx(row["rate"], rel=row["rel"]), row["source"]


def test_catch_per_row(published):
    for row in published("catch_per_row.csv"):
        spacing = row["spacing"] * INCH
        one = static_rate(GRAM, distance=100 * FOOT, spacing=spacing, rows_caught=1)
        grams = POUND_PER_ACRE / one
        assert grams == pytest.approx(row["g_per_100ft"], abs=6e-5)
        assert grams * GRAM / OUNCE == pytest.approx(row["oz_per_100ft"], abs=6e-6)
        assert ACRE / spacing / FOOT == pytest.approx(row["row_ft_per_acre"], abs=0.51)
        if row["g_per_150ft_printed"]:  # to the printed 0.01 g
            assert 1.5 * grams == pytest.approx(row["g_per_150ft_printed"], abs=0.0051)


def test_seeds_per_row_length(published):
    for row in published("seeds_per_row.csv"):
        per_metre = row["per_area"] * row["spacing"]
        assert per_metre == pytest.approx(row["per_metre"], rel=row["rel"]), row["source"]


@pytest.mark.parametrize("turns", [1, 7, 30])
def test_grams_for_wheel_turns(turns):
    """garnella.pl, sowing: q = 0.1·Q·S·D·π·n grams, S width m, D wheel m, Q kg/ha."""
    q = 0.1 * 150 * 3.0 * 0.65 * 3.141592653589793 * turns
    run = turned(rolled(3.141592653589793 * 0.65), turns)
    rate = static_rate(q * GRAM, distance=nominal(run.distance), spacing=3.0 / 20, rows_caught=20)
    assert rate / KG_PER_HECTARE == pytest.approx(150)


def kentucky_wheel(weights, *, turns, rows, prior=None):
    """8-ft taped wheel, slip 3 ± 3%, 24 rows of 7.5 in, 1-g scale."""
    wheel = taped(8 * FOOT, slip=give_or_take(0.03, 0.03, "slip"))
    return measure(
        [(Bag(weight=w * GRAM, rows=rows),) for w in weights],
        run=turned(wheel, turns),
        drill=Drill(rows=24, spacing=7.5 * INCH),
        scale=WeighScale(),
        prior=prior or Prior(dof=0),
    )


def test_one_row_of_24_against_another_library():
    """The same budget by GTC and by simulation: 24.969 static, 24.22, 6.34%, 132.7 dof.

    Shares printed: rows not caught 60%, repeatability 12, scale 18, slip 8.
    """
    rate = kentucky_wheel([25, 27, 26], turns=20, rows=1)
    assert rate.static.value / POUND_PER_ACRE == pytest.approx(24.969, abs=0.0005)
    assert rate.field.value / POUND_PER_ACRE == pytest.approx(24.22, abs=0.005)
    assert rate.field.u / rate.field.value == pytest.approx(0.0634, abs=0.00006)
    assert rate.field.dof == 132  # cut from 132.7
    assert (rate.field.high - rate.field.value) / rate.field.value == pytest.approx(0.125, abs=6e-4)
    part = {s.name: round(100 * s.part) for s in rate.shares}
    assert part["the rows you didn't catch"] == 60
    assert part["catch-to-catch variation"] == 12
    assert part["scale error"] + part["scale reading"] == 18
    assert part["slip"] == 8


def test_all_rows_leave_slip_as_the_largest_share():
    """The same drill, 80 turns, all 24 rows: 24.550, 2.00%, ± 3.9%, slip 79% of it."""
    rate = kentucky_wheel([2512, 2548, 2530], turns=80, rows=24)
    assert rate.field.value / (1 - 0.03) / POUND_PER_ACRE == pytest.approx(25.31, abs=0.005)
    assert rate.field.value / POUND_PER_ACRE == pytest.approx(24.550, abs=0.0005)
    assert rate.field.u / rate.field.value == pytest.approx(0.0200, abs=0.0001)
    assert rate.shares[0].name == "slip"
    assert rate.shares[0].part == pytest.approx(0.79, abs=0.005)
    assert "the rows you didn't catch" not in {s.name for s in rate.shares}


def test_three_catches_get_a_sane_range_from_the_prior():
    """t on 2 degrees of freedom is 4.30 (GUM table G.2); pooled with 12 more it is 2.14."""
    alone = kentucky_wheel([2512, 2548, 2530], turns=80, rows=24)
    pooled = kentucky_wheel([2512, 2548, 2530], turns=80, rows=24, prior=Prior())
    dof = {s.name: s.dof for s in pooled.shares}
    assert dof["catch-to-catch variation"] == 14
    assert {s.name: s.dof for s in alone.shares}["catch-to-catch variation"] == 2


def test_pooled_scatter_by_hand():
    # Prior 2 % on 12: 12·0.0004 = 0.0048; deviations −1 %, 0, +1 %: 0.0002. 0.005/14 = 0.000357.
    scatter, dof = repeat_scatter(
        [1.98, 2.00, 2.02],
        row_length=1e12,
        scale=WeighScale(resolution=1e-6),
        prior=Prior(repeat_cv=0.02, repeat_length=0.0),
    )
    assert scatter == pytest.approx(sqrt(0.005 / 14))
    assert dof == 14


def test_scatter_is_never_less_than_the_step_of_the_scale():
    """JCGM 100:2008, F.2.2.1: 0.29 of the step."""
    scatter, _ = repeat_scatter(
        [1.0, 1.0], row_length=1.0, scale=WeighScale(resolution=0.1), prior=Prior(dof=0)
    )
    assert scatter == pytest.approx(0.0289, abs=5e-5)


def test_scatter_of_short_and_long_runs():
    """The two catches of the published comparison: 20 turns × 4 rows 1.9%, 10 × 1 3.8%."""
    turn = 8 * FOOT
    assert Prior().repeat(20 * 4 * turn) == pytest.approx(0.019, abs=5e-5)
    assert Prior().repeat(10 * turn) == pytest.approx(0.038, abs=5e-5)


def test_rows_weighed_apart_speak_for_their_spread():
    # Prior 5 % on 12: 0.03; rows ±10 % of the mean: 0.02. 0.05/13 = 0.003846, root 6.2 %.
    apart = [(Bag(weight=1.8), Bag(weight=2.2))]
    cv, dof = row_spread(apart, Prior())
    assert cv == pytest.approx(sqrt(0.05 / 13))
    assert dof == 13
    assert row_spread([(Bag(weight=2.0, rows=2),)], Prior()) == (0.05, inf)


def half_pound(*, rows=24, caught=4, blocked=0, target=None, field_ratio=1.0, wheel=None, **kw):
    """8 oz over 145.2 ft; four of 24 rows at 7.5 in make 60 lb/ac."""
    return measure(
        [(Bag(weight=8 * OUNCE, rows=caught),)],
        run=turned(wheel or rolled(145.2 * FOOT / 20), 20),
        drill=Drill(rows=rows, spacing=7.5 * INCH, blocked=blocked),
        scale=WeighScale(),
        prior=Prior(),
        target=target,
        field_ratio=field_ratio,
        **kw,
    )


def test_8_oz_from_4_of_24_rows_is_60_pounds_an_acre():
    """Common practice, no source."""
    rate = half_pound()
    assert rate.field.value / POUND_PER_ACRE == pytest.approx(60)
    assert rate.static == rate.field
    assert rate.verdict is None
    assert (rate.rows_caught, rate.repeats, rate.catch) == (4, 1, pytest.approx(POUND / 2))


def test_blocked_rows_halve_the_rate_over_the_same_ground():
    assert half_pound(blocked=12).field.value / POUND_PER_ACRE == pytest.approx(30)


def test_each_row_apart_groups_and_one_bag_give_the_same_rate():
    drill, run = Drill(rows=4, spacing=0.2), turned(rolled(2.0), 25.0)
    ways = [
        (Bag(weight=1.0, rows=4),),
        (Bag(weight=0.4, rows=2), Bag(weight=0.6, rows=2)),
        tuple(Bag(weight=w) for w in (0.2, 0.2, 0.3, 0.3)),
    ]
    rates = [
        measure([way], run=run, drill=drill, scale=WeighScale(), prior=Prior()) for way in ways
    ]
    # 1 kg on 4 × 0.2 × 50 m = 40 m² is 250 kg/ha.
    for rate in rates:
        assert rate.field.value / KG_PER_HECTARE == pytest.approx(250)


@pytest.mark.parametrize(
    ("wanted", "word"), [(60, "on target"), (75, "light"), (50, "heavy"), (62.5, "cannot tell yet")]
)
def test_verdict_where_nine_in_ten_speak_for_it(wanted, word):
    rate = half_pound(target=Target(rate=wanted * POUND_PER_ACRE, tolerance=0.06))
    assert rate.verdict.word == word
    odds = (rate.verdict.odds_within, rate.verdict.odds_light, rate.verdict.odds_heavy)
    assert sum(odds) == pytest.approx(1)


def test_static_and_field_targets_are_judged_on_their_own_rate():
    """Five-crop study of fluted meters (Yousif): sorghum 95% of the bench, cotton 85%."""
    wanted = Target(rate=60 * POUND_PER_ACRE, tolerance=0.06)
    on_bench = Target(rate=60 * POUND_PER_ACRE, tolerance=0.06, on="static")
    assert half_pound(field_ratio=0.85, target=wanted).verdict.word == "light"
    assert half_pound(field_ratio=0.85, target=on_bench).verdict.word == "on target"
    rate = half_pound(field_ratio=0.95)
    assert rate.field.value / rate.static.value == pytest.approx(0.95)


def test_field_rate_from_a_tape_holds_slip_once():
    wheel = taped(145.2 * FOOT / 20, slip=0.05)
    rate = half_pound(wheel=wheel)
    assert rate.static.value / POUND_PER_ACRE == pytest.approx(60)
    assert rate.field.value / POUND_PER_ACRE == pytest.approx(57)
    said = [str(line.say) for line in rate.working]
    assert sum(bool(re.search(labels.SLIP_COUNTED_HERE.like(), text)) for text in said) == 1


def test_a_pulled_course_needs_neither_wheel_nor_slip():
    rate = measure(
        [(Bag(weight=0.12),)],
        run=driven(50.0),
        drill=Drill(rows=20, spacing=0.2),
        scale=WeighScale(),
        prior=Prior(),
    )
    assert rate.field.value / KG_PER_HECTARE == pytest.approx(120)


def test_every_line_of_the_working_in_pounds_and_feet():
    lines = [(str(x.say), x.sum(US), US.amount(x.value)) for x in half_pound().working]
    assert (labels.RATE_THESE_ROWS, "8 oz ÷ 363 ft² × 2,722.5", "60 lb/ac") in lines


def test_repeats_groups_and_ratio_show_in_the_working():
    rate = measure(
        [(Bag(weight=0.1), Bag(weight=0.1)), (Bag(weight=0.1), Bag(weight=0.11))],
        run=turned(taped(2.0, slip=0.02), 20.0),
        drill=Drill(rows=4, spacing=0.2, blocked=1),
        scale=WeighScale(),
        prior=Prior(),
        field_ratio=0.9,
    )
    said = " | ".join(str(line.say) for line in rate.working)
    for words in (
        "all bags",
        "All repeats",
        "Average catch",
        "open rows",
        "Slip",
        "field vs. stationary",
    ):
        assert words in said


def test_the_working_ends_at_the_field_rate_step_by_step():
    """Slip 2%, ratio 0.9 and three of four rows open, each in its own line."""
    rate = measure(
        [(Bag(weight=0.1, rows=2),)],
        run=turned(taped(2.0, slip=0.02), 20.0),
        drill=Drill(rows=4, spacing=0.2, blocked=1),
        scale=WeighScale(),
        prior=Prior(),
        field_ratio=0.9,
    )
    values = [line.value.value for line in rate.working]
    # 0.1 kg on 40 m × 2 × 0.2 m = 16 m²; then × ¾, × 0.98, × 0.9.
    expected = [40, 16, 0.1 / 16, 0.075 / 16, 0.0735 / 16, 0.06615 / 16]
    assert values == pytest.approx(expected)
    assert rate.field.value == pytest.approx(values[-1])


def test_what_is_assumed_depends_on_what_was_caught():
    assert any(
        re.search(labels.ROWS_SPREAD_ABOUT.like(), str(text)) for text in half_pound().assumed
    )
    assert not any(
        re.search(labels.ROWS_SPREAD_ABOUT.like(), str(text))
        for text in half_pound(caught=24).assumed
    )


def test_common_and_own_parts_of_the_uncertainty():
    rate = kentucky_wheel([25, 27, 26], turns=20, rows=1)
    whole = sqrt(rate.common * rate.common + rate.per_catch * rate.per_catch)
    assert whole == pytest.approx(rate.field.u / rate.field.value)
    # Only repeats, reading and turn count are a catch's own: 0.1228 + 0.0614 + 0.0010 of u².
    assert (rate.per_catch / whole) ** 2 == pytest.approx(0.185, abs=0.001)


def test_scale_limits_grow_with_the_load_as_a_trade_scale_in_service():
    """OIML R 76-1, table 6, class III, twice the limits of the first check."""
    scale = WeighScale(resolution=GRAM)
    assert [scale.limits(w) / GRAM for w in (0.5, 0.501, 2.0, 2.5)] == pytest.approx([1, 2, 2, 3])
    assert WeighScale(tolerance=0.002).limits(9.0) == 0.002


def test_net():
    assert net(1.2, 0.2) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: by_hand(catch=ufloat(0, 0.1)), "catch"),
        (lambda: by_hand(distance=-1.0), "distance"),
        (lambda: by_hand(spacing=nan), "spacing"),
        (lambda: by_hand(rows_caught=0), "rows_caught"),
        (lambda: Bag(weight=-0.1), "weight"),
        (lambda: Bag(weight=nan), "weight"),
        (lambda: Bag(weight=1.0, rows=0), "rows_caught"),
        (lambda: WeighScale(resolution=0), "resolution"),
        (lambda: WeighScale(tolerance=-1), "scale_tolerance"),
        (lambda: net(0.1, 0.2), "gross"),
        (lambda: net(nan, 0.2), "gross"),
        (lambda: half_pound(caught=25), "rows_caught"),
        (lambda: half_pound(caught=13, blocked=12), "rows_caught"),
        (lambda: half_pound(field_ratio=0.0), "field_ratio"),
        (lambda: kentucky_wheel([], turns=20, rows=1), "catch"),
        (lambda: kentucky_wheel([0], turns=20, rows=1), "catch"),
        (
            lambda: measure(
                [(Bag(weight=1.0),), (Bag(weight=1.0, rows=2),)],
                run=driven(10.0),
                drill=Drill(rows=4, spacing=0.2),
                scale=WeighScale(),
                prior=Prior(),
            ),
            "again",
        ),
    ],
)
def test_refuses_and_names_the_field(make, field):
    with pytest.raises(MeasurementError) as refusal:
        make()
    assert refusal.value.field == field
    assert str(refusal.value).startswith(f"{field} is ")
