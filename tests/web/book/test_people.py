"""Accounts on the pages: signing in, who may do what, and under whose name."""

import ast
import re
import subprocess
import sys
from html import unescape
from pathlib import Path

import pytest

import labels
from evenstand.book.people import attempts, sessions
from evenstand.demo.book import fill

GOOD = "rain on dry clods"
FRESH = "frost on wet clods"


pytestmark = pytest.mark.usefixtures("cheap_passwords")


def enter(client, name="Kim", password=GOOD, **more):
    return client.post("/sign-in", data={"name": name, "password": password, **more})


def cookie(answer):
    [found] = [x for x in answer.headers.getlist("Set-Cookie") if x.startswith("session=")]
    return found


class TestSigningIn:
    def test_without_accounts_nobody_signs_in(self, client):
        assert client.get("/drills/new").status_code == 200
        assert client.get("/sign-in").location == "/"

    def test_with_accounts_everybody_does_and_is_led_on(self, client, three):
        answer = client.get("/drills?x=1")
        assert (answer.status_code, answer.location) == (303, "/sign-in?next=/drills?x%3D1")
        page = client.get(answer.location)
        assert "<nav" not in page.text
        led = re.search(r'name="next" value="([^"]*)"', page.text)[1]
        assert enter(client, next=led).location == "/drills?x=1"
        assert "New drill" in client.get("/drills").text

    @pytest.mark.usefixtures("three")
    def test_a_form_that_is_sent_by_nobody_is_not_led_away(self, client, visitor, book):
        answer = client.post("/drills/new", data=dict(visitor.HERON))
        assert answer.status_code == 401
        assert "WWW-Authenticate" in answer.headers
        assert labels.SIGN_IN_FIRST in answer.text
        assert book.things("drill") == []

    def test_a_stranger_reads_nothing_of_the_book(self, client, three, book):
        drill = book.things("drill") or fill(book) or book.things("drill")
        for path in ("/nowhere", "/sign-in", f"/drills/{drill[0].id}", "/settings/export"):
            answer = client.get(path)
            assert answer.status_code in (200, 303, 404)
            assert "Heron" not in answer.text
            assert "Kim" not in answer.text

    @pytest.mark.parametrize(
        "led",
        [
            "https://elsewhere.example/",
            "//elsewhere.example/",
            "/\\elsewhere.example",
            "/\t/elsewhere.example",
            "\\\\elsewhere.example",
            "javascript:alert(1)",
            " /drills",
            "/ok\r\nSet-Cookie: x=1",
            "drills",
        ],
    )
    def test_it_leads_to_own_pages_only(self, client, three, led):
        assert enter(client, next=led).location == "/"
        client.delete_cookie("session")
        assert f'value="{led}"' not in client.get("/sign-in", query_string={"next": led}).text

    def test_the_cookie_is_for_these_pages_alone(self, client, three):
        parts = set(cookie(enter(client)).split("; ")[1:])
        assert {"HttpOnly", "SameSite=Lax", "Path=/", "Max-Age=2592000"} <= parts
        assert "Secure" not in parts
        answer = client.post(
            "/sign-in",
            data={"name": "Kim", "password": GOOD},
            base_url="https://localhost",
        )
        assert "Secure" in cookie(answer).split("; ")

    def test_a_session_that_was_foisted_on_somebody_is_not_taken_over(self, client, three, book):
        client.set_cookie("session", "f" * 64)
        token = cookie(enter(client)).split(";")[0].removeprefix("session=")
        assert token != "f" * 64
        assert book.people.reader("f" * 64) is None
        again = cookie(enter(client)).split(";")[0].removeprefix("session=")
        assert again != token
        assert book.people.reader(token) is None

    def test_a_session_ends(self, client, three, book):
        enter(client)
        book.people._sessions._clock = lambda: book._clock() + sessions.LASTS
        assert client.get("/drills").status_code == 303

    def test_signing_out(self, client, three, book):
        token = cookie(enter(client)).split(";")[0].removeprefix("session=")
        answer = client.post("/sign-out")
        assert answer.location == "/sign-in"
        assert "Max-Age=0" in cookie(answer)
        assert book.people.reader(token) is None
        assert client.get("/drills").status_code == 303

    def test_nothing_that_was_typed_as_a_password_comes_back(self, client, three):
        answer = enter(client, password="wrong but long")
        assert answer.status_code == 422
        assert "wrong but long" not in answer.text
        assert 'value="Kim"' in answer.text
        unknown = enter(client, name="Eve", password="wrong but long")
        assert unknown.text.replace('"Eve"', '"Kim"').replace("word Eve", "word Kim") == answer.text

    def test_after_many_failures_it_waits(self, client, three):
        for _ in range(attempts.FREE_NAME):
            enter(client, password="wrong")
        answer = enter(client)
        assert answer.status_code == 429
        assert answer.headers["Retry-After"] == "1"
        assert re.search(labels.WAIT_AND_TRY_AGAIN.like(n=1), answer.text.replace("\u00a0", " "))

    def test_what_was_read_is_not_kept_by_the_browser(self, signed_in):
        client = signed_in("reads")
        for path in ("/", "/settings/export"):
            assert client.get(path).headers["Cache-Control"] == "no-store"

    def test_where_others_reach_the_pages_nobody_is_let_in_without_an_account(self, book):
        from evenstand.web.run.app import create_app
        from evenstand.web.site.settings import Settings

        client = create_app(book, settings=Settings(shared=True)).test_client()
        assert client.get("/drills").status_code == 303
        assert client.get("/sign-in").status_code == 200
        sent = {"name": "Eve", "password": GOOD, "again": GOOD, "role": "keeps"}
        assert client.post("/people", data=sent).status_code == 401
        assert not book.people.any()


