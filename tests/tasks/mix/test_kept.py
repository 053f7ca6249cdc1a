"""A mix kept in the book is read as the same mix written in a job file."""

import tomllib
from importlib.resources import files

import pytest
from msgspec.structs import replace

from evenstand.book.kinds.seed import Lot, Member, Mix, Range, Tag
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Field, Job
from evenstand.book.opening import open_book
from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import (
    DENSITY,
    FIELD,
    NUMBER,
    PRICE,
    RATE,
    SEED_COUNT,
    SHARE,
    SPACING,
)
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import nominal, standard_uncertainty
from evenstand.tasks.job.kept import find
from evenstand.tasks.mix.kept import mix_tables
from evenstand.tasks.mix.mix import read_mix
from evenstand.tasks.parsing.writing import as_typed

TODAY = Month(2026, 11)
ALDER = tomllib.loads((files("evenstand.demo") / "alder_bench.toml").read_text(encoding="utf-8"))


KINDS = (RATE, DENSITY, SHARE, FIELD, SPACING, NUMBER, PRICE, SEED_COUNT)


def typed(text):
    """What a form keeps of an amount, whatever it measures."""
    for kind in KINDS:
        try:
            return as_typed(read(text, kind, field="amount"))
        except MeasurementError:
            continue
    raise AssertionError(text)


# The four lots and the mix of alder_bench.toml, as their forms keep them.
RYE = Lot(
    name="R-26",
    species="cereal rye",
    tag=Tag(purity=0.98, germination=0.92, tested="2026-08"),
    seeds_per_kg=typed("18100 seeds/lb"),
    price=typed("0.28 $/lb"),
)
VETCH = Lot(
    name="V-26",
    species="hairy vetch",
    tag=Tag(purity=0.97, germination=0.80, hard=0.12, tested="2026-09"),
    seeds_per_kg=typed("16500 seeds/lb"),
    price=typed("2.4 $/lb"),
)
CLOVER = Lot(
    name="C-26",
    species="crimson clover",
    tag=Tag(purity=0.98, germination=0.85, hard=0.06, tested="2026-08"),
    seeds_per_kg=typed("148000 seeds/lb"),
    price=typed("1.9 $/lb"),
)
RADISH = Lot(
    name="T-26",
    species="radish",
    tag=Tag(purity=0.99, germination=0.90, tested="2026-09"),
    thousand_seed_weight=Typed(value=0.013, text="13 g"),
    price=typed("2.7 $/lb"),
)
RATES = (
    ("bulk", "40 lb/ac"),
    ("bulk", "12 lb/ac"),
    ("live seeds", "9 seeds/ft2"),
    ("bulk", "2 lb/ac"),
)


@pytest.fixture
def book():
    with open_book(":memory:", device="shed", who="Ada") as opened:
        yield opened


@pytest.fixture
def keep(book):
    """Keep a job with a mix of the lots given; gives the job as `find` gathers it."""

    def put(*lines, lots=(), **more):
        ids = [book.add(lot).about for lot in lots]
        members = tuple(
            replace(line, lot=ids[i]) if i < len(ids) else line for i, line in enumerate(lines)
        )
        mix = book.add(Mix(name="Fall cover", members=members, **more)).about
        field = book.add(Field(name="Alder Bench", area=typed("38.5 ac"))).about
        return find(book, book.add(Job(name="Fall", field=field, mix=mix)).about)

    return put


def line(basis="bulk", rate="10 lb/ac", name="seed", **more):
    return Member(name=name, basis=basis, rate=typed(rate) if rate else None, **more)


def test_a_kept_mix_is_the_mix_of_its_file(book, keep):
    kept = keep(*(line(*rate) for rate in RATES), lots=(RYE, VETCH, CLOVER, RADISH))
    found = read_mix(mix_tables(book, kept), today=TODAY)
    wanted = read_mix(ALDER, today=TODAY)
    assert found.names == ("Alder Bench",)
    for ours, theirs in zip(found.mix.sown, wanted.mix.sown, strict=True):
        assert (ours.name, ours.lot) == (theirs.name, theirs.lot)
        for value in ("seeds", "pls_rate", "bulk_rate", "seed_share", "weight_share", "cost"):
            got, want = getattr(ours, value), getattr(theirs, value)
            assert nominal(got) == pytest.approx(nominal(want), rel=1e-12), value
            assert standard_uncertainty(got) == pytest.approx(standard_uncertainty(want), rel=1e-9)


