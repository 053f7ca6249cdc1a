"""Rates on every basis: published pairs, there and back, the rest, and refusals."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.mix.bases import every_rate, in_words, of_full, rates
from evenstand.engine.mix.member import (
    BulkRate,
    Carrier,
    LiveSeeds,
    Member,
    OfFull,
    PlsRate,
    Published,
    Rest,
    Seed,
    size,
    times,
)
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import GRAM, POUND, POUND_PER_ACRE, SQUARE_FOOT
from evenstand.engine.statistics.budget import budget, nominal, standard_uncertainty

PER_FT2 = 1 / SQUARE_FOOT
KG_HA = 1e-4


def seed(name="oats", **changed):
    """80% live, 20,000 seeds/kg, 100 kg/ha of live seed alone."""
    known = {"pls": 0.8, "seeds_per_kg": 20_000.0, "full": PlsRate(100 * KG_HA)}
    return Seed(name=name, **(known | changed))


def by_count(seeds_per_lb):
    return Seed(name="seed", pls=1.0, seeds_per_kg=seeds_per_lb / POUND)


def test_worked_by_hand():
    # 50 kg/ha of live seed × 20,000/kg = 100/m²; ÷ 0.8 = 62.5 kg/ha of bulk.
    for given_by in (
        OfFull(0.5),
        LiveSeeds(100.0),
        PlsRate(50 * KG_HA),
        BulkRate(62.5 * KG_HA),
    ):
        (found,) = every_rate([Member(seed(), given_by)])
        assert found.seeds == pytest.approx(100)
        assert found.pls / KG_HA == pytest.approx(50)
        assert found.bulk / KG_HA == pytest.approx(62.5)
        assert of_full(seed(), found) == pytest.approx(0.5)


@pytest.mark.parametrize(
    "full", [LiveSeeds(200.0), PlsRate(100 * KG_HA), BulkRate(125 * KG_HA)], ids=lambda r: str(r)
)
def test_a_full_rate_may_stand_on_any_basis(full):
    oats = seed(full=full)
    (found,) = every_rate([Member(oats, OfFull(0.5))])
    assert found.pls / KG_HA == pytest.approx(50)
    assert of_full(oats, found) == pytest.approx(0.5)


def test_published_weights_and_counts(published):
    for row in published("mix_weight_to_seeds.csv"):
        found = rates(by_count(row["seeds_per_lb"]), PlsRate(row["pls"] * POUND_PER_ACRE))
        assert found.seeds / PER_FT2 == pytest.approx(row["seeds"], abs=0.0051), row["species"]


def test_published_shares_of_full_rates(published):
    rows = published("mix_full_rates.csv")
    members = [
        Member(
            seed(row["species"], full=PlsRate(row["full"] * POUND_PER_ACRE)),
            OfFull(row["share"] / 100),
        )
        for row in rows
    ]
    found = every_rate(members)
    for row, sown in zip(rows, found, strict=True):
        assert sown.pls / POUND_PER_ACRE == pytest.approx(row["pls"]), row["species"]
    assert sum(sown.pls for sown in found) / POUND_PER_ACRE == pytest.approx(8.825)


def test_published_wheat_rates(published):
    for row in published("wheat_rates.csv"):
        found = rates(by_count(row["seeds_per_lb"]), LiveSeeds(row["seeds"] * PER_FT2))
        rate = found.pls / POUND_PER_ACRE
        assert rate == pytest.approx(row["rate"], abs=row["within"]), row
        # By hand: seeds/ft² × 43,560 ft² ÷ seeds/lb.
        assert rate == pytest.approx(row["seeds"] * 43_560 / row["seeds_per_lb"])


def test_published_plants_and_rates(published):
    for row in published("plants_and_rates.csv"):
        grown = Seed(name="seed", pls=1.0, seeds_per_kg=1000 / (row["seed_weight"] * GRAM))
        if row["answer"] == "rate":
            sown = rates(grown, LiveSeeds(row["plants"] / row["survive"] * PER_FT2))
            answer = sown.pls / POUND_PER_ACRE
        else:
            sown = rates(grown, PlsRate(row["rate"] * POUND_PER_ACRE))
            answer = sown.seeds / PER_FT2 * row["survive"]
        assert answer == pytest.approx(row["exact"], rel=2e-4), row["source"]
        assert answer == pytest.approx(row["printed"], abs=row["within"]), row["source"]


positive = st.floats(min_value=1e-3, max_value=1e3)


@given(
    basis=st.sampled_from([LiveSeeds, PlsRate, BulkRate]),
    value=positive,
    pls=st.floats(min_value=0.01, max_value=1),
    count=st.floats(min_value=1e2, max_value=1e7),
    unsure=st.booleans(),
)
def test_through_every_basis_and_back_changes_nothing(*, basis, value, pls, count, unsure):
    oats = seed(
        pls=ufloat(pls, 0.05 * pls, "germination") if unsure else pls,
        seeds_per_kg=ufloat(count, 0.1 * count, "count") if unsure else count,
    )
    start = rates(oats, basis(value))
    for other in (
        LiveSeeds(start.seeds),
        PlsRate(start.pls),
        BulkRate(start.bulk),
        OfFull(of_full(oats, start)),
    ):
        (found,) = every_rate([Member(oats, other)])
        for name in ("seeds", "pls", "bulk"):
            before, after = getattr(start, name), getattr(found, name)
            assert nominal(after) == pytest.approx(nominal(before), rel=1e-12)
            # Correlated with itself: the difference is known to be nothing.
            assert standard_uncertainty(after - before) <= 1e-12 * nominal(before)


def test_only_what_is_not_given_gets_the_tag_s_uncertainty():
    tag = {"pls": ufloat(0.8, 0.04, "germination"), "seeds_per_kg": ufloat(2e4, 1e3, "count")}
    by_seeds = rates(seed(**tag), LiveSeeds(100.0))
    assert by_seeds.seeds == 100.0
    assert [share.name for share in budget(by_seeds.pls, {})] == ["count"]
    assert {share.name for share in budget(by_seeds.bulk, {})} == {"germination", "count"}
    # 5 % of each, of 62.5 kg/ha: √2 × 3.125.
    assert standard_uncertainty(by_seeds.bulk) / KG_HA == pytest.approx(3.125 * 2**0.5)
    by_bulk = rates(seed(**tag), BulkRate(62.5 * KG_HA))
    assert by_bulk.bulk == 62.5 * KG_HA
    assert standard_uncertainty(by_bulk.seeds) == pytest.approx(5 * 2**0.5)


VETCH = {"pls": 0.9, "seeds_per_kg": 40_000.0, "full": PlsRate(20 * KG_HA)}
HULLS = Carrier(name="rice hulls")


@pytest.mark.parametrize(
    ("whole", "other", "measure", "left"),
    [
        # Shares: 1 − 0.6.
        (OfFull(1.0), OfFull(0.6), lambda r: r.pls / (20 * KG_HA), 0.4),
        # A member given by weight is counted in shares too: 1.2 − 50 ÷ 100.
        (OfFull(1.2), PlsRate(50 * KG_HA), lambda r: r.pls / (20 * KG_HA), 0.7),
        (LiveSeeds(300.0), LiveSeeds(100.0), lambda r: r.seeds, 200.0),
        # 50 kg/ha of live oats is 100 seeds/m².
        (LiveSeeds(300.0), PlsRate(50 * KG_HA), lambda r: r.seeds, 200.0),
        (PlsRate(60 * KG_HA), OfFull(0.5), lambda r: r.pls / KG_HA, 10.0),
        (BulkRate(80 * KG_HA), OfFull(0.5), lambda r: r.bulk / KG_HA, 17.5),
    ],
)
def test_the_rest_fills_up_the_whole(*, whole, other, measure, left):
    members = [Member(seed("vetch", **VETCH), Rest()), Member(seed(), other)]
    assert measure(every_rate(members, whole=whole)[0]) == pytest.approx(left)


def test_a_rest_has_all_its_rates():
    # 40 % of 20 kg/ha of live vetch: 8, ÷ 0.9 = 8.889 of bulk, × 40,000 = 32 seeds/m².
    rest = every_rate([Member(seed(), OfFull(0.6)), Member(seed("vetch", **VETCH), Rest())])[1]
    assert rest.pls / KG_HA == pytest.approx(8)
    assert rest.bulk / KG_HA == pytest.approx(8 / 0.9)
    assert rest.seeds == pytest.approx(32)


def test_a_carrier_takes_of_bulk_alone():
    members = [
        Member(seed(), BulkRate(50 * KG_HA)),
        Member(HULLS, BulkRate(10 * KG_HA)),
        Member(seed("vetch", **VETCH), Rest()),
    ]
    vetch = every_rate(members, whole=BulkRate(80 * KG_HA))[2]
    assert vetch.bulk / KG_HA == pytest.approx(20)
    vetch = every_rate(members, whole=PlsRate(50 * KG_HA))[2]
    assert vetch.pls / KG_HA == pytest.approx(10)
    vetch = every_rate(members, whole=OfFull(1.0))[2]
    assert vetch.pls / KG_HA == pytest.approx((1 - 0.4) * 20)


def test_a_carrier_may_fill_up_bulk():
    members = [Member(seed(), BulkRate(50 * KG_HA)), Member(HULLS, Rest())]
    oats, hulls = every_rate(members, whole=BulkRate(60 * KG_HA))
    assert hulls.bulk / KG_HA == pytest.approx(10)
    assert (hulls.seeds, hulls.pls) == (0, 0)
    assert oats == every_rate(members[:1])[0]


@given(st.floats(min_value=0.01, max_value=0.98))
def test_shares_of_full_rates_add_up_to_the_whole(share):
    oats, vetch = seed(), seed("vetch", **VETCH)
    found = every_rate([Member(oats, OfFull(share)), Member(vetch, Rest())])
    whole = of_full(oats, found[0]) + of_full(vetch, found[1])
    assert whole == pytest.approx(1)


def refused(members, **more):
    with pytest.raises(MeasurementError) as refusal:
        every_rate(members, **more)
    return refusal.value


@pytest.mark.parametrize(
    ("members", "more", "field", "need"),
    [
        ([], {}, "mix", labels.GIVE_LEAST_ONE_SPECIES),
        ([Member(HULLS, BulkRate(1e-3))], {}, "mix", labels.GIVE_LEAST_ONE_SPECIES),
        (
            [Member(seed(full=None), OfFull(0.5))],
            {},
            "mix 1 share",
            labels.HAS_NO_FULL(name="oats"),
        ),
        ([Member(seed(), OfFull(0))], {}, "mix 1 share", "or leave it out"),
        ([Member(seed(), LiveSeeds(-1.0))], {}, "mix 1 seeds", "or leave it out"),
        ([Member(seed(), PlsRate(nan))], {}, "mix 1 pls", "or leave it out"),
        ([Member(seed(), BulkRate(-1e-3))], {}, "mix 1 bulk", "or leave it out"),
        (
            [Member(seed(), Rest()), Member(seed("vetch", **VETCH), Rest())],
            {},
            "mix 2 rest",
            labels.ONLY_ONE_MEMBER,
        ),
        (
            [Member(seed(), OfFull(1.1)), Member(seed("vetch", **VETCH), Rest())],
            {},
            "mix 2 rest",
            labels.OTHER_MEMBERS_LEAVE(whole=labels.FULL_RATES(amount="100%"), name="vetch"),
        ),
        (
            [Member(seed(), OfFull(1.0)), Member(seed("vetch", **VETCH), Rest())],
            {},
            "mix 2 rest",
            "leave nothing",
        ),
        (
            [Member(seed(), BulkRate(1e-3)), Member(seed("vetch", **VETCH), Rest())],
            {"whole": BulkRate(-1.0)},
            "whole",
            labels.GIVE_WHOLE_ABOVE,
        ),
        (
            [Member(seed(), OfFull(0.5))],
            {"whole": LiveSeeds(100.0)},
            "whole",
            labels.MARK_ONE_MEMBER,
        ),
        (
            [Member(seed(full=None), LiveSeeds(10.0)), Member(seed("vetch", **VETCH), Rest())],
            {},
            "full rate",
            labels.HAS_NO_FULL(name="oats"),
        ),
        (
            [
                Member(seed(), OfFull(0.5)),
                Member(seed("vetch", **(VETCH | {"full": None})), Rest()),
            ],
            {},
            "mix 2 rest",
            labels.HAS_NO_FULL(name="vetch"),
        ),
        ([Member(seed(), OfFull(0.5)), Member(HULLS, LiveSeeds(1.0))], {}, "mix 2 seeds", "bulk"),
        ([Member(seed(), OfFull(0.5)), Member(HULLS, Rest())], {}, "mix 2 rest", "no live seed"),
    ],
)
def test_refuses_and_names_the_field(*, members, more, field, need):
    refusal = refused(members, **more)
    assert refusal.field == field
    assert need in str(refusal)


@pytest.mark.parametrize(
    ("make", "field", "need"),
    [
        (lambda: seed(name=""), "species", labels.GIVE_NAME_SPECIES),
        (lambda: seed(pls=0.0), "pls", labels.GIVE_LIVE_SEED(name="oats")),
        (lambda: seed(pls=1.2), "pls", "to 100%"),
        (lambda: seed(pls=nan), "pls", "above 0%"),
        (lambda: seed(seeds_per_kg=0.0), "seeds_per_kg", labels.GIVE_VALUE_ABOVE),
        (lambda: seed(price=-1.0), "price", labels.GIVE_PRICE_MORE),
        (lambda: seed(full=PlsRate(0.0)), "full rate", labels.GIVE_VALUE_ABOVE),
        (lambda: Carrier(name=""), "carrier", labels.GIVE_NAME_CARRIER),
        (lambda: Carrier(name="hulls", price=nan), "price", labels.GIVE_PRICE_MORE),
        (lambda: Published(low=2.0, high=1.0), "published", labels.GIVE_LOWER_RATE),
    ],
)
def test_seed_that_cannot_be_is_refused(make, field, need):
    with pytest.raises(MeasurementError) as refusal:
        make()
    assert refusal.value.field == field
    assert need in str(refusal.value)


def test_a_rate_keeps_its_kind_when_it_grows():
    for rate in (LiveSeeds(2.0), PlsRate(2.0), BulkRate(2.0)):
        assert times(rate, 3) == type(rate)(6.0)
        assert size(rate) == 2.0


def test_wholes_in_words():
    style = Style()
    assert style.write(in_words(OfFull(1.2))) == labels.FULL_RATES(amount="120%")
    assert style.write(in_words(LiveSeeds(40 * PER_FT2))) == labels.LIVE(amount="40 seeds/ft²")
    assert style.write(in_words(PlsRate(12 * POUND_PER_ACRE))) == labels.OF_PURE_LIVE_SEED_AMOUNT(
        amount="12 lb/ac"
    )
    assert style.write(in_words(BulkRate(60 * POUND_PER_ACRE))) == labels.OF_BULK(amount="60 lb/ac")