WRITES = ("add", "correct", "remove")


class TestNames:
    def test_entries_carry_the_name_of_the_account(self, signed_in, visitor, book):
        signed_in("works")
        visitor.client.set_cookie("who", "Somebody else")
        job = visitor.job()
        visitor.send(f"{job}/calibrate", visitor.LIGHT)
        catch = book.things("catch")[0].id
        visitor.send(f"/catches/{catch}", {**visitor.LIGHT, "turns": "21"})
        visitor.send(f"/catches/{catch}/remove", {})
        assert {entry.by for entry in book.entries().entries} == {"Wim"}

    def test_nothing_is_written_without_saying_who(self):
        """Every call that writes an entry, in every module of the pages, names its writer."""
        from evenstand import web

        calls = []
        for file in Path(web.__file__).parent.rglob("*.py"):
            for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                    of = ast.unparse(node.func.value)
                    if node.func.attr in WRITES and of in ("book", "here.book()"):
                        calls.append((file.name, {each.arg for each in node.keywords}))
        assert len(calls) >= 4
        assert [file for file, named in calls if "by" not in named] == []

    def test_the_book_page_says_who_is_signed_in(self, signed_in):
        page = signed_in("works").get("/settings").text
        assert re.search(labels.SIGNED_IN_AS_CREW.like(name="Wim"), page)
        assert labels.SAVE_THIS_NAME not in page


