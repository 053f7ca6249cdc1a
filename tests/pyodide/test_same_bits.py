"""The engine in the browser's Python: its own tests pass there, with the same bits as here."""

import json
import re
import runpy
from pathlib import Path

import pytest

HERE = Path(__file__).parent
TABLE = runpy.run_path(str(HERE / "table.py"))


@pytest.fixture(scope="module")
def table_there(pyodide):
    done = pyodide("table.py")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@pytest.mark.parametrize("name", TABLE["CASES"])
def test_same_bits(table_there, name):
    here = [float(x).hex() for x in TABLE["CASES"][name]()]
    different = [(i, *pair) for i, pair in enumerate(zip(here, table_there[name], strict=True))]
    assert [row for row in different if row[1] != row[2]] == []


def test_the_engines_tests_pass_there(pyodide):
    done = pyodide("engine.py")
    assert done.returncode == 0, done.stdout[-20_000:] + done.stderr[-5_000:]
    assert re.search(r"^\d+ passed", done.stdout, re.MULTILINE), done.stdout[-2_000:]
