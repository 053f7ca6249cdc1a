"""The engine in the browser's Python: its own tests pass there, with the same bits as here."""

import json
import re
import runpy
import shutil
import subprocess
from pathlib import Path

import pytest

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
TABLE = runpy.run_path(str(HERE / "table.py"))


@pytest.fixture(scope="module")
def pyodide():
    """Run a Python file of this folder inside Pyodide; gives the finished process."""
    if not (shutil.which("node") and shutil.which("npm")):
        pytest.skip("Node.js not found: the engine's tests under Pyodide were skipped")
    if not (ROOT / "build/pyodide/stamp").exists():
        pytest.fail("Pyodide is not set up: run make pyodide")

    def run(file):
        command = ["node", str(HERE / "run.mjs"), file]
        return subprocess.run(command, capture_output=True, encoding="utf-8", check=False)

    return run


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