class TestPeople:
    def test_the_first_account_is_made_here_and_signs_in(self, client, book):
        assert labels.NO_ACCOUNT_NEEDED in unescape(client.get("/people").text)
        sent = {"name": "Kim", "role": "keeps", "password": GOOD, "again": "something else"}
        answer = client.post("/people", data=sent)
        assert answer.status_code == 422
        assert labels.PASSWORDS_DIFFER in unescape(answer.text)
        assert GOOD not in answer.text
        answer = client.post("/people", data=sent | {"again": GOOD})
        assert answer.location == "/people"
        assert "Kim" in client.get("/people").text
        client.delete_cookie("session")
        assert client.get("/people").status_code == 303

    def test_more_people_with_what_they_may_do(self, signed_in, book):
        client = signed_in("keeps")
        sent = {"name": "Ben", "role": "works", "password": FRESH}
        assert client.post("/people", data=sent).location == "/people"
        assert book.people.find("Ben").role == "works"
        assert book.people.sign_in("Ben", FRESH, address="10.0.0.1")

    @pytest.mark.parametrize(
        ("field", "text"),
        [("name", "kim"), ("name", ""), ("password", "short"), ("role", "owns"), ("role", "")],
    )
    def test_what_is_wrong_stands_at_its_field(self, signed_in, field, text):
        client = signed_in("keeps")
        sent = {"name": "Ben", "role": "works", "password": FRESH, field: text}
        answer = client.post("/people", data=sent)
        assert answer.status_code == 422
        assert f'href="#f-{field}"' in answer.text
        assert FRESH not in answer.text

    def test_a_role_a_password_and_an_end(self, signed_in, book, three):
        client, wim = signed_in("keeps"), three["works"]
        client.post(f"/people/{wim.id}/role", data={"role": "reads"})
        assert book.people.get(wim.id).role == "reads"
        client.post(f"/people/{wim.id}/password", data={"password": FRESH})
        assert book.people.sign_in("Wim", FRESH, address="10.0.0.1")
        client.post(f"/people/{wim.id}/remove")
        assert [one.name for one in book.people.all()] == ["Kim", "Rosa"]
        assert client.post(f"/people/{wim.id}/remove").status_code == 404

    def test_a_new_password_of_ones_own_keeps_one_signed_in(self, signed_in, book, three):
        client, kim = signed_in("keeps"), three["keeps"]
        client.post(f"/people/{kim.id}/password", data={"password": FRESH})
        assert client.get("/people").status_code == 200

    @pytest.mark.parametrize("last", [("role", {"role": "reads"}), ("remove", {})])
    def test_the_last_one_who_keeps_stays(self, signed_in, book, last):
        (what, sent), client, kim = last, signed_in("keeps"), book.people.find("Kim")
        answer = client.post(f"/people/{kim.id}/{what}", data=sent)
        assert answer.status_code == 422
        assert labels.ONLY_OWNER(name="Kim") in answer.text

    def test_ones_own_password(self, signed_in, book, three):
        client = signed_in("reads")
        phone = book.people.begin(three["reads"].id)
        sent = {"old": "wrong", "password": FRESH, "again": FRESH}
        for wrong, field in (
            (sent, "old"),
            (sent | {"old": GOOD, "again": "x"}, "again"),
            (sent | {"old": GOOD, "password": "short", "again": "short"}, "password"),
        ):
            answer = client.post("/password", data=wrong)
            assert answer.status_code == 422
            assert f'id="f-{field}-wrong"' in answer.text
        assert client.post("/password", data=sent | {"old": GOOD}).location == "/settings"
        assert client.get("/drills").status_code == 200
        assert book.people.reader(phone) is None
        assert book.people.sign_in("Rosa", FRESH, address="10.0.0.1")

    def test_an_owner_without_an_account_has_no_password(self, client):
        assert client.get("/password").status_code == 404


def test_without_its_library_there_are_no_accounts_but_the_book_opens():
    script = """
import sys
sys.modules["argon2"] = None
from evenstand.book.opening import open_book
from evenstand.book.errors import BookError
from evenstand.web.run.app import create_app
with open_book(":memory:", device="phone", who="Ada") as book:
    client = create_app(book).test_client()
    print(client.get("/").status_code, client.get("/people").status_code)
    sent = {"name": "Ada", "role": "keeps"}
    sent["password"] = sent["again"] = "rain on dry clods"
    answer = client.post("/people", data=sent)
    print(answer.status_code, "this copy is for one person" in answer.text, book.people.any())
"""
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True)
    assert done.stdout.split() == ["200", "200", "422", "True", "False"], done.stderr
