"""Accounts, sessions and attempts: what is let in, what is kept, what is exchanged."""

import re
import sqlite3
from contextlib import closing

import pytest

from evenstand.book.errors import BookError
from evenstand.book.exchange import export_book, import_file
from evenstand.book.kinds.work import Note
from evenstand.book.people import attempts, passwords, sessions
from evenstand.book.storage import migrations

GOOD = "rain on dry clods"
HERE = "192.168.1.20"


@pytest.fixture
def people(book):
    return book.people


@pytest.fixture
def ada(people):
    return people.add("Ada", GOOD, role="keeps")


@pytest.fixture(autouse=True)
def cheap(monkeypatch):
    """Argon2 at the least cost."""
    argon2 = pytest.importorskip("argon2", reason="needs argon2-cffi")
    least = argon2.PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
    monkeypatch.setattr(passwords, "_hasher", lambda: least)


def refused(work, *arguments, **options):
    with pytest.raises(BookError) as error:
        work(*arguments, **options)
    return error.value


def fail(people, times, *, name="Ada", address=HERE):
    for _ in range(times):
        error = refused(people.sign_in, name, "something else", address=address)
        assert not isinstance(error, attempts.TooManyError)


def test_without_accounts_nobody_is_known(people):
    assert (people.any(), people.all(), people.reader("")) == (False, [], None)
    assert "name and password do not match" in str(
        refused(people.sign_in, "Ada", GOOD, address=HERE)
    )


def test_the_first_account_keeps_the_book(people):
    error = refused(people.add, "Ben", GOOD, role="works")
    assert (error.field, people.any()) == ("role", False)
    people.add("Ada", GOOD, role="keeps")
    people.add("Ben", GOOD, role="works")
    assert [(one.name, one.role) for one in people.all()] == [("Ada", "keeps"), ("Ben", "works")]


def test_each_role_may_what_those_before_it_may(people, ada):
    ben = people.add("Ben", GOOD, role="works")
    cid = people.add("Cid", GOOD, role="reads")
    assert [[one.may(role) for role in ("reads", "works", "keeps")] for one in (ada, ben, cid)] == [
        [True, True, True],
        [True, True, False],
        [True, False, False],
    ]


def test_a_name_is_one_in_small_letters_and_large(people, ada):
    assert refused(people.add, " ADA ", GOOD, role="reads").field == "name"
    assert people.find("ada") == ada
    assert refused(people.find, "Ben").field == "name"


@pytest.mark.parametrize("name", ["", " ", "a\x00b", "x" * 81, "\u202eAda"])
def test_a_name_that_nobody_can_read(people, name):
    assert refused(people.add, name, GOOD, role="keeps").field == "name"


@pytest.mark.parametrize("password", ["", "ninechars", "aaaaaaaaaaaa", "abababababab", "x" * 1001])
def test_a_password_that_is_too_weak_is_refused_and_never_repeated(people, password):
    error = refused(people.add, "Ada", password, role="keeps")
    assert (error.field, error.given) == ("password", None)
    assert not password or password not in str(error.need)


@pytest.mark.parametrize(
    "password", ["tencharact", "only small letters", "contraseña larga", "日本語の長い合言葉です"]
)
def test_no_rule_says_which_characters(people, password):
    people.add("Ada", password, role="keeps")
    assert people.sign_in("Ada", password, address=HERE)


def test_one_password_however_it_is_composed(people):
    people.add("Ada", "caf\u00e9 on clods", role="keeps")
    assert people.sign_in("Ada", "cafe\u0301 on clods", address=HERE)


def test_a_password_is_kept_as_argon2id_at_the_library_s_own_cost(people, book, monkeypatch):
    monkeypatch.undo()
    people.add("Ada", GOOD, role="keeps")
    [(kept,)] = book._store.ask("SELECT password FROM account")
    argon2 = pytest.importorskip("argon2")
    assert kept.startswith("$argon2id$v=19$")
    assert argon2.extract_parameters(kept) == argon2.profiles.get_default_parameters()
    assert GOOD not in kept


