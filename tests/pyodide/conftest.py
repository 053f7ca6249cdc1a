"""The browser's Python, started in Node.js."""

import shutil
import subprocess
from pathlib import Path

import pytest

HERE = Path(__file__).parent
ROOT = HERE.parents[1]


@pytest.fixture(scope="session")
def pyodide():
    """Run a Python file of this folder inside Pyodide; gives the finished process.

    What is named to it lies in the project, its path told from there.
    """
    if not (shutil.which("node") and shutil.which("npm")):
        pytest.skip("Node.js not found: the tests under Pyodide were skipped")
    if not (ROOT / "build/pyodide/stamp").exists():
        pytest.fail("Pyodide is not set up: run make pyodide")

    def run(file, *args):
        command = ["node", str(HERE / "run.mjs"), file, *args]
        return subprocess.run(command, capture_output=True, encoding="utf-8", check=False)

    return run
