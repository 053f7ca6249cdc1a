"""Runs the engine's tests and examples, to be started inside Pyodide."""

import sys

import pytest

if __name__ == "__main__":
    options = ["-q", "-p", "no:cacheprovider", "--color=no", "-rs"]
    sys.exit(pytest.main([*options, "src/evenstand/engine", "tests/engine"]))
