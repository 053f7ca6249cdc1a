"""What `make quick` tests: the rooms that changed, and no test that takes its time."""

import runpy
from pathlib import Path

import pytest

TESTS_OF = runpy.run_path(str(Path(__file__).parents[2] / "tools/changed.py"))["tests_of"]


@pytest.mark.parametrize(
    ("changed", "tested"),
    [
        ("src/evenstand/book/book.py", "src/evenstand/book/book.py tests/book"),
        ("src/evenstand/web/site/here.py", "src/evenstand/web/site/here.py tests/web/site"),
        ("src/evenstand/web/templates/set.html", "tests/web"),
        ("src/evenstand/engine/catch/gone.py", "tests/engine/catch"),
        ("src/evenstand/engine/data/species.tsv", "tests/engine"),
        ("src/evenstand/compose.py", "src/evenstand/compose.py tests/cli"),
        ("tests/engine/catch/test_rate.py", "tests/engine/catch/test_rate.py"),
        ("tests/engine/catch/test_gone.py", "tests/engine"),
        ("tests/cli/conftest.py", "tests/cli"),
        ("docs/cli.md", "tests/docs"),
        ("README.md", "tests/docs"),
        ("tools/changed.py", "tests/tools"),
        ("tests/phone/test_offline.py", "tests/engine"),
        ("tests/web/browser/conftest.py", "tests/engine"),
        ("Makefile", "tests/engine"),
    ],
)
def test_a_changed_file_leads_to_its_tests(changed, tested):
    assert [each.as_posix() for each in TESTS_OF([Path(changed)])] == tested.split()


def test_what_lies_in_another_is_named_once():
    changed = ["src/evenstand/engine/data/x.tsv", "tests/engine/catch/test_rate.py"]
    assert TESTS_OF(map(Path, changed)) == [Path("tests/engine")]
