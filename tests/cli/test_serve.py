"""``evenstand serve``: for this computer alone, on its book or on an invented copy."""

import pytest
from click.testing import CliRunner

from evenstand.book.opening import open_book
from evenstand.cli.serve import serve_command


@pytest.fixture
def serve(tmp_path):
    """Run the command with a server that says it listens, and ends at once."""

    def serve(*arguments):
        seen = {}

        def run(book, *, ready, **given):
            seen.update(given, counts=book.counts(), who=book.who)
            ready("http://127.0.0.1:8090/")

        where = ("--book", str(tmp_path / "of mine" / "book.evenstand"))
        done = CliRunner().invoke(serve_command(run), [*where, "--no-browser", *arguments])
        return done, seen

    return serve


def test_a_book_is_begun_where_there_is_none(serve, tmp_path):
    done, seen = serve()
    assert done.exit_code == 0, done.output
    assert "The book: http://127.0.0.1:8090/" in done.stdout
    assert seen["counts"] == {}
    assert (seen["host"], seen["port"], seen["invented"]) == ("127.0.0.1", 8090, False)
    assert (tmp_path / "of mine" / "book.evenstand").is_file()


def test_the_demo_is_a_copy_and_says_that_it_is_invented(serve, tmp_path):
    done, seen = serve("--demo", "--port", "0")
    assert "An invented book, gone when this ends" in done.stdout
    assert seen["invented"] is True
    assert (seen["counts"]["drill"], seen["counts"]["job"], seen["counts"]["setting"]) == (3, 2, 1)
    assert not (tmp_path / "of mine").exists()


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.1.20", "::", "barn.example"])
def test_strangers_are_kept_out_until_there_are_accounts(serve, host):
    done, seen = serve("--host", host)
    assert done.exit_code == 2
    assert "no accounts yet" in done.stderr
    assert "--host" in done.stderr
    assert seen == {}


def test_a_file_that_is_no_book(serve, tmp_path):
    (tmp_path / "of mine").mkdir()
    (tmp_path / "of mine" / "book.evenstand").write_text("no book")
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
                assert "Invented" in drill.body.note
    assert said[0] == said[1]
