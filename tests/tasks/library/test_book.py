"""What a program sees of a book, and which names are promised to it."""

import subprocess
import sys

import polars
import pytest
from msgspec.structs import replace

import evenstand
from evenstand.book.opening import open_book
from evenstand.demo.book import fill
from evenstand.tasks.tables.everything import TABLES


@pytest.fixture(scope="module")
def pool(tmp_path_factory):
    path = tmp_path_factory.mktemp("book") / "pool"
    with open_book(path, device="shed") as book:
        fill(book)
    with evenstand.open_book(path) as opened:
        yield opened


def test_the_public_names():
    """A name here is a promise: it may be joined by others, and does not go."""
    assert evenstand.__all__ == ["MeasurementError", "__version__", "open_book"]
    for name in evenstand.__all__:
        assert getattr(evenstand, name)
    assert not hasattr(evenstand, "anything_else")


def test_the_public_names_are_those_of_the_types():
    stub = evenstand.__file__ + "i"
    with open(stub, encoding="utf-8") as file:
        text = file.read()
    assert all(f"import {name} as {name}" in text for name in ("MeasurementError", "open_book"))


def test_importing_the_package_imports_nothing_more():
    code = "import evenstand, sys; print([m for m in sys.modules if m.startswith('evenstand.')])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"


def test_a_table_is_a_sequence_of_records(pool):
    assert pool.tables == tuple(TABLES)
    bags = pool.table("bags")
    assert len(bags) == len(list(bags)) == len(bags[:])
    assert bags[0].keys() == set(bags.names)
    assert bags.units == {"seed": "kg"}
    assert repr(bags) == f"<Table bags: {len(bags)} rows, 5 columns>"
    frame = polars.DataFrame(bags.columns())
    assert frame.shape == (len(bags), 5)
    # 22 oz = 22 × 28.349523125 g
    ounces, kilograms = pool.table("bags", units="us")[0]["seed"], bags[0]["seed"]
    assert kilograms == pytest.approx(ounces * 0.028349523125)


def test_things_are_plain_records(pool):
    field = pool.things("field")[0]
    assert (field["name"], field["area"]["text"]) == ("Alder Bench", "38.5 ac")
    assert field["area"]["value"] == pytest.approx(155_803.97, abs=0.01)


def test_a_job_gives_what_commands_give(pool):
    job = pool.job("alder bench, FALL cover")
    assert (job.name, repr(job)) == ("Alder Bench, fall cover", "<Job Alder Bench, fall cover>")
    assert pool.job(job.id).record == job.record
    assert {"choose", "candidates", "say"} <= job.setting().keys()
    assert len(job.mix()["species"]) == 4


def test_a_finished_job_gives_what_was_frozen(tmp_path):
    """A tag that is changed afterward touches no finished job."""
    with open_book(tmp_path / "book", device="shed") as book:
        fill(book)
        finished = book.things("finished")[0].body.job
        [mix] = book.many.things([book.get(finished).body.mix]).values()
        lot = book.get(mix.body.members[0].lot)
    with evenstand.open_book(tmp_path / "book") as opened:
        before = opened.job(finished).mix(), opened.job(finished).setting()
    with open_book(tmp_path / "book", device="shed") as book:
        book.correct(lot.id, replace(lot.body, tag=replace(lot.body.tag, germination=0.4)))
    with evenstand.open_book(tmp_path / "book") as opened:
        assert (opened.job(finished).mix(), opened.job(finished).setting()) == before


def test_what_is_not_there_is_refused(pool, tmp_path):
    from evenstand.book.kinds.work import Job

    with open_book(tmp_path / "bare", device="x") as book:
        book.add(Job(name="Without a mix"))
    with evenstand.open_book(tmp_path / "bare") as bare:
        for ask, field in (
            (lambda: pool.job("nowhere"), "job"),
            (lambda: pool.table("lot"), "table"),
            (lambda: evenstand.open_book(tmp_path / "none"), "book"),
            (lambda: bare.job("Without a mix").mix(), "mix"),
        ):
            with pytest.raises(evenstand.MeasurementError) as refused:
                ask()
            assert refused.value.field == field


def test_two_jobs_of_one_name_take_an_id(tmp_path):
    from evenstand.book.kinds.work import Job

    with open_book(tmp_path / "b", device="x") as book:
        ids = [book.add(Job(name="J")).about for _ in range(2)]
    with evenstand.open_book(tmp_path / "b") as opened:
        with pytest.raises(evenstand.MeasurementError):
            opened.job("J")
        assert opened.job(ids[0]).id == ids[0]
