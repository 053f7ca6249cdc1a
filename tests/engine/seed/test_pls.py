"""Pure live seed and bulk against every published example, and back again."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import POUND, POUND_PER_ACRE, SQUARE_FOOT
from evenstand.engine.seed.lot import pls_fraction
from evenstand.engine.seed.pls import bulk_rate, pls_rate, price_per_pls, seeds_per_area
from evenstand.engine.seed.tag import Tag
from evenstand.engine.statistics.budget import nominal, standard_uncertainty

shares = st.floats(0.05, 1)
amounts = st.floats(1e-6, 1e3)

ASKED = {
    "pls": lambda pls, _: 100 * pls,
    "bulk": lambda pls, pounds: bulk_rate(pounds, pls=pls),
    "live": lambda pls, pounds: pls_rate(pounds, pls=pls),
    "price": lambda pls, dollars: price_per_pls(dollars, pls=pls),
}


def examples(published):
    for row in published("pls_examples.csv"):
        hard = row["hard"] / 100
        tag = Tag(purity=row["purity"] / 100, germination=row["germination"] / 100, hard=hard)
        pls = nominal(pls_fraction(tag, count_hard=True))
        yield row, ASKED[row["asked"]](pls, row["given"])


def test_published_examples_exactly(published):
    for row, found in examples(published):
        assert found == pytest.approx(row["exact"], rel=5e-7), row


def test_published_examples_as_printed(published):
    printed = [(row, found) for row, found in examples(published) if row["printed"] != ""]
    assert len(printed) == 24
    for row, found in printed:
        assert abs(found - row["printed"]) <= row["off"], row


def test_alfalfa_seeds_on_the_ground():
    """15 × 199,000 ÷ 43,560 = 68.53; printed as "about 5 per lb", 75 (University of Wisconsin)."""
    seeds = seeds_per_area(15 * POUND_PER_ACRE, seeds_per_kg=199_000 / POUND)
    assert seeds * SQUARE_FOOT == pytest.approx(15 * 199_000 / 43_560)
    assert seeds * SQUARE_FOOT == pytest.approx(75, rel=0.09)


@given(amounts, shares)
def test_bulk_and_back(rate, pls):
    assert pls_rate(bulk_rate(rate, pls=pls), pls=pls) == pytest.approx(rate)


@given(amounts, amounts, shares)
def test_exponents(rate, factor, pls):
    """Rate enters all of them as +1, live seed bulk and price as −1."""
    assert bulk_rate(rate * factor, pls=pls) == pytest.approx(factor * bulk_rate(rate, pls=pls))
    assert bulk_rate(rate, pls=pls / 2) == pytest.approx(2 * bulk_rate(rate, pls=pls))
    assert price_per_pls(rate, pls=pls / 2) == pytest.approx(2 * price_per_pls(rate, pls=pls))
    assert pls_rate(rate, pls=pls / 2) == pytest.approx(pls_rate(rate, pls=pls) / 2)
    seeds = seeds_per_area(rate * factor, seeds_per_kg=100)
    assert seeds == pytest.approx(factor * seeds_per_area(rate, seeds_per_kg=100))


def test_nothing_sown_and_seed_that_is_all_alive():
    assert bulk_rate(0.0, pls=1.0) == 0
    assert pls_rate(3.0, pls=1.0) == 3


def test_an_uncertain_tag_stays_uncertain():
    """Relative 2% of live seed is 2% of bulk."""
    bulk = bulk_rate(10.0, pls=ufloat(0.5, 0.01, "germination"))
    assert nominal(bulk) == pytest.approx(20)
    assert standard_uncertainty(bulk) == pytest.approx(0.4)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: bulk_rate(-1, pls=0.5), "rate"),
        (lambda: bulk_rate(nan, pls=0.5), "rate"),
        (lambda: bulk_rate(1, pls=0), "pls"),
        (lambda: pls_rate(1, pls=1.01), "pls"),
        (lambda: pls_rate(-1, pls=1), "rate"),
        (lambda: price_per_pls(-1, pls=1), "price"),
        (lambda: price_per_pls(1, pls=nan), "pls"),
        (lambda: seeds_per_area(-1, seeds_per_kg=1), "rate"),
        (lambda: seeds_per_area(1, seeds_per_kg=0), "seeds_per_kg"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