@pytest.mark.usefixtures("ada")
def test_a_password_kept_at_another_cost_is_kept_anew(book):
    people, argon2 = book.people, pytest.importorskip("argon2")
    cheap = argon2.PasswordHasher(time_cost=1, memory_cost=64).hash(GOOD)
    book._store.ask("UPDATE account SET password = ?", cheap)
    people.sign_in("Ada", GOOD, address=HERE)
    [(kept,)] = book._store.ask("SELECT password FROM account")
    assert not passwords.is_outdated(kept)
    assert people.sign_in("Ada", GOOD, address=HERE)


def test_a_session_is_kept_as_a_hash_and_is_new_each_time(book, people, ada):
    tokens = {people.sign_in("Ada", GOOD, address=HERE) for _ in range(3)}
    assert {len(bytes.fromhex(token)) for token in tokens} == {32}
    assert len(tokens) == 3
    kept = book._store.ask("SELECT sha256 FROM session")
    assert not {bytes.fromhex(token) for token in tokens} & {hash for (hash,) in kept}
    assert all(people.reader(token) == ada for token in tokens)


def test_a_session_ends_after_its_time(people, ada, clock):
    token, begun = people.sign_in("Ada", GOOD, address=HERE), clock.ms
    for days in (6, 12, 18, 24):
        clock.ms = begun + days * 24 * sessions.HOUR
        assert people.reader(token) == ada
    clock.ms = begun + sessions.LASTS - 1
    assert people.reader(token) == ada
    clock.ms += 1
    assert people.reader(token) is None


@pytest.mark.usefixtures("ada")
def test_a_session_whose_time_is_over_is_dropped(book, clock):
    book.people.sign_in("Ada", GOOD, address=HERE)
    clock.ms += sessions.LASTS
    book.people.sign_in("Ada", GOOD, address=HERE)
    assert len(book._store.ask("SELECT 1 FROM session")) == 1


def test_signing_out_ends_one_session_a_new_password_all(people, ada):
    phone, shed = (people.sign_in("Ada", GOOD, address=HERE) for _ in "ab")
    people.sign_out(phone)
    assert (people.reader(phone), people.reader(shed)) == (None, ada)
    people.change_password(ada.id, "frost on wet clods")
    assert people.reader(shed) is None
    refused(people.sign_in, "Ada", GOOD, address=HERE)
    assert people.sign_in("Ada", "frost on wet clods", address=HERE)


def test_a_removed_account_is_signed_out(people, ada):
    ben = people.add("Ben", GOOD, role="works")
    token = people.sign_in("Ben", GOOD, address=HERE)
    people.remove(ben.id)
    assert people.reader(token) is None
    refused(people.get, ben.id)


def test_a_role_counts_from_now_on(people, ada):
    ben = people.add("Ben", GOOD, role="reads")
    token = people.sign_in("Ben", GOOD, address=HERE)
    people.change_role(ben.id, "keeps")
    assert people.reader(token).role == "keeps"


def test_the_last_one_who_keeps_stays(people, ada):
    people.add("Ben", GOOD, role="works")
    assert refused(people.remove, ada.id).field == "name"
    assert refused(people.change_role, ada.id, "works").field == "role"
    people.change_role(people.find("Ben").id, "keeps")
    people.change_role(ada.id, "works")
    people.remove(ada.id)
    assert [one.name for one in people.all()] == ["Ben"]
    people.remove_all()
    assert not people.any()


def test_an_unknown_name_is_told_as_a_wrong_password_is(people, ada, monkeypatch):
    """In the same sentence, after the same work."""
    argon2, work = pytest.importorskip("argon2"), []
    for name in ("hash", "verify"):
        true = getattr(argon2.PasswordHasher, name)

        def counted(self, *given, true=true, **options):
            work.append(self)
            return true(self, *given, **options)

        monkeypatch.setattr(argon2.PasswordHasher, name, counted)
    wrong = refused(people.sign_in, "Ada", "something else", address=HERE)
    unknown = refused(people.sign_in, "Eve", "something else", address=HERE)
    assert (wrong.field, str(wrong.need)) == (unknown.field, str(unknown.need))
    assert len(work) == 2


