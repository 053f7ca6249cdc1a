"""What a browser is told, and whose requests are refused."""

import pytest

PAGES = (
    "/",
    "/drills",
    "/drills/new",
    "/seed",
    "/pool",
    "/settings",
    "/nowhere",
    "/static/turns.js",
)


@pytest.mark.parametrize("path", PAGES)
def test_every_answer_carries_the_headers(client, path):
    with client.get(path) as answer:
        headers = answer.headers
    policy = dict(part.split(" ", 1) for part in headers["Content-Security-Policy"].split("; "))
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == policy["style-src"] == "'self'"
    assert policy["frame-ancestors"] == "'none'"
    assert headers["X-Content-Type-Options"] == "nosniff"
    # With no-referrer a browser would send its own forms as from nowhere.
    assert headers["Referrer-Policy"] == "same-origin"


def test_no_page_has_script_or_style_in_itself(visitor):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    drill = visitor.read(job).links
    for path in (
        job,
        f"{job}/calibrate",
        f"{job}/edit",
        *(x for x in drill if x.startswith("/drills/")),
    ):
        html = visitor.read(path).html
        assert " style=" not in html
        assert "<style" not in html
        assert " onclick=" not in html
        assert html.count("<script") == html.count("<script src=")


@pytest.mark.parametrize(
    "headers",
    [
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Origin": "https://elsewhere.example"},
        {"Origin": "null"},
        {"Origin": "http://localhost:9999"},
        {"Sec-Fetch-Site": "same-origin", "Origin": "https://elsewhere.example"},
    ],
)
def test_what_another_site_sends_is_refused(client, visitor, headers):
    answer = client.post("/drills/new", data=dict(visitor.HERON), headers=headers)
    assert answer.status_code == 403
    assert "from another site" in answer.text
    assert visitor.book.things("drill") == []


def test_what_the_pages_send_is_taken(client, visitor):
    own = {"Sec-Fetch-Site": "same-origin", "Origin": "http://localhost"}
    assert client.post("/drills/new", data=dict(visitor.HERON), headers=own).status_code == 303


def test_a_page_may_be_opened_from_another_site(client):
    assert client.get("/", headers={"Sec-Fetch-Site": "cross-site"}).status_code == 200


def test_asked_for_under_another_name_nothing_is_told(client, visitor):
    visitor.heron()
    for host in ("elsewhere.example", "localhost.elsewhere.example"):
        answer = client.get("/drills", headers={"Host": host})
        assert answer.status_code == 400
        assert "Heron" not in answer.text
    assert client.get("/", headers={"Host": "127.0.0.1:8090"}).status_code == 200


def test_too_large_a_form_is_refused(client):
    answer = client.post("/drills/new", data={"note": "x" * 3_000_000})
    assert answer.status_code == 413


def test_nothing_is_changed_by_looking(client, visitor, book):
    job = visitor.job()
    before = book.entries().cursor
    for path in (f"{job}/remove", f"{job}/calibrate/choose", "/settings/import", "/settings/check"):
        assert client.get(path).status_code in (404, 405)
    assert book.entries().cursor == before


def test_what_people_typed_is_text(visitor):
    drill = visitor.heron(name="<script>alert(1)</script>", note="<b>bold</b>")
    for path in (drill, "/drills", "/pool", f"{drill}/label", f"{drill}/edit"):
        page = visitor.read(path)
        assert "<script>alert" not in page.html
        assert "<b>" not in page.html


def test_an_invented_book_says_so_on_every_page(book):
    from evenstand.web.run.app import create_app
    from evenstand.web.site.settings import Settings

    client = create_app(book, settings=Settings(invented=True)).test_client()
    for path in PAGES[:-1]:  # not the script
        assert "Demo book, made up: the Tamarack Flats drill pool." in client.get(path).text
