"""Published numbers for the engine's tests."""

import csv
from pathlib import Path

import pytest

REFERENCE = Path(__file__).parents[1] / "reference"


def _number(text):
    try:
        return float(text)
    except ValueError:
        return text


@pytest.fixture(scope="session")
def published():
    """Rows of a table of tests/reference, as dictionaries; numbers are floats."""

    def table(name):
        lines = (REFERENCE / name).read_text(encoding="utf-8").splitlines()
        rows = csv.DictReader(line for line in lines if line.strip() and line[0] != "#")
        return [{key: _number(value) for key, value in row.items()} for row in rows]

    return table


@pytest.fixture(scope="session")
def nist():
    """Numbers of a file of tests/reference/nist from one line to another, counted from 1."""

    def block(name, first, last):
        lines = (REFERENCE / "nist" / name).read_text(encoding="utf-8").splitlines()
        return [[float(text) for text in line.split()] for line in lines[first - 1 : last]]

    return block
