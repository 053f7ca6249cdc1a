"""Limits: their words, and what no mix could ever keep to is refused at once."""

from math import inf, nan

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import ACRE, POUND_PER_ACRE, SQUARE_FOOT
from evenstand.office.limits import (
    CostWithin,
    Grouped,
    RateWithin,
    SeedShareWithin,
    SeedsWithin,
    Species,
    SpeciesWithin,
    WeightShareWithin,
    WeightWithin,
    in_words,
)


@pytest.mark.parametrize(
    ("limit", "side", "words"),
    [
        (
            SeedsWithin(low=20 / SQUARE_FOOT),
            "low",
            labels.LIVE_BOUND_SCOPE(
                bound=labels.AT_LEAST(value="20 seeds/ft²"), scope=labels.IN_ALL
            ),
        ),
        (
            SeedsWithin(high=20 / SQUARE_FOOT, of=Grouped("legume")),
            "high",
            labels.LIVE_BOUND_SCOPE(
                bound=labels.AT_MOST(value="20 seeds/ft²"),
                scope=labels.OF_GROUP(group=labels.LEGUMES),
            ),
        ),
        (
            WeightWithin(high=60 * POUND_PER_ACRE, of=Species("oats")),
            "high",
            labels.OF_BULK_SEED_BOUND_SCOPE(
                bound=labels.AT_MOST(value="60 lb/ac"), scope=labels.OF_NAME(name="oats")
            ),
        ),
        (
            SeedShareWithin(low=0.3, of=Grouped("brassica")),
            "low",
            labels.OF_THE_SEEDS(
                bound=labels.AT_LEAST(value="30%"), scope=labels.OF_GROUP(group=labels.BRASSICAS)
            ),
        ),
        (
            WeightShareWithin(high=0.5, of=Grouped("grass")),
            "high",
            labels.OF_THE_WEIGHT(
                bound=labels.AT_MOST(value="50%"), scope=labels.OF_GROUP(group=labels.GRASSES)
            ),
        ),
        (
            RateWithin(low=1 * POUND_PER_ACRE, of=Species("radish")),
            "low",
            labels.PURE_LIVE_SEED_WHERE(
                bound=labels.AT_LEAST(value="1 lb/ac"), scope=labels.OF_NAME(name="radish")
            ),
        ),
        (
            SpeciesWithin(low=4),
            "low",
            labels.SPECIES(bound=labels.AT_LEAST(value=4), scope=labels.IN_ALL),
        ),
        (
            SpeciesWithin(high=2, of=Grouped("broadleaf")),
            "high",
            labels.SPECIES(
                bound=labels.AT_MOST(value=2), scope=labels.OF_GROUP(group=labels.BROADLEAF_SPECIES)
            ),
        ),
        (
            CostWithin(high=40 / ACRE),
            "high",
            labels.A_COST_OF(bound=labels.AT_MOST(value="$40.00/ac")),
        ),
    ],
)
def test_words(limit, side, words):
    assert str(in_words(limit, side)) == words


def test_a_side_that_is_not_there_has_no_words():
    with pytest.raises(MeasurementError, match=labels.GIVE_SIDE_LIMIT.like()) as refusal:
        in_words(SeedsWithin(low=1.0), "high")
    assert refusal.value.field == "high"


@pytest.mark.parametrize(
    ("make", "field", "need"),
    [
        (lambda: SeedsWithin(), "seeds low", labels.GIVE_LOW_SIDE),
        (lambda: SeedsWithin(low=-1.0), "seeds low", labels.GIVE_NUMBER_MORE),
        (lambda: SeedsWithin(high=inf), "seeds high", labels.GIVE_NUMBER_MORE),
        (lambda: SeedsWithin(low=3.0, high=2.0), "seeds low", labels.GIVE_LOW_SIDE_NOT),
        (lambda: WeightWithin(high=nan), "weight high", labels.GIVE_NUMBER_MORE),
        (
            lambda: SeedShareWithin(of=Species("oats"), low=1.1),
            "seed share low",
            labels.GIVE_SHARE_UP,
        ),
        (
            lambda: WeightShareWithin(of=Species("oats"), high=20.0),
            "weight share high",
            labels.GIVE_SHARE_UP,
        ),
        (lambda: RateWithin(of=Species("oats"), low=-1e-3), "rate low", labels.GIVE_NUMBER_MORE),
        (lambda: SpeciesWithin(low=4, high=3), "species low", labels.GIVE_LOW_SIDE_NOT),
        (lambda: CostWithin(high=-1.0), "cost high", labels.GIVE_NUMBER_MORE),
    ],
)
def test_refuses_and_names_the_field(make, field, need):
    with pytest.raises(MeasurementError) as refusal:
        make()
    assert refusal.value.field == field
    assert need in str(refusal.value)