def test_every_field_of_a_line_stands_under_its_key(book, keep):
    rich = line(
        "rest",
        "",
        full=typed("20 lb/ac"),
        full_basis="bulk",
        in_mix=Range(low=typed("5 lb/ac"), high=typed("8 lb/ac")),
        depth=Range(low=typed("1/4 in"), high=typed("1/2 in")),
        group="legume",
        season="cool",
        important=False,
        cn=typed("12"),
        biomass=typed("2000 lb/ac"),
    )
    seeds = line("pls", "7 lb/ac", full=typed("30 seeds/ft2"), full_basis="live seeds")
    hulls = line("bulk", "6 lb/ac", "rice hulls", carrier=True, price=typed("0.5 $/lb"))
    tables = mix_tables(book, keep(rich, seeds, hulls, lots=(CLOVER, RYE)))
    assert tables["mix"] == [
        {
            "lot": "C-26",
            "rest": True,
            "full_rate": "20 lb/ac",
            "full_basis": "bulk",
            "in_mix": ["5 lb/ac", "8 lb/ac"],
            "depth": ["1/4 in", "1/2 in"],
            "group": "legume",
            "season": "cool",
            "important": "no",
            "cn": "12",
            "biomass": "2000 lb/ac",
        },
        {"lot": "R-26", "pls": "7 lb/ac", "full_seeds": "30 seeds/ft2"},
        {"carrier": True, "name": "rice hulls", "bulk": "6 lb/ac", "price": "0.5 $/lb"},
    ]


def test_what_the_rest_fills_up_stands_under_its_basis(book, keep):
    kept = keep(
        line(),
        lots=(RYE,),
        whole=typed("30 seeds/ft2"),
        whole_basis="live seeds",
        uplift=typed("30%"),
        stand="small grain",
    )
    whole = {"seeds": "30 seeds/ft2", "uplift": "30%", "stand": "small grain"}
    assert mix_tables(book, kept)["mix_whole"] == whole


def test_an_amount_without_its_text_is_written_from_its_value(book, keep):
    """60.5 kg/ha = 0.00605 kg/m2."""
    rate = Typed(value=0.00605)
    kept = keep(Member(name="rye", basis="bulk", rate=rate), lots=(RYE,))
    assert mix_tables(book, kept)["mix"][0]["bulk"] == "60.5 kg/ha"
    [sown] = read_mix(mix_tables(book, kept), today=TODAY).mix.sown
    assert nominal(sown.bulk_rate) == pytest.approx(0.00605, rel=1e-9)


def test_lots_of_one_name_are_told_apart(book, keep):
    other = replace(VETCH, name="R-26")
    tables = mix_tables(book, keep(line(), line(), line(), lots=(RYE, other, replace(RYE))))
    assert [lot["name"] for lot in tables["lots"]] == ["R-26", "R-26 (2)", "R-26 (3)"]
    assert [each["lot"] for each in tables["mix"]] == ["R-26", "R-26 (2)", "R-26 (3)"]


def test_a_lot_without_a_name_needs_none_unless_there_are_two(book, keep):
    bare = replace(RYE, name="")
    alone = mix_tables(book, keep(line(), lots=(bare,)))
    assert alone["mix"][0]["species"] == "cereal rye"
    assert read_mix(alone, today=TODAY).mix.sown[0].lot == ""
    two = mix_tables(book, keep(line(), line(), lots=(bare, bare)))
    assert [each["lot"] for each in two["mix"]] == ["cereal rye", "cereal rye (2)"]
    assert len(read_mix(two, today=TODAY).mix.sown) == 2


def test_a_lot_in_two_lines_stands_once(book, keep):
    id = book.add(RYE).about
    tables = mix_tables(book, keep(line(lot=id), line("pls", "5 lb/ac", lot=id)))
    assert len(tables["lots"]) == 1
    assert len(read_mix(tables, today=TODAY).mix.sown) == 2


def test_a_lot_that_was_taken_off_the_shelf_is_still_what_was_sown(book, keep):
    id = book.add(RYE).about
    kept = keep(line(name="cereal rye", lot=id))
    before = mix_tables(book, kept)
    book.remove(id)
    assert mix_tables(book, kept) == before


def test_a_job_without_a_mix_has_empty_tables(book):
    kept = find(book, book.add(Job(name="Fall")).about)
    assert mix_tables(book, kept) == {"field": {"name": "Fall"}}
    with pytest.raises(MeasurementError) as refused:
        read_mix(mix_tables(book, kept), today=TODAY)
    assert refused.value.field == "[[mix]]"
