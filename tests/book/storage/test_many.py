"""Many things looked up at once are those that would be found one by one."""

from itertools import count

import pytest

from evenstand.book.kinds.work import Catch, Job
from evenstand.book.storage import many


@pytest.fixture
def full(opened, samples):
    """Three jobs with 0, 1 and 3 catches, of which one was removed."""
    book = opened()
    jobs = [book.add(Job(name=f"job {n}")).about for n in range(3)]
    setting = count()
    made = [
        [book.add(Catch(job=job, setting=next(setting), bags=samples.catch.bags)) for _ in range(n)]
        for job, n in zip(jobs, (0, 1, 3), strict=True)
    ]
    book.remove(made[2][2].about)
    return book, jobs


def test_things_are_those_of_their_ids(full):
    book, jobs = full
    found = book.many.things([*jobs, None, jobs[0], book.new_id()])
    assert found == {job: book.get(job) for job in jobs}


def test_names_are_those_of_the_list(full, samples):
    book, jobs = full
    book.remove(jobs[1])
    assert book.many.names("job") == [(t.id, t.body.name) for t in book.things("job")]
    assert book.many.names("drill") == []
    book.add(samples.note)
    assert [name for _, name in book.many.names("note")] == [""]


def test_a_tally_counts_what_stands(full):
    book, jobs = full
    assert book.many.tally("catch", of=jobs) == {jobs[1]: 1, jobs[2]: 2}
    assert book.many.tally("setting", of=jobs) == {}


def test_the_newest_is_that_of_the_list(full):
    book, jobs = full
    expected = {job: book.things("catch", of=job, limit=1)[0] for job in jobs[1:]}
    assert book.many.newest("catch", of=jobs) == expected


def test_more_ids_than_one_question_holds(full, monkeypatch):
    book, jobs = full
    whole = book.many.things(jobs), book.many.tally("catch", of=jobs)
    monkeypatch.setattr(many, "MOST_ASKED", 2)
    assert (book.many.things(jobs), book.many.tally("catch", of=jobs)) == whole


def test_nothing_is_asked_about_nothing(full):
    book, _ = full
    assert book.many.things([]) == {}
    assert book.many.tally("catch", of=[]) == {}
    assert book.many.newest("catch", of=[]) == {}
