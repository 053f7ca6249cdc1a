"""A mix from a file is the engine's mix; what is written and read again says the same."""

import re
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.mix.member import BulkRate, LiveSeeds, Member, OfFull, PlsRate, Seed
from evenstand.engine.mix.mix import design
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import PERCENT, POUND, POUND_PER_ACRE, SQUARE_FOOT
from evenstand.engine.seed.count import printed
from evenstand.engine.seed.lot import pls_fraction
from evenstand.engine.seed.tag import Month, Tag
from evenstand.engine.statistics.budget import nominal, standard_uncertainty
from evenstand.tasks.job.writer import dump
from evenstand.tasks.mix.mix import read_mix
from evenstand.tasks.mix.said import mix_in
from evenstand.tasks.parsing.writing import RefusalsError

TODAY = Month(2026, 11)
BASES = {
    "share": ("{}%", lambda n: OfFull(n * PERCENT)),
    "seeds": ("{} seeds/ft2", lambda n: LiveSeeds(n / SQUARE_FOOT)),
    "pls": ("{} lb/ac", lambda n: PlsRate(n * POUND_PER_ACRE)),
    "bulk": ("{} lb/ac", lambda n: BulkRate(n * POUND_PER_ACRE)),
}
MEMBER = st.fixed_dictionaries(
    {
        "purity": st.integers(50, 100),
        "germination": st.integers(30, 90),
        "hard": st.integers(0, 10),
        "count_hard": st.booleans(),
        "per_lb": st.integers(800, 2_000_000),
        "price": st.integers(1, 90) | st.none(),
        "basis": st.sampled_from(sorted(BASES)),
        "amount": st.integers(1, 60),
    }
)


def as_written(number, each):
    text, _ = BASES[each["basis"]]
    table = {
        "species": f"plant {number}",
        "own_name": True,
        "purity": f"{each['purity']}%",
        "germination": f"{each['germination']}%",
        "hard": f"{each['hard']}%",
        "count_hard": each["count_hard"],
        "seeds_per_lb": each["per_lb"],
        "full_rate": "20 lb/ac",
        "full_basis": "pls",
        each["basis"]: text.format(each["amount"]),
    }
    return table | ({"price": f"{each['price']} $/lb"} if each["price"] else {})


def by_hand(number, each):
    tag = Tag(
        purity=each["purity"] * PERCENT,
        germination=each["germination"] * PERCENT,
        hard=each["hard"] * PERCENT,
    )
    _, rate = BASES[each["basis"]]
    seed = Seed(
        name=f"plant {number}",
        pls=pls_fraction(tag, count_hard=each["count_hard"]),
        seeds_per_kg=printed(each["per_lb"] / POUND).seeds_per_kg,
        price=each["price"] and each["price"] / POUND,
        full=PlsRate(20 * POUND_PER_ACRE),
    )
    return Member(seed, rate(each["amount"]))


@given(st.lists(MEMBER, min_size=1, max_size=6), st.booleans())
def test_the_mix_of_a_file_is_the_engine_s(members, through_text):
    file = {"mix": [as_written(i, each) for i, each in enumerate(members)]}
    if through_text:
        file = tomllib.loads(dump(file))
    found = read_mix(mix_in(file), today=TODAY).mix
    wanted = design([by_hand(i, each) for i, each in enumerate(members)])
    for mine, own in zip(found.sown, wanted.sown, strict=True):
        for quantity in ("seeds", "pls_rate", "bulk_rate", "seed_share", "weight_share", "cost"):
            pair = getattr(mine, quantity), getattr(own, quantity)
            assert (pair[0] is None) == (pair[1] is None)
            if pair[0] is not None:
                assert nominal(pair[0]) == pytest.approx(nominal(pair[1]), rel=1e-12)
                nearly = 1e-12 * abs(nominal(pair[1]))
                assert standard_uncertainty(pair[0]) == pytest.approx(
                    standard_uncertainty(pair[1]), rel=1e-9, abs=nearly
                )
    assert str(found.say) == str(wanted.say)


def lot(name, **more):
    known = {"species": "oats", "purity": "98%", "germination": "90%", "seeds_per_lb": 13_000}
    return ({"name": name} if name else {}) | known | more


