"""``evenstand people``: accounts, said at the computer where the book lies."""

import json
from pathlib import Path

import pytest

from evenstand.book.errors import BookError
from evenstand.book.opening import open_book
from evenstand.book.people import attempts, passwords

GOOD, FRESH = "rain on dry clods\n", "frost on wet clods\n"
WHERE = ("--book", "the-book")


@pytest.fixture(autouse=True)
def cheap(monkeypatch):
    """Argon2 at the least cost."""
    argon2 = pytest.importorskip("argon2", reason="needs argon2-cffi")
    least = argon2.PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
    monkeypatch.setattr(passwords, "_hasher", lambda: least)


@pytest.fixture
def people(run):
    """Run a command on one book."""

    def people(*arguments, answers=None):
        done = run("people", *arguments, *WHERE, answers=answers)
        assert done.exit_code == 0, done.stderr
        return done.stdout

    return people


def sign_in(name, password):
    with open_book("the-book", device="shed") as book:
        return book.people.sign_in(name, password.strip(), address="10.0.0.1")


def test_the_first_account_keeps_the_next_ones_work(people, document):
    said = people("add", "Ada", answers=GOOD)
    assert said.startswith("Ada has an account: owner, ")
    people("add", "Ben", answers=GOOD)
    people("add", "Cid", "--role", "reads", answers=GOOD)
    assert document("people", "list", *WHERE) == {
        "people": [
            {"name": "Ada", "role": "keeps"},
            {"name": "Ben", "role": "works"},
            {"name": "Cid", "role": "reads"},
        ]
    }
    assert people("list").splitlines()[2] == "Cid: view only, looks at everything"


def test_what_is_done_to_accounts_is_in_the_security_log(people, document):
    people("add", "Ada", answers=GOOD)
    people("add", "Ben", answers=GOOD)
    people("role", "Ben", "view only")
    people("password", "Ben", answers=FRESH)
    people("remove", "--all")
    [file] = Path().glob("the-book*.log")
    lines = [json.loads(line) for line in file.read_text("utf-8").splitlines()]
    assert [(line["event"], line.get("role")) for line in lines] == [
        ("add account", "keeps"),
        ("add account", "works"),
        ("change role", "reads"),
        ("change password", None),
        ("remove account", None),
        ("remove account", None),
    ]
    assert {line["from"] for line in lines} == {"command line"}
    assert lines[1]["person"] == lines[2]["person"] == lines[3]["person"]
    assert not any(word in file.read_text("utf-8") for word in ("clods", "Ada", "Ben"))


def test_a_book_without_accounts_says_so(people, run):
    run("book", "import", "none.zip", *WHERE)
    assert "anyone at this computer has full access" in people("list")


def test_a_forgotten_password_is_replaced_and_nobody_has_to_wait(people):
    people("add", "Ada", answers=GOOD)
    for _ in range(attempts.FREE_NAME):
        with pytest.raises(BookError):
            sign_in("Ada", "wrong")
    assert people("password", "ada", answers=FRESH) == "Ada has a new password.\n"
    assert sign_in("Ada", FRESH)
    with pytest.raises(BookError):
        sign_in("Ada", GOOD)


def test_a_password_is_asked_for_twice_and_never_shown(people, monkeypatch):
    from click import testing

    monkeypatch.setattr(testing._NamedTextIOWrapper, "isatty", lambda self: True, raising=False)
    said = people("add", "Ada", answers=GOOD + FRESH + GOOD + GOOD)
    assert GOOD.strip() not in said
    assert sign_in("Ada", GOOD)


def test_roles_and_removal(people, refusal, document):
    people("add", "Ada", answers=GOOD)
    people("add", "Ben", answers=GOOD)
    assert refusal("people", "role", "Ada", "works", *WHERE)["field"] == "role"
    assert refusal("people", "remove", "Ada", *WHERE)["field"] == "name"
    assert people("role", "Ben", "keeps").startswith("Ben: owner,")
    assert people("remove", "Ada") == "Ada has no account any more.\n"
    assert document("people", "remove", "--all", *WHERE) == {
        "removed": [{"name": "Ben", "role": "keeps"}]
    }
    assert document("people", "list", *WHERE) == {"people": []}


@pytest.mark.parametrize("given", [(), ("Ada", "--all")])
def test_one_name_or_all_are_removed(people, refusal, given):
    people("add", "Ada", answers=GOOD)
    assert "enter one name, or --all" in refusal("people", "remove", *given, *WHERE)["need"]


def test_what_is_refused_changes_nothing(people, run, refusal):
    people("add", "Ada", answers=GOOD)
    for arguments in (("password", "Eve"), ("role", "Eve", "reads"), ("remove", "Eve")):
        assert refusal("people", *arguments, *WHERE)["field"] == "name"
    assert refusal("people", "add", "Ben", *WHERE)["field"] == "password"  # no input
    done = run("people", "add", "Ben", *WHERE, answers="short\n")
    assert (done.exit_code, "at least 10 characters" in done.stderr) == (2, True)
    assert "short" not in done.stderr
    assert people("list").count("\n") == 1


def test_no_book_is_begun_by_looking(refusal, tmp_path):
    assert refusal("people", "list", *WHERE)["field"] == "book"
    assert not (tmp_path / "the-book").exists()


@pytest.mark.parametrize(
    ("typed", "saved"),
    [("owner", "keeps"), ("crew", "works"), ("view only", "reads"), ("view-only", "reads")]
    + [(role, role) for role in ("keeps", "works", "reads")],
)
def test_a_role_is_typed_as_it_is_read_or_as_it_is_saved(people, document, *, typed, saved):
    people("add", "Ada", answers=GOOD)
    people("add", "Ben", "--role", typed, answers=GOOD)
    people("role", "Ben", typed)
    assert document("people", "list", *WHERE)["people"][1] == {"name": "Ben", "role": saved}


def test_a_role_that_is_none_is_refused_with_those_there_are(refusal):
    error = refusal("people", "add", "Ben", "--role", "boss", *WHERE)
    assert error["field"] == "--role"
    assert all(role in error["need"] for role in ("owner", "crew", "view only"))