def test_failures_of_a_name_make_it_wait_longer_each_time(people, ada, clock):
    fail(people, attempts.FREE_NAME)
    for seconds in (1, 2, 4):
        for name in ("Ada", " ADA"):
            error = refused(people.sign_in, name, GOOD, address="10.0.0.9")
            assert (type(error), error.seconds) == (attempts.TooManyError, seconds)
        clock.ms += seconds * 1000
        fail(people, 1)
    clock.ms += 8000
    assert people.sign_in("Ada", GOOD, address=HERE)
    fail(people, attempts.FREE_NAME)  # forgotten with the success


def test_an_unknown_name_waits_as_a_known_one(people, ada):
    fail(people, attempts.FREE_NAME, name="Eve")
    assert refused(people.sign_in, "Eve", GOOD, address="10.0.0.9").seconds == 1


def test_failures_from_an_address_make_it_wait_under_any_name(people, ada):
    for i in range(attempts.FREE_ADDRESS):
        fail(people, 1, name=f"name {i}")
    assert refused(people.sign_in, "Ada", GOOD, address=HERE).seconds == 1
    assert people.sign_in("Ada", GOOD, address="192.168.1.21")


def test_ones_own_account_does_not_free_an_address(people, ada, clock):
    """Somebody with an account could else guess at others between two successes."""
    for i in range(attempts.FREE_ADDRESS):
        fail(people, 1, name=f"name {i}")
    clock.ms += 1000
    people.sign_in("Ada", GOOD, address=HERE)
    assert refused(people.sign_in, "Ada", GOOD, address=HERE).seconds == 1


def test_addresses_of_one_network_of_version_6_are_one(people, ada):
    for i in range(attempts.FREE_ADDRESS):
        fail(people, 1, name=f"name {i}", address=f"2001:db8::{i:x}")
    assert refused(people.sign_in, "Ada", GOOD, address="2001:db8::ffff").seconds == 1
    assert people.sign_in("Ada", GOOD, address="2001:db8:0:1::1")


@pytest.mark.usefixtures("ada")
def test_nobody_waits_longer_than_a_quarter_of_an_hour(book, clock):
    people = book.people
    fail(people, 1)
    book._store.ask("UPDATE attempt SET failed = 5000")
    assert refused(people.sign_in, "Ada", GOOD, address=HERE).seconds == 900
    clock.ms -= 7 * 24 * 3_600_000
    assert refused(people.sign_in, "Ada", GOOD, address=HERE).seconds == 900


def test_failures_are_forgotten_after_a_day_and_with_a_new_password(people, ada, clock):
    fail(people, attempts.FREE_NAME)
    people.change_password(ada.id, GOOD)
    fail(people, attempts.FREE_NAME)
    clock.ms += attempts.FORGOTTEN + 1
    fail(people, attempts.FREE_NAME)


def test_a_restart_forgets_no_failure(opened, tmp_path):
    with opened(tmp_path / "book") as book:
        book.people.add("Ada", GOOD, role="keeps")
        fail(book.people, attempts.FREE_NAME)
    again = opened(tmp_path / "book").people
    assert refused(again.sign_in, "Ada", GOOD, address="10.0.0.9").seconds == 1


def test_what_was_typed_as_a_name_is_not_kept(book, people, ada):
    """A password typed into the wrong field would else lie there to read."""
    fail(people, 1, name="my secret password")
    assert "secret" not in str(book._store.ask("SELECT * FROM attempt"))