def mixed(*members, lots=(), **tables):
    return read_mix(mix_in({"lots": list(lots), "mix": list(members)} | tables), today=TODAY)


def test_one_lot_in_two_lines_is_one_tag():
    """What two lines draw from one bag is as uncertain as one line of both."""
    two = mixed({"lot": "A", "pls": "10 lb/ac"}, {"lot": "A", "pls": "20 lb/ac"}, lots=[lot("A")])
    one = mixed({"lot": "A", "pls": "30 lb/ac"}, lots=[lot("A")])
    assert standard_uncertainty(two.mix.seeds) == pytest.approx(standard_uncertainty(one.mix.seeds))


def test_a_price_per_bag_is_one_by_weight():
    """The bag that is cheapest by weight: $480 for 2,000 lb before $14 for 50 lb."""
    lots = [lot("A", bags=[["50 lb", "$14"], ["2,000 lb", "$480"]])]
    found = mixed({"lot": "A", "bulk": "10 lb/ac"}, lots=lots)
    assert nominal(found.mix.cost) == pytest.approx(2.4 / 4046.8564224)
    assert [bag.price for bag in found.members[0].lot.bags] == [14, 480]
    by_weight = mixed(
        {"lot": "A", "bulk": "10 lb/ac"}, lots=[lot("A", price="0.5 $/lb", bags=["50 lb"])]
    )
    assert by_weight.members[0].lot.bags[0].price == pytest.approx(25)


def test_a_bushel_takes_the_lot_s_own_test_weight():
    lots = [lot("A", test_weight="32 lb/bu")]
    found = mixed({"lot": "A", "bulk": "2 bu/ac"}, lots=lots)
    assert nominal(found.mix.bulk_rate) == pytest.approx(64 * POUND_PER_ACRE)


def test_full_rates_on_every_basis():
    for written, pls in (
        ({"full_rate": "50 lb/ac", "full_basis": "bulk"}, 50 * 0.882),
        ({"full_rate": "50 lb/ac", "full_basis": "pls"}, 50),
        ({"full_seeds": "20 seeds/ft2"}, 20 * 43_560 / 13_000),
    ):
        found = mixed({"lot": "A", "share": "100%"} | written, lots=[lot("A")])
        assert nominal(found.mix.rates.pls) == pytest.approx(pls * POUND_PER_ACRE)


def test_full_rate_without_its_basis_is_said():
    found = mixed({"lot": "A", "share": "50%", "full_rate": "64 lb/ac"}, lots=[lot("A")])
    assert any(labels.FULL_RATES_PURE in str(each) for each in found.assumed)


def test_the_user_s_own_depth_group_season_and_range():
    found = mixed(
        {
            "lot": "A",
            "pls": "9 lb/ac",
            "depth": ["1/4 in", "3/4 in"],
            "group": "legume",
            "season": "warm",
            "in_mix": ["1 lb/ac", "5 lb/ac"],
        },
        lots=[lot("A")],
    )
    seed = found.members[0].seed
    assert (seed.group, seed.season) == ("legume", "warm")
    assert (seed.depth.low, seed.depth.high) == (pytest.approx(0.00635), pytest.approx(0.01905))
    assert [each.place for each in seed.published] == ["alone", "in mix"]


def test_an_unimportant_seed_does_not_decide_the_depth():
    clover = {"species": "crimson clover", "purity": "98%", "germination": "90%"}
    deep = [{"lot": "A", "pls": "9 lb/ac", "depth": "1 in"}, clover | {"pls": "3 lb/ac"}]
    assert mixed(*deep, lots=[lot("A")]).depth.depth == pytest.approx(0.0127)
    deep[1] |= {"important": False}
    assert mixed(*deep, lots=[lot("A")]).depth.depth == pytest.approx(0.0254)
    alone = {"species": "x", "own_name": True, "purity": "9%", "germination": "9%"}
    assert mixed(alone | {"seeds_per_lb": 9000, "pls": "3 lb/ac"}).depth is None


