"""The book in the browser's Python: its own tests pass there."""

import re


def test_the_books_tests_pass_there(pyodide):
    done = pyodide("book.py")
    assert done.returncode == 0, done.stdout[-20_000:] + done.stderr[-5_000:]
    assert re.search(r"^\d+ passed", done.stdout, re.MULTILINE), done.stdout[-2_000:]
