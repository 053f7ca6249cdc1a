"""Who may do what on the pages: every address, every link and form, for each role."""

import re
from collections import Counter
from html import unescape
from urllib.parse import urlsplit

import pytest

import labels
from evenstand.book.opening import open_book
from evenstand.book.people.people import ROLES as EACH
from evenstand.demo.book import fill


def visitor_job(book):
    """A job with a drill, written by no page."""
    fill(book)
    return f"/jobs/{book.things('job')[0].id}"


LINK = re.compile(r'<a [^>]*href="(/[^"#]*)')
FORM = re.compile(r"<form\b([^>]*)>")
ATTRIBUTE = re.compile(r'\b(action|method|formaction)="([^"]*)"')


def refusals(client):
    """Follow the links from the list of jobs on, to two of each kind of page.

    Gives what a reader of these pages is refused.
    """
    from evenstand.web.site.guard import may

    urls = client.application.url_map.bind("localhost")
    seen, times, todo, refused = set(), Counter(), ["/"], []
    while todo:
        path = todo.pop(0).replace("&amp;", "&")
        kind = urls.match(path.partition("?")[0], method="GET")[0]
        if path in seen or times[kind] == 2:
            continue
        seen.add(path)
        times[kind] += 1
        answer = client.get(path)
        refused += [f"GET {path}"] if answer.status_code == 403 else []
        if answer.mimetype != "text/html":
            continue
        todo += LINK.findall(answer.text)
        for tag in FORM.findall(answer.text):
            said = dict(ATTRIBUTE.findall(tag))
            if said.get("method") == "post":
                to = urlsplit(said.get("action") or path).path
                with client.application.test_request_context("/"):
                    sent = urls.match(to, method="POST")[0]
                    refused += [] if may(sent) else [f"{sent} on {path}"]
    return refused


def test_every_address_has_its_role(client):
    from evenstand.web.site.guard import OPEN, ROLES

    rules = {rule.endpoint for rule in client.application.url_map.iter_rules()}
    assert rules - set(ROLES) - OPEN == set(), "a page without a role in web/guard.py"
    assert (set(ROLES) | OPEN) - rules == set(), "a role of a page that is not there"
    assert set(ROLES) & OPEN == set()


def test_an_address_in_no_table_is_for_keepers():
    from evenstand.web.site.guard import role_of

    assert role_of("somewhere.else") == "keeps"


@pytest.mark.parametrize("role", [None, *EACH])
def test_nobody_gets_past_the_table(client, signed_in, role):
    """Every address by every method: what a role may not is refused before its view runs."""
    from evenstand.web.site.guard import OPEN, ROLES

    app, reached = client.application, []
    for name in app.view_functions:
        app.view_functions[name] = lambda own_=name, **_: reached.append(own_) or "reached"
    if role:
        signed_in(role)
    for rule in app.url_map.iter_rules():
        path = re.sub(r"<[^>]+>", "x", rule.rule)
        for method in rule.methods - {"HEAD", "OPTIONS"}:
            reached.clear()
            code = client.open(path, method=method).status_code
            may = rule.endpoint in OPEN or (
                role and EACH.index(role) >= EACH.index(ROLES[rule.endpoint])
            )
            assert reached == ([rule.endpoint] if may else []), (method, path)
            led = method == "GET" and not rule.endpoint.startswith("api")
            refused = 403 if role else 303 if led else 401
            assert code == (200 if may else refused), (method, path)


def test_what_is_refused_says_whom_to_ask(signed_in):
    client = signed_in("reads")
    answer = client.get("/drills/new")
    assert answer.status_code == 403
    assert labels.ACCOUNT_VIEW_ONLY in answer.text
    answer = client.post("/sign-in", headers={"Origin": "https://elsewhere.example"})
    assert labels.FROM_ANOTHER_SITE in answer.text


def test_a_role_counts_at_once(signed_in, book, three):
    client = signed_in("works")
    assert client.get("/drills/new").status_code == 200
    book.people.change_role(three["works"].id, "reads")
    assert client.get("/drills/new").status_code == 403


@pytest.mark.parametrize("role", ["reads", "works"])
def test_no_button_leads_to_a_refusal(role):
    """Every link and form of every page of the demo book, as each role sees them."""
    from evenstand.web.run.app import create_app
    from evenstand.web.site.settings import Settings

    with open_book(":memory:", device="shed", who="Ada") as book:
        fill(book)
        client = create_app(book, settings=Settings(role=role)).test_client()
        refused = refusals(client)
    assert refused == []


def test_what_a_role_may_is_shown(visitor, signed_in, book):
    job = visitor_job(book)
    shown = {}
    for role in EACH:
        client = signed_in(role)
        page = unescape("".join(client.get(path).text for path in (job, "/settings", "/drills")))
        words = ("Change this job", "New drill", "Import what's new", "Who can use this book")
        shown[role] = [word in page for word in words]
    assert shown == {
        "reads": [False] * 4,
        "works": [True, True, False, False],
        "keeps": [True] * 4,
    }
