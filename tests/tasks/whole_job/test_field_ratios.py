"""The field ratio of a drill, from the jobs in the book that are closed."""

import pytest

from evenstand.book.kinds import machine, sown, work
from evenstand.book.kinds.shape import Typed
from evenstand.book.opening import open_book
from evenstand.engine.quantities.units import ACRE, POUND, POUND_PER_ACRE
from evenstand.engine.seeding.field_ratio import from_study
from evenstand.engine.statistics.budget import nominal
from evenstand.tasks.job.kept import find
from evenstand.tasks.whole_job.calibration import set_job
from evenstand.tasks.whole_job.field_ratios import MOST_FIELDS, class_of, learned_for, own_fields

INCH = 0.0254
# 20 turns of 95 in under 20 rows at 7.5 in are 0.045437 ac: 38.89 oz on them are 53.49 lb/ac.
CAUGHT = 38.89 / 16 * POUND


def lb(value):
    return Typed(value=value * POUND, text=f"{value} lb")


def ac(value):
    return Typed(value=value * ACRE, text=f"{value} ac")


@pytest.fixture
def book():
    with open_book(":memory:", device="shed", who="Ada") as opened:
        yield opened


@pytest.fixture
def drill(book):
    return book.add(
        machine.Drill(
            name="Heron",
            rows=20,
            spacing=Typed(value=7.5 * INCH, text="7.5 in"),
            scale=machine.Scale(low=0, high=60),
            rolled=Typed(value=95 * INCH, text="95 in"),
            boxes=(machine.Box(name="grain"), machine.Box(name="small", seed="small seed")),
        )
    ).about


@pytest.fixture
def job(book, drill):
    """A job caught three times at 33 and taken; closed where a rate of its field is given."""

    def make(name="oats", *, rate=None, seed="oats", area=38.5, **more):
        wanted = work.Wanted(rate=lb_per_acre(54), box="grain", seed=seed)
        id = book.add(work.Job(name=name, drill=drill, wanted=(wanted,), **more)).about
        bag = work.Bag(weight=Typed(value=CAUGHT, text="38.89 oz"), rows=20)
        for _ in range(3):
            book.add(
                work.Catch(
                    job=id,
                    box="grain",
                    setting=33,
                    turns=Typed(value=20, text="20"),
                    bags=(bag,),
                )
            )
        book.add(work.Chosen(job=id, box="grain", setting=33))
        if rate is not None:
            book.add(sown.Load(job=id, box="grain", at=ac(0), weight=lb(2500)))
            left = sown.Left(box="grain", weight=lb(2500 - rate * area))
            book.add(sown.Finished(job=id, at=ac(area), area=ac(area), left=(left,), soil="firm"))
        return id

    return make


def lb_per_acre(value):
    return Typed(value=value * POUND_PER_ACRE, text=f"{value} lb/ac")


def test_one_field_by_hand(book, drill, job):
    """51.5 lb/ac in the field, 53.49 at the stand: 0.963."""
    job("oats", rate=51.5)
    (found,) = own_fields(book, drill)
    assert found.value == pytest.approx(51.5 / 53.49, abs=0.002)
    assert found.past.seed_class == "large"
    assert found.past.soil == "firm"


def test_a_field_moves_the_next_jobs_bench_target(book, drill, job):
    before = set_job(book, find(book, job("first")))
    assert before.field_ratio == 1.0
    job("done", rate=48.0)
    kept = find(book, job("next"))
    learned = learned_for(book, kept)
    assert 48.0 / 53.49 < learned.ratio.value < from_study(slip_counted=True)[0]
    after = set_job(book, kept)
    assert nominal(after.field_ratio) == pytest.approx(learned.ratio.value)
    assert any("{learned}" in phrase.template for phrase in after.assumed)


def test_what_the_job_gives_itself_counts(book, job):
    job("done", rate=48.0)
    own = Typed(value=0.9, text="0.9")
    assert learned_for(book, find(book, job("next", field_ratio=own))) is None
    assert set_job(book, find(book, job("again", field_ratio=own))).field_ratio == 0.9


def test_a_job_teaches_others_and_not_itself(book, job):
    done = job("done", rate=48.0)
    assert learned_for(book, find(book, done)) is None


def test_a_field_that_is_done_is_not_judged_by_later_ones(book, job):
    first = job("first", rate=51.5)
    before = learned_for(book, find(book, job("second", rate=48.0)))
    job("third", rate=45.0)
    assert learned_for(book, find(book, first)) is None
    second = next(each.id for each in book.things("job") if each.body.name == "second")
    assert learned_for(book, find(book, second)).ratio == before.ratio


def test_fields_whose_ratio_cannot_be_are_shown_and_left_out(book, drill, job):
    job("misread", rate=20.0)
    (found,) = own_fields(book, drill)
    assert found.past is None
    assert learned_for(book, find(book, job("next"))) is None


def test_only_the_newest_fields_count(book, drill, job):
    for n in range(MOST_FIELDS + 2):
        job(f"field {n}", rate=50.0 + 0.1 * n)
    found = own_fields(book, drill)
    assert len(found) == MOST_FIELDS
    assert found[0].name == f"field {MOST_FIELDS + 1}"


def test_a_catch_corrected_later_changes_what_a_field_taught(book, drill, job):
    id = job("done", rate=50.0)
    before = own_fields(book, drill)[0].value
    for thing in book.things("catch", of=id):
        book.remove(thing.id)
    assert own_fields(book, drill) == ()
    assert before == pytest.approx(50 / 53.49, abs=0.002)


@pytest.mark.parametrize(
    ("seed", "expected"),
    [
        ("oats", "large"),
        ("crimson clover", "medium"),
        ("white clover", "small"),
        ("a brew of my own", "large"),
        ("Avena", "large"),
    ],
)
def test_the_class_of_a_seed(book, job, *, seed, expected):
    assert class_of(find(book, job("next", seed=seed))) == expected