@pytest.mark.parametrize(
    ("member", "field"),
    [
        ({"lot": "A", "pls": "9 lb/ac", "depth": ["1 in", "2 in", "3 in"]}, "[[mix]] 1 depth"),
        ({"lot": "A", "pls": "9 lb/ac", "depth": ["2 in", "1 in"]}, "[[mix]] 1 depth"),
        ({"lot": "B", "pls": "9 lb/ac"}, "[[mix]] 1 lot"),
        ({"lot": "A", "share": "9%", "full_rate": "9 lb/ac", "full_seeds": "9/ft2"},
         "[[mix]] 1 full_seeds"),
        ({"lot": "A", "rest": False}, "[[mix]] 1 share"),
        ({"lot": "A", "pls": "9 lb/ac", "cn": 24}, None),
    ],
)  # fmt: skip
def test_refusals_name_the_member(member, field):
    if field is None:
        assert mixed(member, lots=[lot("A")]).carbon is not None
        return
    with pytest.raises(MeasurementError) as refusal:
        mixed(member, lots=[lot("A")])
    assert refusal.value.field == field


def test_biomass_that_nobody_gave_is_guessed_from_full_rates_and_said():
    own = {"species": "x", "own_name": True, "purity": "9%", "germination": "9%", "cn": 30}
    with pytest.raises(MeasurementError) as refusal:
        mixed(own | {"seeds_per_lb": 9000, "pls": "3 lb/ac"})
    assert refusal.value.field == "[[mix]] 1 biomass"
    found = mixed({"lot": "A", "pls": "9 lb/ac", "cn": 24}, lots=[lot("A")])
    assert any(labels.BIOMASS_TAKEN_PROPORTION in str(each) for each in found.assumed)


def test_lots_need_names_to_be_named():
    with pytest.raises(MeasurementError) as refusal:
        mixed(
            {"lot": "A", "pls": "9 lb/ac"},
            lots=[{k: v for k, v in lot("A").items() if k != "name"}],
        )
    assert labels.NO_LOT_HAS in str(refusal.value.need)


def test_printed_rates_that_say_no_basis_are_of_bulk():
    """15 to 20 lb/ac is printed for vetch alone: 21 lb/ac of bulk is above, its 17 live is not."""
    vetch = {"species": "hairy vetch", "purity": "98%", "germination": "82%"}
    found = mixed(vetch | {"bulk": "21 lb/ac"})
    assert any(
        re.search(
            labels.AT_OF_IS.like(
                name="Hairy vetch", rate="21 lb/ac", basis=labels.BULK, place=labels.ABOVE
            ),
            str(w.say),
        )
        for w in found.warnings
    )


def test_chaff_as_the_table_or_the_user_says():
    grass = {"species": "big bluestem", "purity": "90%", "germination": "80%", "pls": "6 lb/ac"}
    assert mixed(grass).members[0].lot.fluffy is True
    assert mixed(grass | {"fluffy": False}).members[0].lot.fluffy is False
    assert mixed({"lot": "A", "pls": "9 lb/ac"}, lots=[lot("A", fluffy=True)]).members[0].lot.fluffy


TWO_LOTS = [{"lot": "A", "pls": "20 lb/ac", "cn": 37}, {"lot": "B", "pls": "12 lb/ac", "cn": 37}]


def test_two_lots_are_one_species_to_cautions_and_to_c_n():
    """Oats at 37 and twice as much vetch at 11, by full rates: 3 ÷ (1/37 + 2/11)."""
    vetch = {"species": "hairy vetch", "purity": "98%", "germination": "82%", "cn": 11}
    vetch |= {"full_rate": "16 lb/ac", "pls": "16 lb/ac"}
    oats = [each | {"full_rate": "64 lb/ac"} for each in TWO_LOTS]
    found = mixed(*oats, vetch, lots=[lot("A"), lot("B")])
    assert nominal(found.carbon.ratio) == pytest.approx(3 / (1 / 37 + 2 / 11))
    nitrate = next(each for each in found.cautions if "Oats" in each.species)
    assert nitrate.species == ("Oats",)


def test_all_that_cannot_be_read_of_a_lot_is_told_at_once():
    lot = {"species": "oats", "purity": "98", "germination": "90%"}
    lot |= {"tested": "soon", "price": "-1 $/lb"}
    with pytest.raises(RefusalsError) as refused:
        mix_in({"lots": [lot], "mix": []})
    assert [each.field for each in refused.value.each] == [
        "[[lots]] 1 purity",
        "[[lots]] 1 tested",
        "[[lots]] 1 price",
    ]
