"""The table of species: whole, sourced, in the right units, and honest about its spread."""

import re
from collections import Counter
from pathlib import Path

import pytest

import evenstand.engine
import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import GRAM, INCH, POUND, POUND_PER_ACRE
from evenstand.engine.seed.count import COUNT_YOUR_LOT, from_species
from evenstand.engine.seed.species import DEFER, STANDARD, load
from evenstand.engine.statistics.budget import nominal, standard_uncertainty

DATA = Path(evenstand.engine.__file__).parent / "data"
TEXTS = {
    name: (DATA / f"{file}.tsv").read_text(encoding="utf-8")
    for name, file in (("species", "species"), ("counts", "seed_counts"), ("cautions", "cautions"))
}
TABLE = load(**TEXTS)
EACH = pytest.mark.parametrize("species", TABLE.species, ids=lambda species: species.name)

# Counts that published sources put 1.5 times apart or more, as compared by hand beforehand.
FAR_APART = {
    *("Winter wheat", "Oats", "Triticale", "Grain sorghum", "Browntop millet"),
    *("Radish (forage/oilseed)", "Field / winter pea", "Lentil", "Soybean (cover/forage)"),
    *("Orchardgrass", "Kentucky bluegrass", "Sideoats grama", "Sand dropseed"),
    "Prairie dropseed",
}


def relative(counted):
    return standard_uncertainty(counted.seeds_per_kg) / nominal(counted.seeds_per_kg)


def test_the_table_is_whole():
    assert len(TABLE) == 142
    groups = Counter(species.group for species in TABLE)
    assert groups == {"grass": 72, "legume": 49, "broadleaf": 12, "brassica": 9}
    assert len({species.name for species in TABLE}) == 142
    assert sum(len(species.counts) for species in TABLE) == 316


@EACH
def test_every_number_has_a_source(species):
    sourced = [*species.counts, species.test_weight, species.rate, species.depth, *species.cautions]
    for known in filter(None, sourced):
        assert known.source or not known.read
    for known in filter(None, (species.test_weight, species.rate, species.depth)):
        assert 0 <= known.low <= known.high
        assert known.source
        assert (
            known.read
            or "common practice" in known.source
            or "SARE" in known.source
            or ";" in known.source
        )


@EACH
def test_every_number_is_of_a_seed(species):
    """From a bean of 2.5 g to dropseed of 0.08 mg; 8 to 70 lb/bu; 4 in deep at most."""
    for count in species.counts:
        assert 400 <= count.seeds_per_kg <= 1.3e7
    if species.test_weight:
        assert 8 < species.test_weight.low / 12.871859781 < 70
    if species.depth:
        assert species.depth.high <= 4 * INCH
    if species.rate:
        assert 0.2 < species.rate.low / POUND_PER_ACRE < 160


def test_units_by_hand():
    """Rye: 40 per gram and 18,160 per pound; 56 lb/bu = 720.8 kg/m³; 56 lb/ac = 62.77 kg/ha."""
    rye = TABLE.named("Cereal rye")
    counts = [count.seeds_per_kg for count in rye.counts]
    assert counts[0] == pytest.approx(40_000)
    assert counts[1] == pytest.approx(18_160 / 0.45359237)
    assert rye.test_weight.low == pytest.approx(720.8, abs=0.05)
    assert rye.rate.low == pytest.approx(62.77e-4, rel=1e-4)
    assert rye.rate.basis == "pls"
    assert (rye.depth.low, rye.depth.high) == pytest.approx((0.01905, 0.0381))
    assert rye.cool_season_grass
    assert not TABLE.named("Switchgrass").cool_season_grass


def test_a_count_in_doubt_is_kept_and_left_out():
    doubted = {species.name for species in TABLE if any(c.doubt for c in species.counts)}
    assert doubted == {"Common vetch", "Thickspike wheatgrass", "Sunflower"}
    vetch = TABLE.named("Common vetch")
    assert len(vetch.counts) == 2
    assert vetch.count_range == pytest.approx((19 / GRAM, 19 / GRAM))


def test_count_your_lot_where_sources_are_far_apart():
    said = {species.name for species in TABLE if species.count_your_lot}
    more = {"Forage sorghum", "Berseem clover", "White lupine", "Faba bean", "Sunflower"}
    assert said == FAR_APART | more


def test_federal_and_plants_counts_agree():
    """USDA PLANTS mostly repeats 7 CFR 201.46: within 1.7 times, in doubt or asked about."""
    for species in TABLE:
        counts = {c.source: c.seeds_per_kg for c in species.counts if not c.doubt}
        if {"7 CFR 201.46 table 1", "USDA PLANTS"} <= set(counts):
            ratio = counts["USDA PLANTS"] / counts["7 CFR 201.46 table 1"]
            assert 1 / 1.7 < ratio < 1.7 or species.count_your_lot, species.name


