"""A kept count reads as its job file would: one way to read them both."""

import tomllib

import pytest

import labels
from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.sown import Load
from evenstand.book.kinds.work import (
    Field,
    Job,
    Live,
    Place,
    Record,
    Seen,
    StandCount,
    StandWish,
    Used,
    Wanted,
)
from evenstand.book.opening import open_book
from evenstand.demo.book import fill
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import SQUARE_FOOT
from evenstand.engine.seed.tag import Month
from evenstand.engine.stand.usual import USUAL
from evenstand.engine.statistics.budget import nominal
from evenstand.report.json import as_json
from evenstand.tasks.job.kept import find
from evenstand.tasks.seed.species_table import species_table
from evenstand.tasks.stand.job import emerged, read_kept_stand, stand_alone
from evenstand.tasks.stand.kept import sown_on
from evenstand.tasks.stand.seed_down import PLANNED, USUAL_KIND, WEIGHED, seed_down
from evenstand.tasks.stand.stand import read_stand

COUNTS = (31, 27, 35, 22, 29, 33, 26, 30, 38, 24, 28, 34)
FILE = """
[stand]
spacing = "7.5 in"
wish = "15 plants/ft²"
crop = "winter wheat"
seeds = "22 ± 1.1432 seeds/ft²"
kind = "small grain"
days = 30
[[counts]]
length = "3 ft"
plants = [31, 27, 35, 22, 29, 33, 26, 30, 38, 24, 28, 34]
"""
TODAY = Month(2026, 11)
US = Style(system="us")


@pytest.fixture
def book():
    with open_book(":memory:", device="shed", who="Ada") as opened:
        yield opened


@pytest.fixture
def job(book):
    return book.add(Job(name="Alder Bench")).about


def spaced(job, *counts, day="2026-10-31", **more):
    spacing = Typed(value=0.1905, text="7.5 in")
    length = Typed(value=0.9144, text="3 ft")
    places = tuple(Place(plants=(Seen(plants=n),), length=length, **more) for n in counts)
    return StandCount(job=job, places=places, spacing=spacing, day=day)


def wished(job, **more):
    live = Typed(
        value=22 / SQUARE_FOOT, give_or_take=1.1432 / SQUARE_FOOT, text="22 ± 1.1432 seeds/ft²"
    )
    return StandWish(
        job=job,
        wish=Typed(value=15 / SQUARE_FOOT, text="15 plants/ft²"),
        crop="winter wheat",
        live=(Live(seeds=live, usual="small grain"),),
        **more,
    )


def test_the_book_and_the_file_say_the_same(book, job):
    for batch in (COUNTS[:1], COUNTS[1:6], COUNTS[6:]):
        book.add(spaced(job, *batch))
    book.add(wished(job, sown="2026-10-01"))
    found, _ = read_kept_stand(book, find(book, job), today=TODAY)
    said = as_json(found, US)
    file = as_json(read_stand(tomllib.loads(FILE)), US)
    assert said["stand"]["value"] == pytest.approx(15.8667, abs=1e-4)
    for key in ("stand", "emergence"):
        flat = said[key].get("share", said[key])
        other = file[key].get("share", file[key])
        assert [flat[k] for k in ("value", "low", "high")] == pytest.approx(
            [other[k] for k in ("value", "low", "high")], rel=1e-9
        )
    assert said["odds"] == pytest.approx(file["odds"], rel=1e-9)
    assert said["published"] == file["published"]
    assert said["say"] == file["say"]


def test_the_order_of_batches_does_not_matter(book, job):
    other = book.add(Job(name="The same")).about
    for batch in (COUNTS[:5], COUNTS[5:]):
        book.add(spaced(job, *batch))
    for batch in (COUNTS[5:], COUNTS[:5]):
        book.add(spaced(other, *batch))
    ranges = [stand_alone(book, find(book, each)).stand.range for each in (job, other)]
    assert ranges[0].low == pytest.approx(ranges[1].low, rel=1e-12)


def test_the_spacing_of_a_count_is_unsure_once_for_all_its_tables(book, job):
    """Two tables of one spacing ± 1 cm are off together: their u does not shrink by √2."""
    spacing = Typed(value=0.2, give_or_take=0.02, text="20 ± 2 cm")
    metre, two = (Typed(value=v, text=f"{v} m") for v in (1.0, 2.0))
    places = [Place(plants=(Seen(plants=30),), length=metre)] * 6
    places += [Place(plants=(Seen(plants=60),), length=two)] * 6
    book.add(StandCount(job=job, places=tuple(places), spacing=spacing))
    found = stand_alone(book, find(book, job)).stand
    of_spacing = next(share for share in found.budget if share.name == "row spacing")
    # 150 plants/m² × (2 cm ÷ √3) ÷ 20 cm.
    assert of_spacing.u == pytest.approx(150 * 0.02 / 3**0.5 / 0.2)


def test_gaps_looked_for_and_not_found_are_no_gaps(book, job):
    book.add(spaced(job, 30, 31, looked=True))
    found = stand_alone(book, find(book, job))
    assert (found.gaps.number, found.gaps.share.value) == (0, 0)


