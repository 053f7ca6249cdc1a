"""What is written is read back, and a file is never half written."""

import tomllib
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.tasks.job.writer import Journal, dump, save

TEXTS = st.text(st.characters(codec="utf-8"), max_size=20)
SCALARS = TEXTS | st.booleans() | st.integers(-(2**60), 2**60) | st.floats(allow_nan=False)
VALUES = SCALARS | st.lists(st.lists(SCALARS, max_size=3) | SCALARS, max_size=3)
INNER = st.dictionaries(TEXTS, VALUES, max_size=4)
TABLES = st.recursive(
    INNER,
    lambda inner: st.dictionaries(
        TEXTS, inner | VALUES | st.lists(inner, min_size=1, max_size=3), max_size=4
    ),
    max_leaves=8,
)

NAMES = st.sampled_from(("drill", "scale", "gears", "catch", "net"))
JOB_TABLES = st.recursive(
    st.dictionaries(NAMES, st.integers(0, 2) | st.just("8 oz") | st.just([[30, "48 lb/ac"]])),
    lambda inner: st.dictionaries(NAMES, inner | st.lists(inner, min_size=1, max_size=3)),
    max_leaves=6,
)


@given(st.dictionaries(TEXTS, TABLES | st.lists(TABLES, min_size=1, max_size=3), max_size=4))
def test_toml_is_read_back_the_same(file):
    assert tomllib.loads(dump(file)) == file


FILES = st.dictionaries(NAMES, JOB_TABLES | st.lists(JOB_TABLES, min_size=1, max_size=3))


@given(FILES, st.lists(FILES, max_size=2))
def test_whatever_a_file_said_it_says_what_was_answered_last(before, answers):
    with TemporaryDirectory() as folder:
        place = Path(folder) / "a.toml"
        journal = Journal(place, dump(before))
        for said in (before, *answers):
            journal.keep(said)
            assert tomllib.loads(place.read_text(encoding="utf-8")) == said


def test_a_file_reads_as_a_person_would_write_it():
    file = {
        "drill": {"rows": 20, "scale": {"low": 0, "reversed": False}, "gears": [{"name": "full"}]},
        "chart": {"points": [[30, "54 lb/ac"]]},
    }
    assert dump(file) == (
        "[drill]\nrows = 20\n\n[drill.scale]\nlow = 0\nreversed = false\n\n"
        '[[drill.gears]]\nname = "full"\n\n[chart]\npoints = [[30, "54 lb/ac"]]\n'
    )


def test_a_file_is_replaced_whole(tmp_path):
    place = tmp_path / "a.toml"
    save(place, "one = 1\n")
    save(place, "two = 2\n")
    assert place.read_text() == "two = 2\n"
    assert list(tmp_path.iterdir()) == [place]


def test_a_file_that_cannot_be_written_leaves_the_old_one(tmp_path):
    place = tmp_path / "a.toml"
    save(place, "one = 1\n")
    with pytest.raises(UnicodeEncodeError):
        save(place, "\ud800")
    assert place.read_text() == "one = 1\n"


def test_a_link_stays_a_link(tmp_path):
    (tmp_path / "true.toml").write_text("")
    link = tmp_path / "link.toml"
    link.symlink_to(tmp_path / "true.toml")
    save(link, "one = 1\n")
    assert link.is_symlink()
    assert (tmp_path / "true.toml").read_text() == "one = 1\n"


@pytest.fixture
def journal(tmp_path):
    def journal(before):
        place = tmp_path / "a.toml"
        place.write_text(before)
        return Journal(place, before), place

    return journal


def test_catches_are_added_to_what_stands(journal):
    before = '# Mine\n[drill]\nrows = 20 # openers\n[[catch]]\nnet = "8 oz"'
    book, place = journal(before)
    book.keep({"drill": {"rows": 20}, "catch": [{"net": "8 oz"}, {"net": "9 oz"}]})
    assert place.read_text() == before + '\n\n[[catch]]\nnet = "9 oz"\n'
    book.keep({"drill": {"rows": 20}, "catch": [{"net": "8 oz"}]})
    assert place.read_text() == before + "\n"


@pytest.mark.parametrize(
    ("changed", "left"),
    [
        ({"drill": {"rows": 24}, "catch": [{"net": "8 oz"}]}, ("20 #", "24 #")),
        ({"drill": {"rows": 20}, "catch": [{"net": "7 oz"}]}, ("8 oz", "7 oz")),
        ({"drill": {"rows": 20}, "catch": []}, ('[[catch]]\nnet = "8 oz" # spilled\n', "")),
        (
            {"drill": {"rows": 20}, "catch": [{"net": "8 oz"}], "target": {"rate": "1 lb/ac"}},
            ("spilled\n", 'spilled\n\n[target]\nrate = "1 lb/ac"\n'),
        ),
    ],
)
def test_remarks_stay_where_an_answer_takes_another_s_place(journal, changed, left):
    before = '# Mine\n[drill]\nrows = 20 # openers\n[[catch]]\nnet = "8 oz" # spilled\n'
    book, place = journal(before)
    book.keep(changed)
    assert place.read_text() == before.replace(*left)
    assert tomllib.loads(place.read_text()) == {k: v for k, v in changed.items() if v}


def test_a_list_of_catches_in_one_line_is_not_added_to(journal):
    book, place = journal('catch = [{net = "8 oz"}]\n')
    book.keep({"catch": [{"net": "8 oz"}, {"net": "9 oz"}]})
    assert len(tomllib.loads(place.read_text())["catch"]) == 2
