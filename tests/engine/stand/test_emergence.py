"""What came up of live seed: a worked field, SciPy's beta, simulation."""

import random
import re
from math import inf, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import SQUARE_FOOT
from evenstand.engine.stand.emergence import SOWN, emergence, in_words, live_seeds
from evenstand.engine.stand.place import Place
from evenstand.engine.stand.stand import stand
from evenstand.engine.stand.usual import UNKNOWN, USUAL
from evenstand.engine.statistics.budget import Cause

TWELVE = [31, 27, 35, 22, 29, 33, 26, 30, 38, 24, 28, 34]
GRAIN = USUAL["small grain"]


def of(counts, area=1.0):
    return stand([Place(area=area, plants=count) for count in counts])


def test_a_worked_field():
    """15.87 of 22 live seeds/ft² ± 3%: √(4.572² + 3²) = 5.469% of 72.1% is 3.94.

    Of the variance 0.699 is counting: 11 ÷ 0.699² = 22.5 degrees of freedom, of which the
    GUM (G.6.4) takes 22: t 2.074, 63.9 to 80.3% (t of 22.5 gives 64.0).
    """
    found = emergence(
        of(TWELVE, 1.875 * SQUARE_FOOT), seeds=live_seeds(22 / SQUARE_FOOT, u=0.66 / SQUARE_FOOT)
    )
    assert 100 * found.share.value == pytest.approx(72.1, abs=0.05)
    assert 100 * found.share.u == pytest.approx(3.94, abs=0.005)
    assert 100 * found.share.low == pytest.approx(64.0, abs=0.1)
    assert 100 * found.share.high == pytest.approx(80.3, abs=0.05)
    assert found.share.dof == 22
    assert [(share.name, round(share.part, 3)) for share in found.budget] == [
        ("variation between spots", 0.699),
        (SOWN, 0.301),
    ]


def test_what_is_usual_is_updated_by_effective_seeds():
    """0.7212 × 0.2788 ÷ 0.03944² = 129.25: Beta(17 + 93.2, 3 + 36.0), SciPy's quantiles."""
    beta = pytest.importorskip("scipy.stats").beta
    found = emergence(
        of(TWELVE, 1.875 * SQUARE_FOOT),
        seeds=live_seeds(22 / SQUARE_FOOT, u=0.66 / SQUARE_FOOT),
        usual=GRAIN,
    )
    assert found.effective == pytest.approx(129.25, abs=0.05)
    a, b = 17 + 129.25 * 0.72121, 3 + 129.25 * 0.27879
    assert found.updated.value == pytest.approx(a / (a + b), abs=1e-4)
    assert found.updated.low == pytest.approx(beta.ppf(0.025, a, b), abs=1e-4)
    assert found.updated.high == pytest.approx(beta.ppf(0.975, a, b), abs=1e-4)
    assert found.updated.u == pytest.approx(beta.std(a, b), abs=1e-4)


def test_usual_emergence_is_what_its_sources_print():
    """The mean lies within the printed range, one standard deviation about reaches its ends."""
    for usual in USUAL.values():
        assert usual.low <= usual.mean <= usual.high
        assert usual.sd == pytest.approx((usual.high - usual.low) / 2, rel=0.6), usual.name


def test_effective_seeds_of_perfect_counts_are_those_sown():
    """Binomial counts of 100 seeds a place: u² = E (1 − E) ÷ n, so about n of them."""
    rng = random.Random(9)
    counts = [sum(rng.random() < 0.6 for _ in range(100)) for _ in range(400)]
    assert emergence(of(counts), seeds=100.0).effective == pytest.approx(40_000, rel=0.15)


@pytest.mark.simulated
def test_ranges_hold_the_true_emergence():
    rng, held = random.Random(72), 0
    for _ in range(1500):
        seeds = rng.gauss(300, 9)  # what was really sown, thought to be 300 ± 3 %
        mean = 0.7 * seeds
        counts = [max(0, round(rng.gauss(mean, 0.2 * mean))) for _ in range(10)]
        share = emergence(of(counts), seeds=live_seeds(300, u=9)).share
        held += share.low <= 0.7 <= share.high
    assert held / 1500 == pytest.approx(0.95, abs=0.02)