@pytest.mark.usefixtures("ada")
def test_accounts_are_never_exchanged(opened, book, tmp_path):
    book.add(Note(of=book.new_id(), text="chain slipped"), by="Ada")
    export_book(book, tmp_path / "out.zip")
    other = opened(device="phone")
    import_file(other, tmp_path / "out.zip")
    assert other.counts() == {"note": 1}
    assert not other.people.any()
    assert GOOD.encode() not in (tmp_path / "out.zip").read_bytes()
    assert book.entries().entries == other.entries().entries


def test_a_book_of_the_release_before_gets_its_tables(opened, tmp_path):
    path = tmp_path / "book"
    opened(path).close()
    with closing(sqlite3.connect(path, isolation_level=None)) as file:
        later = [sql for step in migrations.STEPS[1:] for sql in step]
        made = re.findall(r"CREATE TABLE (\w+)", "".join(later))[::-1]
        for table in made:
            file.execute(f"DROP TABLE {table}")
        file.execute("DROP INDEX thing_clashes")
        for table, column in re.findall(r"ALTER TABLE (\w+) ADD COLUMN (\w+)", "".join(later)):
            if table not in made:
                file.execute(f"ALTER TABLE {table} DROP COLUMN {column}")
        file.execute("PRAGMA user_version = 1")
    assert not opened(path).people.any()


def test_a_clock_set_back_locks_nobody_out_for_longer(book, clock):
    book.people.add("Ada", "rain on dry clods", role="keeps")
    for _ in range(4):
        with pytest.raises(BookError):
            book.people.sign_in("Ada", "wrong", address="192.168.1.9")
    clock.ms -= 365 * 24 * 3_600_000
    with pytest.raises(BookError):
        book.people.sign_in("Ada", "rain on dry clods", address="192.168.1.9")
    clock.ms += 2_000
    assert book.people.sign_in("Ada", "rain on dry clods", address="192.168.1.9")


@pytest.mark.parametrize("phones", [False, True])
def test_a_new_password_disconnects_phones_where_asked(book, phones):
    ada = book.people.add("Ada", "rain on dry clods", role="keeps")
    _, key = book.devices.pair(book.devices.offer(account=ada.id, who="Ada"), "p", address=HERE)
    book.people.change_password(ada.id, "dry clods in rain", phones=phones)
    assert (book.devices.by_key(key) is None) == phones


def test_a_browser_that_is_known_does_not_wait_for_what_strangers_fail(people, ada):
    browser = people.remember(ada.id)
    fail(people, attempts.FREE_NAME)
    assert isinstance(refused(people.sign_in, "Ada", GOOD, address=HERE), attempts.TooManyError)
    assert people.sign_in("Ada", GOOD, address=HERE, browser=browser)


def test_a_known_browser_waits_for_what_it_fails_itself(people, ada):
    browser = people.remember(ada.id)
    for _ in range(attempts.FREE_NAME):
        error = refused(people.sign_in, "Ada", "x" * 12, address=HERE, browser=browser)
        assert not isinstance(error, attempts.TooManyError)
    error = refused(people.sign_in, "Ada", GOOD, address=HERE, browser=browser)
    assert isinstance(error, attempts.TooManyError)


@pytest.mark.parametrize("ends", ["password", "time", "another account"])
def test_a_browser_is_known_no_longer(people, clock, ends):
    ada = people.add("Ada", GOOD, role="keeps")
    browser = people.remember(ada.id)
    if ends == "password":
        people.change_password(ada.id, GOOD)
    if ends == "time":
        clock.ms += sessions.KNOWN
    if ends == "another account":
        browser = people.remember(people.add("Ben", GOOD, role="works").id)
    fail(people, attempts.FREE_NAME)
    error = refused(people.sign_in, "Ada", GOOD, address=HERE, browser=browser)
    assert isinstance(error, attempts.TooManyError)


def test_a_session_ends_when_it_was_not_used_for_a_week(people, ada, clock):
    used, unused = people.begin(ada.id), people.begin(ada.id)
    for _ in range(6):
        clock.ms += sessions.IDLE // 6
        assert people.reader(used) == ada
    assert people.reader(unused) is None
