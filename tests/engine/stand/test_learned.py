"""What own counts teach: limits by hand, a sampler as another route, simulated farms."""

import math
import random
import re
from statistics import NormalDist, fmean

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.stand.learned import BETWEEN_FIELDS, STAYS, Season, in_words, learned
from evenstand.engine.stand.usual import UNKNOWN, USUAL, Usual

GRAIN = USUAL["small grain"]


def odds(share):
    return math.log(share / (1 - share))


def counted(share, field="home", u=0.03):
    return Season(field=field, emergence=share, u=u)


def test_without_counts_it_is_what_is_usual():
    """The middle is the beta's mean; the spread its own and that of fields and seasons."""
    found = learned([], usual=GRAIN)
    assert found.share.value == pytest.approx(0.85, abs=1e-4)
    assert (found.seasons, found.fields, found.usual_counts) == (0, 0, 1.0)
    assert found.share.low < 0.85 < found.share.high


def test_many_counts_in_many_fields_outweigh_it():
    found = learned([counted(0.62, str(i)) for i in range(20)], usual=GRAIN)
    assert found.share.value == pytest.approx(0.62, abs=0.005)
    assert found.usual_counts < 0.02
    one = learned([counted(0.62)], usual=GRAIN)
    assert 0.62 < one.share.value < 0.85
    assert one.usual_counts > 0.2


def test_a_field_known_well_is_told_from_the_farm():
    """Nine fields at 80%, one at 50% for six seasons: next year there is nearer its own."""
    seasons = [counted(0.8, f"field {i}") for i in range(9)]
    seasons += [counted(0.5, "alkali flat") for _ in range(6)]
    there = learned(seasons, usual=GRAIN, field="alkali flat").share
    new = learned(seasons, usual=GRAIN, field="bought last week").share
    assert there.value < 0.6
    assert new.value > 0.7
    assert there.high - there.low < new.high - new.low


def test_half_of_a_fields_own_count_stays_with_it():
    """One sharp count of 50%, log odds 0: next year half way from there to the farm's."""
    seasons = [counted(0.8, f"field {i}", u=0.02) for i in range(9)]
    seasons.append(counted(0.5, "alkali flat", u=0.02))
    farm = odds(learned(seasons, usual=GRAIN).share.value)
    there = odds(learned(seasons, usual=GRAIN, field="alkali flat").share.value)
    assert there == pytest.approx(farm / 2, abs=0.1)


def test_a_hazy_count_teaches_less():
    sharp = learned([counted(0.6, u=0.02)], usual=GRAIN)
    hazy = learned([counted(0.6, u=0.15)], usual=GRAIN)
    assert hazy.share.value > sharp.share.value
    assert hazy.usual_counts > sharp.usual_counts


def test_against_a_sampler():
    """Importance sampling of the same story: 60,000 farms drawn, weighed by how they fit."""
    rng = random.Random(11)
    seasons = [
        counted(0.70, "a"),
        counted(0.62, "a"),
        counted(0.80, "b", u=0.05),
        counted(0.75, "c", u=0.04),
    ]
    centre, start = odds(GRAIN.mean), GRAIN.sd / (GRAIN.mean * (1 - GRAIN.mean))
    draws = []
    for _ in range(60_000):
        spread = abs(rng.gauss(0, BETWEEN_FIELDS))
        farm = rng.gauss(centre, start)
        fields = {name: rng.gauss(farm, math.sqrt(STAYS) * spread) for name in "abc"}
        anew = math.sqrt(1 - STAYS) * spread
        fit = 0.0
        for each in seasons:
            sd = each.u / (each.emergence * (1 - each.emergence))
            variance = sd * sd + anew * anew
            gap = odds(each.emergence) - fields[each.field]
            fit -= 0.5 * (gap * gap / variance + math.log(variance))
        draws.append((math.exp(fit), rng.gauss(fields["a"], anew)))
    draws.sort(key=lambda pair: pair[1])
    whole, running, points = sum(w for w, _ in draws), 0.0, []
    for weight, value in draws:
        running += weight
        if running >= whole * (0.025, 0.5, 0.975)[len(points)]:
            points.append(1 / (1 + math.exp(-value)))
        if len(points) == 3:
            break
    found = learned(seasons, usual=GRAIN, field="a").share
    assert [found.low, found.value, found.high] == pytest.approx(points, abs=0.015)


