"""What nobody types but somebody may send: refused in words, never a fault of the server."""

import pytest
from msgspec.structs import replace

from evenstand.demo.book import fill


@pytest.fixture
def quiet(client):
    """The pages, which answer a fault of their own with 500 as they do in use."""
    client.application.testing = True
    client.application.config["PROPAGATE_EXCEPTIONS"] = True
    return client


@pytest.mark.parametrize("path", ["/exchange", "/exchange/pair"])
def test_what_is_no_text_is_refused(book, quiet, *, path):
    code = book.devices.offer(account=None, who="Ada")
    told = quiet.post("/exchange/pair", json={"code": code, "name": "p"}).json
    headers = {"Authorization": f"Bearer {told['key']}"}
    for body in (b"\xff", b'{"cursor": 0, "entries": ["\xff"]}', b'{"code": "\xff", "name": "p"}'):
        assert quiet.post(path, data=body, headers=headers).status_code == 400


def test_a_catch_whose_job_lost_its_drill(book, quiet):
    fill(book)
    catch = book.things("catch")[0]
    job = book.get(catch.body.job)
    book.correct(job.id, replace(job.body, drill=None))
    for path in (f"/catches/{catch.id}", f"/jobs/{job.id}/calibrate"):
        assert quiet.get(path).status_code < 500
    form = {"entry": book.new_id(), "setting": "30", "turns": "20", "net": "1 lb"}
    assert quiet.post(f"/catches/{catch.id}", data=form).status_code < 500
    assert quiet.post(f"/jobs/{job.id}/calibrate", data=form).status_code < 500
    for step in (
        "mix",
        "boxes",
        "order",
        "seeding",
        "stand-count",
        "record",
        "record.pdf",
        "worksheet",
    ):
        assert quiet.get(f"/jobs/{job.id}/{step}").status_code < 500


def test_a_name_of_a_box_that_is_too_long(visitor, book, quiet):
    drill = visitor.heron()
    for name in ("x" * 201, "x" * 20_000):
        for path in ("/drills/new", f"{drill}/edit"):
            form = {**visitor.HERON, "entry": book.new_id(), "box1_name": name}
            assert quiet.post(path, data=form).status_code == 422


@pytest.mark.parametrize("chart", ["x", "\x00", "9" * 300, "01a21037-7680-7000-8000-000000000000"])
def test_a_forged_chart(visitor, book, quiet, *, chart):
    job = visitor.job()
    form = {**visitor.JOB, "entry": book.new_id(), "wanted1_chart": chart}
    for path in ("/jobs/new", f"{job}/edit"):
        assert quiet.post(path, data=form).status_code in (303, 422)
