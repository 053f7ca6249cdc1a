"""``evenstand serve``: on a book or on an invented copy; for others, once they must sign in."""

from shlex import quote

import pytest
from click.testing import CliRunner

from evenstand.book.opening import open_book
from evenstand.cli.office import Office
from evenstand.cli.serve import serve as command

ALONE = ("http://127.0.0.1:8090/", ())


@pytest.fixture
def where(tmp_path):
    return tmp_path / "of mine" / "book.evenstand"


@pytest.fixture
def serve(where):
    """Run the command with a server that says it listens, and ends at once."""

    def serve(*arguments, at=ALONE):
        seen = {}

        def run(book, *, ready, **given):
            seen.update(given, counts=book.counts(), who=book.who)
            ready(*at)

        given = ["--book", str(where), "--no-browser", *arguments]
        return CliRunner().invoke(command, given, obj=Office(run, None)), seen

    return serve


@pytest.fixture
def ada(where):
    """Somebody with an account in the book."""
    pytest.importorskip("argon2", reason="needs argon2-cffi")
    where.parent.mkdir()
    with open_book(where, device="shed") as book:
        book.people.add("Ada", "rain on dry clods", role="keeps")


def test_a_book_is_begun_where_there_is_none(serve, where):
    done, seen = serve()
    assert done.exit_code == 0, done.output
    assert done.stdout == "The book: http://127.0.0.1:8090/\nStop with Ctrl-C.\n"
    assert seen["counts"] == {}
    assert (seen["host"], seen["port"], seen["invented"]) == ("127.0.0.1", 8090, False)
    assert where.is_file()


def test_the_demo_is_a_copy_and_says_that_it_is_invented(serve, where):
    done, seen = serve("--demo", "--port", "0")
    assert "Demo book; discarded when this stops" in done.stdout
    assert seen["invented"] is True
    assert seen["counts"]["drill"] == 3
    assert not where.parent.exists()


STRANGERS = [
    ("--host", "0.0.0.0"),
    ("--host", "192.168.1.20"),
    ("--host", "::"),
    ("--host", "barn.example"),
    ("--host", ""),
    ("--behind-proxy", "https://drills.example"),
]


@pytest.mark.parametrize("given", STRANGERS)
def test_strangers_are_kept_out_until_there_is_an_account(serve, where, given):
    done, seen = serve(*given)
    assert done.exit_code == 2
    assert done.stderr.startswith("Error: --host")
    assert f"evenstand people add NAME --book {quote(str(where))}" in done.stderr
    assert seen == {}
    assert not where.exists()


def test_a_book_without_accounts_lets_no_stranger_in_either(serve, where):
    serve()
    done, seen = serve("--host", "0.0.0.0")
    assert done.exit_code == 2
    assert "make an account first" in done.stderr
    assert seen == {}


@pytest.mark.usefixtures("ada")
@pytest.mark.parametrize("given", STRANGERS)
def test_with_an_account_others_are_let_in(serve, given):
    done, seen = serve(*given)
    assert done.exit_code == 0, done.stderr
    assert seen[given[0].strip("-").replace("behind-", "")] == given[1]


@pytest.mark.usefixtures("ada")
@pytest.mark.parametrize("given", STRANGERS)
def test_the_demo_is_for_this_computer_alone(serve, given):
    done, seen = serve("--demo", *given)
    assert done.exit_code == 2
    assert "the demo book has no accounts" in done.stderr
    assert seen == {}


@pytest.mark.usefixtures("ada")
@pytest.mark.parametrize(
    "address", ["drills.example", "ftp://drills.example", "https://", "https://drills.example/x"]
)
def test_a_proxy_has_the_address_of_a_whole_site(serve, address):
    done, _ = serve("--behind-proxy", address)
    assert done.exit_code == 2
    assert "the full address of a site" in done.stderr


OTHERS = ("http://192.168.1.20:8090/", "http://10.0.0.7:8090/")


@pytest.mark.usefixtures("ada")
def test_others_are_told_where_and_that_it_is_not_encrypted(serve):
    done, _ = serve("--host", "0.0.0.0", at=(ALONE[0], OTHERS))
    assert all(f"\n  {address}\n" in done.stdout for address in OTHERS)
    assert "not encrypted" in done.stdout
    done, _ = serve("--host", "0.0.0.0", at=(ALONE[0], ("https://drills.example/",)))
    assert "not encrypted" not in done.stdout


def test_the_code_in_the_terminal_is_that_of_the_address():
    """Read back module by module, against the matrix of the code."""
    segno = pytest.importorskip("segno")
    from evenstand.cli.serve import to_scan

    halves = {" ": (1, 1), "▀": (0, 1), "▄": (1, 0), "█": (0, 0)}
    read = []
    for line in to_scan(OTHERS[0]):
        pairs = [halves[each] for each in line]
        read += [[upper for upper, _ in pairs], [lower for _, lower in pairs]]
    made = segno.make(OTHERS[0], error="m", micro=False)
    meant = [list(row) for row in made.matrix_iter(border=4)]
    assert [row[: len(meant)] for row in read[: len(meant)]] == meant


def test_a_file_that_is_no_book(serve, where):
    where.parent.mkdir()
    where.write_text("no book")
    done, _ = serve()
    assert done.exit_code == 2
    assert "not a database" in done.stderr


def test_the_invented_pool_plays_the_same_each_time():
    from evenstand.demo.book import fill

    said = []
    for device in ("one", "two"):
        with open_book(":memory:", device=device) as book:
            fill(book)
            said.append([thing.body.bags for thing in book.things("catch")])
            for drill in book.things("drill"):
                assert "Made up" in drill.body.note
    assert said[0] == said[1]
