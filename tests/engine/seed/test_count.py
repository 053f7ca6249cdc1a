"""Seeds in a weight: the published weights, the rule of eight, samples, and the table."""

import re
from math import inf, nan, sqrt

import pytest
from uncertainties import ufloat

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import GRAM, POUND
from evenstand.engine.seed.count import (
    WeighedSample,
    from_replicates,
    from_samples,
    printed,
    samples_for,
    weighed,
)
from evenstand.engine.statistics.budget import nominal, standard_uncertainty

# Eight weights of 10 g but for two: mean 10, sd √(2 × 2²/7) = 1.069, CV 10.7 %.
UNEVEN = [10.0, 10.0, 10.0, 10.0, 10.0, 10.0, 8.0, 12.0]


def grams(*weights):
    return [weight * GRAM for weight in weights]


def relative(counted):
    return standard_uncertainty(counted.seeds_per_kg) / nominal(counted.seeds_per_kg)


def test_dimorphotheca_as_published(published):
    """AOSA tutorial: mean 0.21326 g, sd 0.004296, CV 2.01%; 212,690 seeds per pound."""
    weights = grams(*(row["weight"] for row in published("dimorphotheca_weights.csv")))
    found = from_replicates(weights)
    assert 100 / nominal(found.seeds_per_kg) / GRAM == pytest.approx(0.21326, abs=5e-6)
    assert found.cv == pytest.approx(0.0201, abs=5e-5)
    assert found.cv * 0.21326 == pytest.approx(0.004296, abs=5e-7)
    assert nominal(found.seeds_per_kg) * POUND == pytest.approx(212_690, abs=5)
    assert found.dof == 7
    assert relative(found) == pytest.approx(0.004296 / 0.21326 / sqrt(8), rel=1e-3)
    assert found.said == ()


@pytest.mark.parametrize(
    ("spread", "chaffy", "passes"),
    [
        (0.039, False, True),
        (0.041, False, False),
        (0.059, True, True),
        (0.061, True, False),
    ],
)
def test_limits_of_the_scatter(spread, chaffy, passes):
    """ISTA chapter 10, not read: CV at most 4%, of chaffy grasses 6%."""
    step = spread * sqrt(7 / 8)  # four at 1 + step and four at 1 − step have this CV
    weights = grams(*[1 + step] * 4, *[1 - step] * 4)
    found = from_replicates(weights, chaffy=chaffy)
    assert found.cv == pytest.approx(spread)
    assert (found.said == ()) is passes


def test_eight_more_are_asked_for():
    found = from_replicates(grams(*UNEVEN))
    assert re.search(labels.WEIGHTS_SCATTER_THEIR.like(more=8), str(found.said[0]))
    assert re.search(labels.WEIGHTS_SCATTER_THEIR.like(cv="10.7%", limit="4%"), str(found.said[0]))
    assert nominal(found.seeds_per_kg) == pytest.approx(100 / 0.010)
    assert re.search(
        labels.WEIGHTS_SCATTER_THEIR.like(more=6),
        str(from_replicates(grams(*UNEVEN, 10.0, 10.0)).said[0]),
    )


def test_sixteen_drop_what_stands_out():
    """Σ(x − 10)² = 8 over 15: sd 0.73; 8 and 12 lie 2.7 sd out, the other fourteen are alike."""
    found = from_replicates(grams(*UNEVEN, *[10.0] * 8))
    assert found.dropped == (6, 7)
    assert nominal(found.seeds_per_kg) == pytest.approx(100 / 0.010)
    assert found.dof == 13
    assert found.cv == 0
    assert labels.WEIGHTS_LIE_MORE(places="7, 8") in str(found.said[0])


def test_sixteen_of_which_none_stands_out():
    """Half at 9 and half at 11: all lie within 1.03 sd."""
    found = from_replicates(grams(*[9.0] * 8, *[11.0] * 8))
    assert found.dropped == ()
    assert labels.WEIGHTS_SCATTER_WIDELY in str(found.said[0])
    assert relative(found) == pytest.approx(sqrt(16 / 15) / 10 / 4)


def test_published_counts_of_peas(published):
    for row in published("seed_counts_worked.csv"):
        found = from_samples([WeighedSample(int(row["seeds"]), row["pounds"] * POUND)])
        assert abs(nominal(found.seeds_per_kg) * POUND - row["seeds_per_lb"]) <= row["off"]


def test_twenty_grams_times_22_68():
    """University of Kentucky: seeds in 20 g × 22.68 are those of a pound (453.6 ÷ 20)."""
    found = from_samples([WeighedSample(705, 20 * GRAM)])
    assert nominal(found.seeds_per_kg) * POUND == pytest.approx(705 * 22.68, rel=2e-5)


