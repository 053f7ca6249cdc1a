"""Addresses of before lead on to the pages that have new ones."""

import pytest

from evenstand.web.run.app import create_app
from evenstand.web.site.settings import Settings


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ("/book", "/settings"),
        ("/book/reading", "/settings/reading"),
        ("/jobs/7a/set?box=small+seed", "/jobs/7a/calibrate?box=small+seed"),
        ("/jobs/7a/set/worksheet.pdf", "/jobs/7a/calibrate/worksheet.pdf"),
        ("/jobs/7a/sow", "/jobs/7a/seeding"),
        ("/jobs/set/sow/load", "/jobs/set/seeding/load"),
        ("/jobs/7a/stand?apart=yes", "/jobs/7a/stand-count?apart=yes"),
    ],
)
@pytest.mark.parametrize("method", ["GET", "POST"])
def test_an_old_address_leads_to_the_new_one(client, *, was, now, method):
    """308 (RFC 9110, 15.4.9): a browser sends a form again, as it was."""
    answer = client.open(was, method=method)
    assert (answer.status_code, answer.location) == (308, now)


def test_the_folder_of_the_app_stays_in_front(client):
    answer = client.get("/book", environ_overrides={"SCRIPT_NAME": "/farm"})
    assert answer.location == "/farm/settings"


def test_a_form_sent_to_an_old_address_is_saved(client, visitor):
    job = visitor.job()
    sent = client.post(f"{job}/set", data=visitor.LIGHT, follow_redirects=True)
    assert sent.status_code == 200
    assert "Catch 1, at 30" in visitor.read(f"{job}/calibrate").text


def test_old_addresses_lead_on_where_nobody_is_signed_in(book):
    """What they lead to asks who it is, and goes on there after."""
    book.people.add("Ada", "a long password here", role="keeps")
    client = create_app(book, settings=Settings()).test_client()
    assert client.get("/book").location == "/settings"
    assert client.get("/settings").location == "/sign-in?next=/settings"


def test_what_was_typed_is_written_as_an_address(client):
    assert client.get("/book/a%3Fb%20c?d=e").location == "/settings/a%3Fb%20c?d=e"