def test_wide_ranges_are_made_on_the_log_scale():
    share = emergence(of([3, 9, 5, 14, 7, 1]), seeds=20.0).share
    assert share.low * share.high == pytest.approx(share.value * share.value)


def test_none_seen_leaves_an_upper_limit_and_no_update():
    bare = of([0, 0, 0])
    found = emergence(bare, seeds=200.0, usual=GRAIN)
    assert (found.share.value, found.share.low, found.updated) == (0, 0, None)
    assert found.share.high == pytest.approx(bare.range.high / 200)
    assert re.search(labels.NOTHING_SEEN_MOST.like(), str(in_words(found)[0]))


def test_what_is_known_of_the_seed_counts_too():
    seeds = ufloat(400.0, 40.0, "germination")
    found = emergence(of(TWELVE), seeds=seeds, causes={"germination": Cause(dof=3)})
    parts = {share.name: share.dof for share in found.budget}
    assert parts == {"germination": 3, "variation between spots": 11}
    assert found.share.dof < 5


def test_sentences():
    good = emergence(of([80] * 3 + [90] * 3), seeds=100.0, usual=GRAIN)
    assert re.search(labels.LIVE_SEED_CAME.like(share="85%"), str(in_words(good)[0]))
    assert str(in_words(good)[1]) == labels.USUAL_IS_TO(low="80%", high="90%")
    poor = in_words(emergence(of([30] * 3 + [34] * 3), seeds=100.0, usual=GRAIN))
    assert "crust" in str(poor[1])
    many = in_words(emergence(of([150] * 3 + [160] * 3), seeds=100.0, usual=GRAIN))
    assert [str(text) for text in many[1:]] == [labels.MORE_PLANTS_THAN]
    assert len(in_words(emergence(of([50] * 6), seeds=100.0, usual=UNKNOWN))) == 1


def test_counts_too_far_from_what_is_usual_stand_alone():
    """30% where 85 ± 7.8% is usual: 7 standard deviations apart; 72% is 1.5 and is joined."""
    far = emergence(of([30, 28, 33, 29, 31, 30]), seeds=100.0, usual=GRAIN)
    assert far.updated is None
    assert far.effective > 100
    near = emergence(of([72, 68, 75, 71, 74, 72]), seeds=100.0, usual=GRAIN)
    assert near.updated is not None


def test_as_many_plants_as_seeds_update_nothing():
    for plants in (100, 110):
        found = emergence(of([plants] * 6), seeds=100.0, usual=GRAIN)
        assert (found.effective, found.updated) == (0, None)


@given(st.floats(0.2, 5), st.floats(0.2, 5))
def test_only_plants_per_seed_count(ground, seeds):
    once = emergence(of(TWELVE), seeds=100.0)
    again = emergence(of(TWELVE, ground), seeds=100.0 / ground)
    assert again.share.value == pytest.approx(once.share.value)
    twice = emergence(of(TWELVE), seeds=100.0 * seeds)
    assert twice.share.value * seeds == pytest.approx(once.share.value)
    assert twice.share.u * seeds == pytest.approx(once.share.u)


@pytest.mark.parametrize("seeds", [0.0, -1.0, float("nan")])
def test_without_seed_nothing_emerges(seeds):
    with pytest.raises(MeasurementError) as refused:
        emergence(of(TWELVE), seeds=seeds)
    assert refused.value.field == "seeds"


def test_exact_seed_leaves_counting_alone():
    found = emergence(of(TWELVE), seeds=live_seeds(100.0, u=0.0))
    assert [share.part for share in found.budget] == [1.0]
    assert found.share.u / found.share.value == pytest.approx(4.712 / sqrt(12) / 29.75, abs=5e-5)
    assert found.usual is None
    assert found.share.dof < inf
