"""Limits: their words, and what no mix could ever keep to is refused at once."""

from math import inf, nan

import pytest

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
        (SeedsWithin(low=20 / SQUARE_FOOT), "low", "at least 20 seeds/ft², live, in all"),
        (
            SeedsWithin(high=20 / SQUARE_FOOT, of=Grouped("legume")),
            "high",
            "at most 20 seeds/ft², live, of legumes",
        ),
        (
            WeightWithin(high=60 * POUND_PER_ACRE, of=Species("oats")),
            "high",
            "at most 60 lb/ac of bulk seed of oats",
        ),
        (
            SeedShareWithin(low=0.3, of=Grouped("brassica")),
            "low",
            "at least 30 % of the seeds of brassicas",
        ),
        (
            WeightShareWithin(high=0.5, of=Grouped("grass")),
            "high",
            "at most 50 % of the weight of grasses",
        ),
        (
            RateWithin(low=1 * POUND_PER_ACRE, of=Species("radish")),
            "low",
            "at least 1 lb/ac of pure live seed of radish, where it is sown",
        ),
        (SpeciesWithin(low=4), "low", "at least 4 species in all"),
        (
            SpeciesWithin(high=2, of=Grouped("broadleaf")),
            "high",
            "at most 2 species of broadleaf species",
        ),
        (CostWithin(high=40 / ACRE), "high", "a cost of at most $40/ac"),
    ],
)
def test_words(limit, side, words):
    assert str(in_words(limit, side)) == words


def test_a_side_that_is_not_there_has_no_words():
    with pytest.raises(MeasurementError, match="side of the limit") as refusal:
        in_words(SeedsWithin(low=1.0), "high")
    assert refusal.value.field == "high"


@pytest.mark.parametrize(
    ("make", "field", "need"),
    [
        (lambda: SeedsWithin(), "seeds low", "a low side, a high side"),
        (lambda: SeedsWithin(low=-1.0), "seeds low", "0 or more"),
        (lambda: SeedsWithin(high=inf), "seeds high", "0 or more"),
        (lambda: SeedsWithin(low=3.0, high=2.0), "seeds low", "not above the high side"),
        (lambda: WeightWithin(high=nan), "weight high", "0 or more"),
        (lambda: SeedShareWithin(of=Species("oats"), low=1.1), "seed share low", "up to 100 %"),
        (
            lambda: WeightShareWithin(of=Species("oats"), high=20.0),
            "weight share high",
            "up to 100 %",
        ),
        (lambda: RateWithin(of=Species("oats"), low=-1e-3), "rate low", "0 or more"),
        (lambda: SpeciesWithin(low=4, high=3), "species low", "not above the high side"),
        (lambda: CostWithin(high=-1.0), "cost high", "0 or more"),
    ],
)
def test_refuses_and_names_the_field(make, field, need):
    with pytest.raises(MeasurementError) as refusal:
        make()
    assert refusal.value.field == field
    assert need in str(refusal.value)