def test_legumes_have_their_inoculant():
    for species in TABLE:
        assert (species.inoculant is not None) == (species.group == "legume"), species.name


@pytest.mark.parametrize(
    ("name", "kind", "says"),
    [
        ("Sorghum-sudangrass", "prussic acid", labels.PRUSSIC_ACID_KEEP),
        ("Sudangrass", "prussic acid", labels.PRUSSIC_ACID_KEEP_STOCK),
        ("Pearl millet", "prussic acid", labels.NO_PRUSSIC_ACID),
        ("Oats", "nitrate", "(University of Nebraska)"),
        ("Alsike clover", "bloat", labels.BLOAT_RISK_HIGH),
        ("Alsike clover", "horses", labels.TOXIC_HORSES_LIVER),
        ("Foxtail millet", "horses", labels.NOT_HORSES),
        ("Hairy vetch", "horses", "(Common knowledge, no source.)"),
        ("Birdsfoot trefoil", "bloat", labels.BLOAT_RISK_NONE),
        ("Crimson clover", "hard seed", "(7 CFR 201.58 table 2)"),
        ("Switchgrass", "dormant", "(7 CFR 201.57a)"),
        ("Big bluestem", "chaffy", "(7 CFR 201.60)"),
        ("Teff", "coated", labels.OFTEN_HALF_WEIGHT),
    ],
)
def test_cautions_where_they_apply(name, kind, says):
    species = TABLE.named(name)
    assert species.has(kind)
    assert any(says in str(phrase) for phrase in species.beware)


def test_cautions_leave_the_last_word_to_others():
    for species in TABLE:
        said = species.beware
        assert bool(said) == bool(species.cautions)
        assert not said or said[-1] == DEFER
    assert labels.LIST_NOT_COMPLETE in str(DEFER)
    assert "label" in str(DEFER)


def test_every_caution_has_words():
    for species in TABLE:
        for caution in species.cautions:
            assert caution.text or caution.kind in STANDARD


def test_no_seller_of_seed_is_named():
    """Laws, public bodies, universities and the farm press stand by name; sellers do not."""
    text = "\n".join(TEXTS.values())
    assert not re.search(r"vendor|\bInc\b|\bLLC\b|™|®|\bSeeds? Co", text)
    assert "a seed seller" in text


def test_a_count_from_the_table_is_wide():
    """Hairy vetch 35,000 to 44,092 per kg: half width under 15%, so ± 15% ÷ √3 = 8.66%."""
    found = from_species(TABLE.named("Hairy vetch"))
    assert nominal(found.seeds_per_kg) == pytest.approx((35_000 + 20_000 / POUND) / 2)
    assert relative(found) == pytest.approx(0.0866, rel=1e-3)
    assert found.said[-1] == COUNT_YOUR_LOT
    assert "7 CFR 201.46" in str(found.said[0])


def test_a_count_from_sources_far_apart_is_wider():
    """Wheat 10,000 to 20,000 per pound: ± 33.3% ÷ √3 = 19.2%."""
    found = from_species(TABLE.named("Winter wheat"))
    assert nominal(found.seeds_per_kg) == pytest.approx(15_000 / POUND)
    assert relative(found) == pytest.approx(0.19245, rel=1e-3)


def test_one_source_is_said_as_one_number():
    said = str(from_species(TABLE.named("Chickpea")).said[0])
    assert said == labels.HAS(name="Chickpea", low="907 seeds/lb", sources="7 CFR 201.46 table 1")


def test_a_species_nobody_counted():
    with pytest.raises(MeasurementError) as refusal:
        from_species(TABLE.named("Black oats"))
    assert refusal.value.field == "seeds_per_kg"
    assert re.search(labels.COUNT_LOT_GIVE.like(), str(refusal.value.need))


def changed(**texts):
    return load(**(TEXTS | texts))


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: TABLE.named("Rye"), "species"),
        (
            lambda: changed(counts=TEXTS["counts"] + "Ray grass\t\t1\tus\tread\t\n"),
            "common_name",
        ),
        (
            lambda: changed(cautions=TEXTS["cautions"] + "Teff\tstings\tAi\tus\tread\n"),
            "kind",
        ),
        (
            lambda: changed(cautions=TEXTS["cautions"] + "Teff\tbloat\tAi\tus\theard\n"),
            "known",
        ),
        (lambda: changed(species=TEXTS["species"].replace("\tgrass\t", "\tgras\t")), "group"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
