"""Runs the book's tests and examples, to be started inside Pyodide.

A browser has one thread and one process: what needs more is left out.
"""

import sys

import pytest

LEFT_OUT = ("storage/test_crash.py", "log/test_schema.py")

if __name__ == "__main__":
    options = ["-q", "-p", "no:cacheprovider", "--color=no", "-rs"]
    left_out = [f"--ignore=tests/book/{name}" for name in LEFT_OUT]
    sys.exit(
        pytest.main([*options, *left_out, "-k", "not threads", "src/evenstand/book", "tests/book"])
    )
