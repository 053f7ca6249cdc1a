"""A whole mix: published mixes, sums, who owns the uncertainty, lots, carriers, and sentences."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
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
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, OUNCE, POUND, POUND_PER_ACRE, SQUARE_FOOT
from evenstand.engine.statistics.budget import Cause, nominal, standard_uncertainty

PER_FT2 = 1 / SQUARE_FOOT
KG_HA = 1e-4
US, METRIC = Style(), Style(system="metric")


def seed(name="oats", **changed):
    known = {"pls": 0.8, "seeds_per_kg": 20_000.0, "full": PlsRate(100 * KG_HA)}
    return Seed(name=name, **(known | changed))


def by_count(name, seeds_per_lb):
    return Seed(name=name, pls=1.0, seeds_per_kg=seeds_per_lb / POUND)


def test_oats_are_most_of_the_weight_and_a_quarter_of_the_seeds():
    """Minnesota Board of Water and Soil Resources, pilot pollinator mix, read.

    Oats at 37.88 lb/ac are 11.13 seeds/ft², 89.5% by weight, 25.12% by seed; the totals 42.3
    lb/ac and 44.3 seeds/ft² follow. All others together stand as one member here.
    """
    oats = by_count("oats", 11.13 * 43_560 / 37.88)
    others = by_count("others", (44.3 - 11.13) * 43_560 / (42.3 - 37.88))
    mix = design(
        [Member(oats, PlsRate(37.88 * POUND_PER_ACRE)), Member(others, Rest())],
        whole=BulkRate(42.3 * POUND_PER_ACRE),
    )
    line = mix.sown[0]
    assert line.seeds / PER_FT2 == pytest.approx(11.13)
    assert line.weight_share == pytest.approx(0.895, abs=0.0006)
    assert line.seed_share == pytest.approx(0.2512, abs=0.0003)
    assert mix.seeds / PER_FT2 == pytest.approx(44.3)
    assert labels.WEIGHT_BUT_SEEDS(name="oats", weight="89.6%", seed="25.1%") in map(str, mix.notes)


def test_prairie_short_mix_by_ounces():
    """A mesic short prairie specification, read.

    40 oz/ac of sideoats grama are 5.51 seeds/ft², 8.37%; 40 oz of little bluestem 13.77, 20.91%.
    """
    forty = PlsRate(40 * OUNCE / ACRE)
    rest = by_count("others", 500_000)
    mix = design(
        [
            Member(by_count("sideoats grama", 96_000), forty),
            Member(by_count("little bluestem", 240_000), forty),
            Member(rest, Rest()),
        ],
        whole=LiveSeeds(13.774 / 0.2091 * PER_FT2),
    )
    sideoats, bluestem, _ = mix.sown
    assert sideoats.seeds / PER_FT2 == pytest.approx(5.51, abs=0.005)
    assert bluestem.seeds / PER_FT2 == pytest.approx(13.77, abs=0.005)
    assert sideoats.seed_share == pytest.approx(0.0837, abs=0.0001)
    assert bluestem.seed_share == pytest.approx(0.2091, abs=0.0001)


def test_colorado_cover_crop_doubles_when_broadcast():
    """Division of Reclamation, Mining and Safety document 934762, page 9, read.

    Barley 20 and winter wheat 20 lb/ac of live seed drilled, double if broadcast.
    """
    members = [
        Member(by_count("barley", 13_600), PlsRate(20 * POUND_PER_ACRE)),
        Member(by_count("winter wheat", 11_300), PlsRate(20 * POUND_PER_ACRE)),
    ]
    drilled, broadcast = design(members), design(members, uplift=1.0)
    for each in broadcast.sown:
        assert each.pls_rate / POUND_PER_ACRE == pytest.approx(40)
    assert broadcast.seeds == pytest.approx(2 * drilled.seeds)
    assert labels.ALL_SEED_RATES(more="100%") in str(broadcast.notes[0])
    assert not drilled.notes


def four():
    """Four species, each known by another measure, prices in $/kg."""
    return [
        Member(seed("oats", price=0.5, group="grass", season="cool"), OfFull(0.4)),
        Member(
            seed("vetch", seeds_per_kg=40_000.0, price=3.0, group="legume", season="cool"),
            LiveSeeds(60.0),
        ),
        Member(
            seed("radish", seeds_per_kg=75_000.0, price=4.0, group="brassica", season="cool"),
            PlsRate(2 * KG_HA),
        ),
        Member(
            seed("millet", seeds_per_kg=180_000.0, price=2.0, group="grass", season="warm"),
            BulkRate(5 * KG_HA),
        ),
    ]


def test_by_hand():
    mix = design(four())
    # oats 40 kg/ha live, 50 bulk, 80 seeds/m², 25 $/ha; vetch 60 seeds = 15 kg/ha, 18.75 bulk,
    # 56.25 $/ha; radish 15 seeds, 2.5 bulk, 10 $/ha; millet 4 live, 72 seeds, 10 $/ha.
    assert [each.seeds for each in mix.sown] == pytest.approx([80, 60, 15, 72])
    assert [each.bulk_rate / KG_HA for each in mix.sown] == pytest.approx([50, 18.75, 2.5, 5])
    assert [each.cost / KG_HA for each in mix.sown] == pytest.approx([25, 56.25, 10, 10])
    assert mix.seeds == pytest.approx(227)
    assert mix.bulk_rate / KG_HA == pytest.approx(76.25)
    assert mix.cost / KG_HA == pytest.approx(101.25)
    assert mix.sown[0].seed_share == pytest.approx(80 / 227)
    assert mix.sown[0].weight_share == pytest.approx(50 / 76.25)
    assert METRIC.write(mix.say) == (
        " ".join(
            [
                labels.SOW(
                    bulk="76.2 kg/ha",
                    parts="oats 50 kg/ha, vetch 18.8 kg/ha, radish 2.5 kg/ha, millet 5 kg/ha",
                ),
                labels.THAT_IS_LIVE(seeds="227 seeds/m²", cost="$101.25/ha"),
            ]
        )
    )


def test_groups_and_seasons():
    mix = design(four())
    groups = {part.name: part for part in mix.groups}
    assert list(groups) == ["grass", "legume", "brassica"]
    assert groups["grass"].species == 2
    assert groups["grass"].rates.seeds == pytest.approx(152)
    assert groups["grass"].seed_share == pytest.approx(152 / 227)
    assert groups["grass"].weight_share == pytest.approx(55 / 76.25)
    assert [part.name for part in mix.seasons] == ["cool", "warm"]
    assert any(re.search(labels.COOL_SEASON_SEED.like(), str(note)) for note in mix.notes)


@given(st.lists(st.floats(min_value=0.01, max_value=1000), min_size=1, max_size=6))
def test_shares_add_up_to_one(seeds):
    members = [Member(seed(f"species {i}"), LiveSeeds(s)) for i, s in enumerate(seeds)]
    members.append(Member(Carrier(name="rice hulls"), BulkRate(1e-3)))
    mix = design(members)
    assert sum(each.seed_share for each in mix.sown) == pytest.approx(1)
    assert sum(each.weight_share for each in mix.sown) == pytest.approx(1)


@given(st.floats(min_value=0.1, max_value=200))
def test_a_carrier_changes_no_live_seed(hulls):
    plain = design(four())
    carried = design(
        [*four(), Member(Carrier(name="rice hulls", price=0.2), BulkRate(hulls * KG_HA))]
    )
    assert carried.seeds == plain.seeds
    assert [each.rates for each in carried.sown[:-1]] == [each.rates for each in plain.sown]
    assert [each.seed_share for each in carried.sown[:-1]] == [e.seed_share for e in plain.sown]
    assert carried.sown[-1].seed_share == 0
    assert carried.groups[0].seed_share == plain.groups[0].seed_share
    assert carried.bulk_rate - plain.bulk_rate == pytest.approx(hulls * KG_HA)
    assert carried.cost - plain.cost == pytest.approx(0.2 * hulls * KG_HA)


def test_broadcasting_leaves_the_carrier_as_it_was():
    members = [*four(), Member(Carrier(name="rice hulls"), BulkRate(10 * KG_HA))]
    mix = design(members, uplift=0.25)
    assert mix.seeds == pytest.approx(1.25 * 227)
    assert mix.sown[-1].bulk_rate / KG_HA == pytest.approx(10)


def unsure():
    """Oats and vetch from tags with 3% and 5% on germination, 4% and 10% on counts."""
    return [
        Member(
            seed(
                "oats",
                pls=ufloat(0.8, 0.024, "germination"),
                seeds_per_kg=ufloat(2e4, 800, "seeds per kg"),
                causes={"germination": Cause(7.0), "seeds per kg": Cause()},
            ),
            BulkRate(50 * KG_HA),
        ),
        Member(
            seed(
                "vetch",
                pls=ufloat(0.8, 0.04, "germination"),
                seeds_per_kg=ufloat(4e4, 4000, "seeds per kg"),
            ),
            BulkRate(18.75 * KG_HA),
        ),
    ]


def test_every_share_of_the_budget_has_its_owner():
    mix = design(unsure())
    # Oats 80 seeds/m², vetch 60: 3 % and 4 % of 80, 5 % and 10 % of 60.
    shares = {share.name: share.u for share in mix.why(mix.seeds)}
    assert shares == pytest.approx(
        {
            "vetch: seeds per kg": 6.0,
            "oats: seeds per kg": 3.2,
            "vetch: germination": 3.0,
            "oats: germination": 2.4,
        }
    )
    assert sum(share.part for share in mix.why(mix.seeds)) == pytest.approx(1)
    assert next(iter(shares)) == "vetch: seeds per kg"
    dofs = {share.name: share.dof for share in mix.why(mix.seeds)}
    assert dofs["oats: germination"] == 7.0
    oats = mix.sown[0]
    assert {share.name: share.u for share in oats.why(oats.seeds)} == pytest.approx(
        {"seeds per kg": 3.2, "germination": 2.4}
    )
    assert oats.why(oats.bulk_rate) == ()
    assert oats.range_of(oats.seeds).u == pytest.approx(4.0)
    assert re.search(labels.LIVE_SEEDS_KNOWN.like(cause="vetch: seeds per kg"), str(mix.say))


def test_the_sentence_says_how_surely_the_seeds_are_known():
    # √(2.4² + 3.2² + 3² + 6²) = 7.81 of 140 seeds; twice that (1.96) is 11 %.
    text = METRIC.write(design(unsure()).say)
    assert "Live seeds are good to about ± 11%; most of the uncertainty is vetch: seeds" in text
    surer = Member(seed(pls=ufloat(0.8, 0.004, "germination")), BulkRate(50 * KG_HA))
    assert not re.search(labels.LIVE_SEEDS_KNOWN.like(), str(design([surer]).say))


def test_an_uncertain_full_rate_is_owned_too():
    oats = seed(full=PlsRate(ufloat(100, 5, "full rate") * KG_HA))
    mix = design([Member(oats, OfFull(0.5))])
    assert [(share.name, share.u) for share in mix.why(mix.seeds)] == [
        ("oats: full rate", pytest.approx(5.0))
    ]


def test_a_rest_may_stand_first():
    members = [
        Member(seed("vetch"), Rest()),
        Member(seed(), OfFull(0.4)),
        Member(seed("rye"), OfFull(0.25)),
    ]
    assert pencil(0, members, METRIC)[0][1:] == ("100% − 40% − 25%", "35%")


def test_agrees_with_simulation():
    np = pytest.importorskip("numpy")
    # JCGM 101:2008: draws of every tag pushed through the arithmetic in its own words.
    draw, n = np.random.default_rng(3).normal, 400_000
    oats = 50 * KG_HA * draw(0.8, 0.024, n) * draw(2e4, 800, n)
    vetch = 18.75 * KG_HA * draw(0.8, 0.04, n) * draw(4e4, 4000, n)
    mix = design(unsure())
    assert standard_uncertainty(mix.seeds) == pytest.approx((oats + vetch).std(), rel=0.01)
    share = oats / (oats + vetch)
    assert standard_uncertainty(mix.sown[0].seed_share) == pytest.approx(share.std(), rel=0.01)
    assert mix.range_of(mix.seeds).low < 140 < mix.range_of(mix.seeds).high


def test_one_lot_used_twice_is_uncertain_together():
    oats = unsure()[0].of
    apart = design([Member(oats, BulkRate(25 * KG_HA)), Member(oats, BulkRate(25 * KG_HA))])
    once = design([Member(oats, BulkRate(50 * KG_HA))])
    assert standard_uncertainty(apart.seeds) == pytest.approx(standard_uncertainty(once.seeds))
    assert {share.name for share in apart.why(apart.seeds)} == {
        "oats: germination",
        "oats: seeds per kg",
    }


def test_two_lots_say_how_they_share_their_species():
    members = [
        Member(seed("oats", lot="A 12"), LiveSeeds(60.0)),
        Member(seed("oats"), LiveSeeds(20.0)),
        Member(seed("vetch"), LiveSeeds(20.0)),
    ]
    mix = design(members)
    said = "oats comes from 2 lots; share of its live seeds: 75% from A 12, 25% from lot 2"
    assert said in map(str, mix.notes)
    assert "oats (A 12)" in str(mix.say)
    assert [each.lot for each in mix.sown] == ["A 12", "", ""]


def test_without_every_price_there_is_no_cost_and_a_warning():
    mix = design([Member(seed("oats", price=1.0), OfFull(0.5)), Member(seed("vetch"), OfFull(0.5))])
    assert mix.cost is None
    assert mix.sown[0].cost is not None
    assert labels.NO_PRICE_GIVE(names="vetch") in str(mix.warnings[0])
    assert "$" not in str(mix.say)


def test_the_price_may_be_uncertain_too():
    mix = design([Member(seed(price=ufloat(2.0, 0.2, "price")), BulkRate(100 * KG_HA))])
    assert nominal(mix.cost) / KG_HA == pytest.approx(200)
    assert [(share.name, share.u / KG_HA) for share in mix.why(mix.cost)] == [
        ("oats: price", pytest.approx(20))
    ]


def test_an_exact_mix_has_no_budget():
    mix = design(four())
    assert mix.why(mix.seeds) == ()
    assert mix.range_of(mix.seeds).u == 0


@pytest.mark.parametrize("uplift", [-0.1, 3.5, float("nan")])
def test_an_uplift_that_cannot_be_is_refused(uplift):
    with pytest.raises(MeasurementError, match=labels.GIVE_HOW_MUCH.like()) as refusal:
        design(four(), uplift=uplift)
    assert refusal.value.field == "uplift"


def pencil(member_index, members, style=US, **more):
    working = design(members, **more).sown[member_index].working
    return [(style.write(x.say), x.sum(style), style.amount(x.value)) for x in working]


def test_working_of_a_share():
    # 9 lb/ac × 35 % = 3.15 as SCS Colorado prints it; × 96,000 ÷ 43,560 = 6.942; ÷ 0.75 = 4.2.
    sideoats = Seed(
        name="sideoats",
        pls=0.75,
        seeds_per_kg=96_000 / POUND,
        full=PlsRate(9 * POUND_PER_ACRE),
        price=20 / POUND,
    )
    assert pencil(0, [Member(sideoats, OfFull(0.35))]) == [
        (labels.SHARE_FULL_RATE(name="sideoats"), "9 lb/ac × 35% ÷ 100", "3.15 lb/ac"),
        (
            labels.LIVE_SEEDS(name="sideoats"),
            "3.15 lb/ac × 96,000 seeds/lb ÷ 43,560",
            "6.942 seeds/ft²",
        ),
        (labels.BULK_SEED(name="sideoats"), "3.15 lb/ac ÷ 75% × 100", "4.2 lb/ac"),
        (labels.ITS_COST(name="sideoats"), "4.2 lb/ac × $20.00/lb", "$84.00/ac"),
    ]


def test_working_of_seeds_bulk_and_broadcasting():
    oats = seed()
    assert pencil(0, [Member(oats, LiveSeeds(100.0))], METRIC) == [
        (
            labels.PURE_LIVE_SEED_NAME(name="oats"),
            "100 seeds/m² ÷ 20,000 seeds/kg × 10,000",
            "50 kg/ha",
        ),
        (labels.BULK_SEED(name="oats"), "50 kg/ha ÷ 80% × 100", "62.5 kg/ha"),
    ]
    assert pencil(0, [Member(oats, BulkRate(62.5 * KG_HA))], METRIC, uplift=1.0) == [
        (labels.MORE_SEED_BROADCAST, "62.5 kg/ha × 2", "125 kg/ha"),
        (labels.PURE_LIVE_SEED_NAME(name="oats"), "125 kg/ha × 80% ÷ 100", "100 kg/ha"),
        (labels.LIVE_SEEDS(name="oats"), "100 kg/ha × 20,000 seeds/kg × 0.0001", "200 seeds/m²"),
    ]


def test_working_of_a_rest():
    members = [
        Member(seed(), OfFull(0.4)),
        Member(seed("rye"), OfFull(0.25)),
        Member(seed("vetch", full=LiveSeeds(80.0)), Rest()),
    ]
    assert pencil(2, members, METRIC)[:3] == [
        (
            labels.WHAT_OTHERS_LEAVE(name="vetch", whole=labels.FULL_RATES(amount="100%")),
            "100% − 40% − 25%",
            "35%",
        ),
        (labels.SHARE_FULL_RATE(name="vetch"), "80 seeds/m² × 35% ÷ 100", "28 seeds/m²"),
        (
            labels.PURE_LIVE_SEED_NAME(name="vetch"),
            "28 seeds/m² ÷ 20,000 seeds/kg × 10,000",
            "14 kg/ha",
        ),
    ]
    hulls = Member(Carrier(name="rice hulls", price=0.2), Rest())
    assert pencil(1, [members[0], hulls], METRIC, whole=BulkRate(60 * KG_HA)) == [
        (
            labels.WHAT_OTHERS_LEAVE(name="rice hulls", whole=labels.OF_BULK(amount="60 kg/ha")),
            "60 kg/ha − 50 kg/ha",
            "10 kg/ha",
        ),
        (labels.ITS_COST(name="rice hulls"), "10 kg/ha × $0.20/kg", "$2.00/ha"),
    ]