@pytest.mark.simulated
@pytest.mark.parametrize(
    ("fields", "per_field", "known"),
    [(1, 1, False), (1, 4, True), (6, 2, True), (6, 2, False), (20, 1, False)],
)
def test_next_season_is_held_within_two_points(fields, per_field, known):
    """Farms drawn from the same story: 95 of 100 next seasons lie in the range.

    Of each farm all its next seasons are counted, by their normal distribution: 150 farms so say
    more than 500 of which one season was drawn.
    """
    rng, held, times = random.Random(fields * 10 + known), [], 150
    for _ in range(times):
        usual = Usual(name="x", a=12.0, b=4.0, low=0.6, high=0.9, source="an invented seed")
        farm = rng.gauss(odds(usual.mean), usual.sd / (usual.mean * (1 - usual.mean)))
        spread = abs(rng.gauss(0, BETWEEN_FIELDS))
        part = math.sqrt(0.5) * spread
        seasons, true = [], {}
        for i in range(fields):
            true[str(i)] = rng.gauss(farm, part)
            for _ in range(per_field):
                season = rng.gauss(true[str(i)], part)
                share = 1 / (1 + math.exp(-rng.gauss(season, 0.15)))
                seasons.append(Season(field=str(i), emergence=share, u=0.15 * share * (1 - share)))
        share = learned(seasons, usual=usual, field="0" if known else None).share
        coming = NormalDist(true["0"], part) if known else NormalDist(farm, math.hypot(part, part))
        held.append(coming.cdf(odds(share.high)) - coming.cdf(odds(share.low)))
    assert fmean(held) == pytest.approx(0.95, abs=0.02 + 0.01)  # and chance of 150 farms


def test_the_order_of_seasons_does_not_matter():
    seasons = [counted(0.5 + 0.03 * i, str(i % 4)) for i in range(10)]
    once = learned(seasons, usual=GRAIN, field="2").share
    again = learned(seasons[::-1], usual=GRAIN, field="2").share
    assert again.value == pytest.approx(once.value, abs=1e-9)
    assert again.low == pytest.approx(once.low, abs=1e-9)


def test_a_field_never_counted_is_any_field():
    seasons = [counted(0.6, "a"), counted(0.7, "b")]
    assert learned(seasons, usual=GRAIN, field="c") == learned(seasons, usual=GRAIN)


def test_sentences():
    none = str(in_words(learned([], usual=UNKNOWN)))
    assert re.match(labels.NO_COUNT_YOUR.like(share="50%"), none)
    one = str(in_words(learned([counted(0.6)], usual=GRAIN)))
    assert labels.ONE_COUNT_YOURS in one
    assert labels.COUNTS_ONE_FIELD(n=3) in str(
        in_words(learned([counted(0.6)] * 3, usual=GRAIN, field="home"))
    )
    assert labels.COUNTS_FIELDS(n=2, fields=2) in str(
        in_words(learned([counted(0.6, "a"), counted(0.7, "b")], usual=GRAIN))
    )


@pytest.mark.parametrize(
    ("share", "u", "field"),
    [(0.0, 0.1, "emergence"), (1.0, 0.1, "emergence"), (0.5, 0.0, "u"), (0.5, -1.0, "u")],
)
def test_what_cannot_be_is_refused_under_its_field(share, u, field):
    with pytest.raises(MeasurementError) as refused:
        Season(field="home", emergence=share, u=u)
    assert refused.value.field == field
