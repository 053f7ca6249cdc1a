"""Carbon to nitrogen of a mix: by hand, by simulation, and never the mean of ratios."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.mix.carbon import (
    IDEAL,
    RATIOS,
    SOURCE,
    Residue,
    biomass_by_full_rate,
    combine,
    meaning,
)
from evenstand.engine.mix.member import BulkRate, Carrier, LiveSeeds, Member, OfFull, PlsRate, Seed
from evenstand.engine.mix.mix import design
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.statistics.budget import standard_uncertainty

RYE, VETCH = RATIOS["rye cover crop, anthesis"], RATIOS["hairy vetch cover crop"]


def residue(name="rye", ratio=RYE, biomass=3.0, **more):
    return Residue(name=name, ratio=ratio, biomass=biomass, **more)


def test_by_hand():
    # 3 t of rye at 40 % carbon: 1.2 C, 0.0324324 N; 2 t of vetch at 44 %: 0.88 C, 0.08 N.
    # 2.08 ÷ 0.1124324 = 18.500; the mean of the ratios would be 24, weighted by biomass 26.6.
    mix = combine([residue(carbon=0.40), residue("vetch", VETCH, 2.0, carbon=0.44)])
    assert mix.ratio == pytest.approx(18.500, abs=0.0005)
    assert re.search(labels.C_N_BELOW.like(), str(mix.say))
    lines = [(str(x.say), x.sum(Style()), Style().amount(x.value)) for x in mix.working]
    assert (labels.NITROGEN(name="vetch"), "0.88 ÷ 11", "0.08") in lines
    assert lines[-1] == (labels.ALL_CARBON_ALL, "2.08 ÷ 0.1124", "18.5")
    assert mix.working[-1].source == SOURCE


def test_published_ratios(published):
    rows = published("carbon_nitrogen.csv")
    assert {row["material"]: row["ratio"] for row in rows if row["material"] != "ideal"} == RATIOS
    assert {row["ratio"] for row in rows if row["material"] == "ideal"} == {IDEAL}


several = st.lists(
    st.tuples(st.floats(5, 90), st.floats(0.1, 10), st.floats(0.3, 0.5)), min_size=1, max_size=5
)


@given(several)
def test_between_its_members_and_at_most_their_mean(rows):
    residues = [residue(str(i), *row[:2], carbon=row[2]) for i, row in enumerate(rows)]
    ratios, carbons = [row[0] for row in rows], [row[1] * row[2] for row in rows]
    mix = combine(residues).ratio
    assert min(ratios) - 1e-9 <= mix <= max(ratios) + 1e-9
    mean = sum(r * c for r, c in zip(ratios, carbons, strict=True)) / sum(carbons)
    assert mix <= mean + 1e-9


@given(several, st.floats(0.001, 1000))
def test_the_unit_of_the_biomass_does_not_matter(rows, unit):
    small = combine([residue(str(i), r, b, carbon=c) for i, (r, b, c) in enumerate(rows)])
    large = combine([residue(str(i), r, b * unit, carbon=c) for i, (r, b, c) in enumerate(rows)])
    assert large.ratio == pytest.approx(small.ratio)


def test_agrees_with_simulation():
    np = pytest.importorskip("numpy")
    # JCGM 101:2008: draws through the arithmetic in its own words.
    draw, n = np.random.default_rng(5).normal, 400_000
    carbon_rye, carbon_vetch = 0.42 * draw(3.0, 0.15, n), 0.42 * 2.0
    simulated = (carbon_rye + carbon_vetch) / (carbon_rye / draw(37, 2, n) + carbon_vetch / 11)
    mix = combine(
        [
            residue(ratio=ufloat(37, 2, "C:N of rye"), biomass=ufloat(3.0, 0.15, "biomass")),
            residue("vetch", VETCH, 2.0),
        ]
    )
    assert standard_uncertainty(mix.ratio) == pytest.approx(simulated.std(), rel=0.02)
    assert {share.name for share in mix.shares} == {"C:N of rye", "biomass"}
    assert mix.range.low < mix.range.value < mix.range.high


def test_what_a_ratio_means():
    assert re.search(labels.C_N_ABOVE.like(), str(meaning(80.0)))
    assert labels.C_N_BELOW(ratio=18, ideal=24) in str(meaning(18.4))
    assert re.search(labels.C_N_BELOW.like(), str(meaning(24.0)))


def seed(name, rate, **more):
    return Seed(name=name, pls=0.9, seeds_per_kg=2e4, full=PlsRate(rate), **more)


def test_biomass_is_guessed_from_full_rates_never_from_seeds():
    mix = design(
        [
            Member(seed("rye", 1e-2), OfFull(0.5)),
            Member(seed("rye", 1e-2), OfFull(0.1)),
            Member(seed("vetch", 2e-3), OfFull(0.3)),
            Member(Carrier(name="rice hulls"), BulkRate(1e-3)),
        ]
    )
    parts, assumed = biomass_by_full_rate(mix)
    assert parts == pytest.approx({"rye": 0.6, "vetch": 0.3})
    assert labels.BIOMASS_TAKEN_PROPORTION in str(assumed)


def test_without_a_full_rate_it_is_asked_for():
    rye = Seed(name="rye", pls=0.9, seeds_per_kg=2e4)
    with pytest.raises(
        MeasurementError, match=labels.GIVE_BIOMASS_WILL.like(name="rye")
    ) as refusal:
        biomass_by_full_rate(design([Member(rye, LiveSeeds(100.0))]))
    assert refusal.value.field == "biomass"


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: residue(ratio=0.0), "C:N"),
        (lambda: residue(biomass=-1.0), "biomass"),
        (lambda: residue(carbon=1.0), "carbon"),
        (lambda: combine([]), "residues"),
    ],
)
def test_refuses_and_names_the_field(make, field):
    with pytest.raises(MeasurementError) as refusal:
        make()
    assert refusal.value.field == field