def test_the_day_it_was_sown(book, job):
    assert sown_on(book, job, None) is None
    book.add(Record(job=job, first="2026-10-02", last="2026-10-03"))
    assert sown_on(book, job, None) == "2026-10-03"
    for day in ("2026-10-05", "2026-10-04"):
        book.add(Load(job=job, at=Typed(value=0.0), day=day))
    assert sown_on(book, job, None) == "2026-10-05"  # the last load
    assert sown_on(book, job, StandWish(job=job, sown="2026-10-07")) == "2026-10-07"


def test_a_day_that_the_calendar_does_not_have_judges_nothing(book, job):
    book.add(spaced(job, *COUNTS, day="2026-10-31"))
    said = StandWish(job=job, sown="2026-02-31", perennial=True)
    book.add(said)
    found, _ = read_kept_stand(book, find(book, job), today=TODAY)
    assert found.stand.plants == 357


def test_what_came_up_earlier_without_limits_is_told_as_taken():
    text = FILE + '[[emerged]]\nfield = "North"\nshare = "70%"\n'
    told = as_json(read_stand(tomllib.loads(text)), US)["taken_as"]
    assert labels.WHAT_CAME_UP(reach="10%") in told
    sure = as_json(read_stand(tomllib.loads(text.replace("70%", "70 ± 4%"))), US)
    assert not [each for each in sure["taken_as"] if "earlier" in each]


@pytest.fixture
def fall_cover(book):
    """The demo's cover crop: its boxes are shared out, the lever is not chosen yet."""
    fill(book)
    return next(each for each in book.things("job") if each.body.mix and "fall" in each.body.name)


def test_seed_that_was_weighed_back_goes_before_the_plan(book, fall_cover):
    plan = seed_down(book, fall_cover.id, said=None, today=TODAY)
    assert plan.known == (PLANNED,)
    # On 1 ha went twice the rate that was wanted from each box: twice the live seed, as far as
    # the wanted rate is rounded.
    used = tuple(
        Used(box=each.box, loaded=Typed(value=2e4 * each.rate.value), left=Typed(value=0.0))
        for each in fall_cover.body.wanted
    )
    area = Typed(value=1e4, text="1 ha")
    book.add(Record(job=fall_cover.id, area=area, used=used, last="2026-10-01"))
    down = seed_down(book, fall_cover.id, said=None, today=TODAY)
    assert down.known == (WEIGHED,)
    assert set(down.seeds) == set(plan.seeds)
    for name, seeds in plan.seeds.items():
        assert nominal(down.seeds[name]) == pytest.approx(2 * nominal(seeds), rel=0.01)


def test_kinds_go_with_species_unless_they_were_chosen(book, fall_cover):
    name = next(iter(seed_down(book, fall_cover.id, said=None, today=TODAY).seeds))
    assert seed_down(book, fall_cover.id, said=None, today=TODAY).kinds[name] == "small grain"
    said = StandWish(job=fall_cover.id, live=(Live(species=name, usual="pea"),))
    assert seed_down(book, fall_cover.id, said=said, today=TODAY).kinds[name] == "pea"


def test_every_kind_names_species_of_the_table():
    assert set(USUAL_KIND) <= {species.name for species in species_table()}
    assert set(USUAL_KIND.values()) <= set(USUAL)


def test_earlier_counts_are_those_of_the_field_then_the_latest_of_others(book):
    """Of 30 fields, one of them sown three times, twelve of others count beside its own."""
    field = book.add(Field(name="Alder Bench")).about

    def counted(name, field=None):
        wanted = (Wanted(rate=Typed(value=0.005), seed="wheat"),)
        job = book.add(Job(name=name, field=field, wanted=wanted)).about
        book.add(spaced(job, *COUNTS))
        book.add(wished(job))
        return job

    for season in ("first", "second"):
        counted(season, field)
    for n in range(30):
        counted(f"Field {n}")
    last = counted("third", field)
    found = emerged(book, find(book, last), today=TODAY)
    assert [each.season.field for each in found] == ["Alder Bench"] * 2 + [
        f"Field {n}" for n in range(29, 17, -1)
    ]
    # 15.8667 of 22 seeds came up.
    assert {round(each.season.emergence, 3) for each in found} == {0.721}


def test_other_species_and_plants_of_other_seed_do_not_count(book, job):
    book.add(spaced(job, *COUNTS))
    book.add(wished(job))
    other = book.add(Job(name="Oats", wanted=(Wanted(rate=Typed(value=0.005), seed="oats"),))).about
    book.add(spaced(other, *COUNTS))
    book.add(wished(other))
    for kept in (job, other):
        assert emerged(book, find(book, kept), today=TODAY) == ()


def test_rows_shut_between_sown_rows_give_each_open_row_more_ground(book):
    """Half the rows shut: as many plants in a metre of row are half as many on the ground."""
    spacing = Typed(value=0.125, text="12.5 cm")
    drill = book.add(Drill(name="Heron", rows=24, spacing=spacing)).about
    found = []
    for shut in (0, 12):
        job = book.add(Job(name="Alder Bench", drill=drill, blocked=shut)).about
        places = tuple(
            Place(plants=(Seen(plants=n),), length=Typed(value=1.0, text="1 m")) for n in COUNTS
        )
        book.add(StandCount(job=job, places=places))
        found.append(stand_alone(book, find(book, job)).stand.range.value)
    assert found[1] == pytest.approx(found[0] / 2)