def test_samples_that_agree_are_surer():
    """Expected 2.01% (7 dof); three alike: √(7 × 0.0201² ÷ 9) ÷ √3 = 1.023%."""
    one = from_samples([WeighedSample(700, 0.02)])
    three = from_samples([WeighedSample(700, 0.02)] * 3)
    assert relative(one) == pytest.approx(0.0201)
    assert relative(three) == pytest.approx(0.01023, rel=1e-3)
    assert (one.dof, three.dof) == (7, 9)
    assert one.cv is None


def test_samples_that_differ_are_less_sure():
    """600, 700, 800: gaps ∓1/7; √((7 × 0.0201² + 2/49) ÷ 9) ÷ √3 = 4.022%."""
    found = from_samples([WeighedSample(n, 0.02) for n in (600, 700, 800)])
    assert found.cv == pytest.approx(1 / 7)
    assert relative(found) == pytest.approx(0.04022, rel=1e-3)


def test_a_coarse_scale_tells():
    """1 g on three of 20 g: 1 ÷ √12 ÷ 20 ÷ √3 = 0.833%, beside the scatter of 1.023%."""
    found = from_samples([WeighedSample(700, 0.02)] * 3, resolution=GRAM)
    assert relative(found) == pytest.approx(sqrt(0.00833**2 + 0.01023**2), rel=1e-3)


def test_thousand_seed_weight():
    """25 g per thousand are 40 seeds in a gram; the working says so."""
    found = weighed(25 * GRAM)
    assert nominal(found.seeds_per_kg) == pytest.approx(40_000)
    assert found.working[0].value.value == pytest.approx(40_000)
    # 1 ÷ 25 g per 1,000 = 0.04 per g, × 453.592 = 18.144 per lb, × 1,000
    assert found.working[0].sum(Style()) == "1 ÷ 25 g per 1,000 × 453,592"
    assert relative(weighed(ufloat(25, 0.5, "weight") * GRAM)) == pytest.approx(0.02)


def test_a_printed_count_is_as_sure_as_the_rule():
    """4% ÷ √8 = 1.414%; what comes with a spread keeps its own."""
    assert relative(printed(40_000)) == pytest.approx(0.01414, rel=1e-3)
    assert re.search(labels.PRINTED_COUNT_TAKEN.like(), str(printed(40_000).said[0]))
    own = printed(ufloat(40_000, 4_000, "seed count"))
    assert relative(own) == pytest.approx(0.1)
    assert own.said == ()


def test_causes_carry_the_degrees_of_freedom():
    assert from_samples([WeighedSample(700, 0.02)]).causes["seed count"].dof == 7
    assert printed(1).causes["seed count"].dof == inf


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: printed(0), "seeds_per_kg"),
        (lambda: printed(nan), "seeds_per_kg"),
        (lambda: weighed(-1), "thousand_seed_weight"),
        (lambda: from_replicates(grams(*[1.0] * 7)), "replicates"),
        (lambda: from_replicates(grams(*[1.0] * 7, 0.0)), "replicates"),
        (lambda: WeighedSample(0, 0.02), "seeds"),
        (lambda: WeighedSample(700, 0), "weight"),
        (lambda: from_samples([]), "samples"),
        (lambda: from_samples([WeighedSample(700, 0.02)], resolution=-1), "resolution"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field


@pytest.mark.parametrize(
    ("within", "needed"),
    [
        # t(97.5 %) from the printed table: 2.365 at 7, 2.306 at 8, 2.262 at 9 degrees of freedom;
        # 2.01 % × t ÷ √n is 4.75 % of one sample, 3.28 % of two, 2.63 % of three.
        (0.05, 1),
        (0.0475, 2),
        (0.033, 2),
        (0.03, 3),
    ],
)
def test_samples_for_a_range(within, needed):
    assert samples_for(within, cv=0.0201, dof=7, samples=1) == needed


@pytest.mark.parametrize("within", [0.01, 0.015, 0.02, 0.04])
def test_the_answer_is_the_smallest_that_does(within):
    """By SciPy's quantiles instead of our own."""
    stats = pytest.importorskip("scipy.stats")

    def half(n):
        return stats.t.ppf(0.975, 7 + n - 1) * 0.025 / n**0.5

    n = samples_for(within, cv=0.025, dof=7, samples=1)
    assert half(n) <= within < half(n - 1)


def test_what_is_counted_already_is_enough():
    assert samples_for(0.05, cv=0.02, dof=15, samples=8) == 8


def test_a_lot_too_uneven_has_no_number():
    assert samples_for(0.001, cv=0.2, dof=7, samples=1) is None


@pytest.mark.parametrize("within", [0, 1, float("nan"), -0.1])
def test_a_range_is_a_share(within):
    with pytest.raises(MeasurementError, match="above 0% and below 100%") as refused:
        samples_for(within, cv=0.02, dof=7, samples=1)
    assert refused.value.field == "within"


@pytest.mark.parametrize("field", ["cv", "samples"])
def test_scatter_and_samples_are_above_zero(field):
    given = {"cv": 0.02, "samples": 1} | {field: 0}
    with pytest.raises(MeasurementError) as refused:
        samples_for(0.03, dof=7, **given)
    assert refused.value.field == field
