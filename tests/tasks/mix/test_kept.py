"""A mix kept in the book is read as the same mix written in a job file."""

import builtins
import tomllib
from importlib.resources import files

import pytest
from msgspec.structs import replace

import labels
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
from evenstand.tasks.mix.kept import job_mix
from evenstand.tasks.mix.mix import read_mix
from evenstand.tasks.mix.said import mix_in
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
    found = read_mix(job_mix(book, kept), today=TODAY)
    wanted = read_mix(mix_in(ALDER), today=TODAY)
    assert found.names == ("Alder Bench",)
    for ours, theirs in zip(found.mix.sown, wanted.mix.sown, strict=True):
        assert (ours.name, ours.lot) == (theirs.name, theirs.lot)
        for value in ("seeds", "pls_rate", "bulk_rate", "seed_share", "weight_share", "cost"):
            got, want = getattr(ours, value), getattr(theirs, value)
            assert nominal(got) == pytest.approx(nominal(want), rel=1e-12), value
            assert standard_uncertainty(got) == pytest.approx(standard_uncertainty(want), rel=1e-9)


def test_every_field_of_a_line_is_that_of_its_file(book, keep):
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
    found = job_mix(book, keep(rich, seeds, hulls, lots=(CLOVER, RYE))).members
    written = mix_in(
        {
            "lots": ALDER["lots"],
            "mix": [
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
            ],
        }
    ).members
    assert [each.lot and each.lot.lot.name for each in found] == ["C-26", "R-26", None]
    for ours, theirs in zip(found, written, strict=True):
        name = ours.member.name
        assert replace(ours.member, lot=None) == replace(theirs.member, name=name), name


def test_what_the_rest_fills_up_is_that_of_its_file(book, keep):
    kept = keep(
        line(),
        lots=(RYE,),
        whole=typed("30 seeds/ft2"),
        whole_basis="live seeds",
        uplift=typed("30%"),
        stand="small grain",
    )
    whole = {"seeds": "30 seeds/ft2", "uplift": "30%", "stand": "small grain"}
    written = mix_in({"mix_whole": whole}).mix
    assert replace(job_mix(book, kept).mix, name="") == written


def test_an_amount_without_its_text_is_its_value(book, keep):
    kept = keep(Member(name="rye", basis="bulk", rate=Typed(value=0.00605)), lots=(RYE,))
    [sown] = read_mix(job_mix(book, kept), today=TODAY).mix.sown
    assert nominal(sown.bulk_rate) == 0.00605


def test_lots_of_one_name_are_told_apart(book, keep):
    other = replace(VETCH, name="R-26")
    said = job_mix(book, keep(line(), line(), line(), lots=(RYE, other, replace(RYE))))
    assert [each.lot.name for each in said.lots] == ["R-26", "R-26 (2)", "R-26 (3)"]
    assert [each.lot.lot.name for each in said.members] == ["R-26", "R-26 (2)", "R-26 (3)"]


def test_a_lot_without_a_name_needs_none_unless_there_are_two(book, keep):
    bare = replace(RYE, name="")
    alone = job_mix(book, keep(line(), lots=(bare,)))
    assert read_mix(alone, today=TODAY).mix.sown[0].lot == ""
    two = job_mix(book, keep(line(), line(), lots=(bare, bare)))
    assert [each.lot.lot.name for each in two.members] == ["cereal rye", "cereal rye (2)"]
    assert len(read_mix(two, today=TODAY).mix.sown) == 2


def test_a_lot_in_two_lines_stands_once(book, keep):
    id = book.add(RYE).about
    said = job_mix(book, keep(line(lot=id), line("pls", "5 lb/ac", lot=id)))
    assert len(said.lots) == 1
    assert len({builtins.id(each.lot) for each in read_mix(said, today=TODAY).members}) == 1


def test_a_lot_that_was_taken_off_the_shelf_is_still_what_was_sown(book, keep):
    id = book.add(RYE).about
    kept = keep(line(name="cereal rye", lot=id))
    before = job_mix(book, kept)
    book.remove(id)
    assert job_mix(book, kept) == before


def test_a_seed_whose_lot_is_not_here_is_that_of_the_only_lot_of_its_species(book, keep):
    kept = keep(line(), line(name="cereal rye"), lots=(RYE,))
    first, second = read_mix(job_mix(book, kept), today=TODAY).members
    assert first.lot is second.lot
    kept = keep(line(name="hairy vetch"))
    with pytest.raises(MeasurementError) as refused:
        read_mix(job_mix(book, kept), today=TODAY)
    assert refused.value.field == "[[mix]] 1 purity"


def test_an_amount_that_is_used_as_it_is_has_no_limits(book, keep):
    kept = keep(line("bulk", "10 ± 1 lb/ac"), lots=(RYE,))
    with pytest.raises(MeasurementError, match=labels.WRITE_WITHOUT_ABOUT.like()) as refused:
        read_mix(job_mix(book, kept), today=TODAY)
    assert (refused.value.field, refused.value.given) == ("[[mix]] 1 bulk", "10 ± 1 lb/ac")


def test_a_job_without_a_mix_has_none(book):
    kept = find(book, book.add(Job(name="Fall")).about)
    with pytest.raises(MeasurementError) as refused:
        job_mix(book, kept)
    assert refused.value.field == "mix"
