"""Runs the engine's tests and examples, to be started inside Pyodide.

What was found by simulation holds there because the same bits come out there.
"""

import ast
import sys
from importlib.util import find_spec
from pathlib import Path

import pytest


def lacks(path: Path) -> set[str]:
    """Reference libraries that a test file imports at its top and that are not here.

    A file that asks ``pytest.importorskip`` inside its tests keeps the others.
    """
    imports = ast.parse(path.read_text(encoding="utf-8")).body
    names = [a.name for node in imports if isinstance(node, ast.Import) for a in node.names]
    names += [
        node.module for node in imports if isinstance(node, ast.ImportFrom) and not node.level
    ]
    return {root for name in names if not find_spec(root := name.split(".")[0])}


class LeaveOut:
    """Leaves out whole files whose reference libraries have no place in a browser."""

    def __init__(self) -> None:
        self.left_out: list[str] = []

    def pytest_ignore_collect(self, collection_path: Path) -> bool | None:
        if collection_path.suffix != ".py" or not (absent := lacks(collection_path)):
            return None
        self.left_out.append(f"left out {collection_path.name}: it needs {', '.join(absent)}")
        return True

    def pytest_terminal_summary(self, terminalreporter: pytest.TerminalReporter) -> None:
        for line in self.left_out:
            terminalreporter.write_line(line)


if __name__ == "__main__":
    options = ["-q", "-p", "no:cacheprovider", "--color=no", "-rs", "-m", "not simulated"]
    sys.exit(pytest.main([*options, "src/evenstand/engine", "tests/engine"], [LeaveOut()]))
