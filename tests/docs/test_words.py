"""The page of words and the engine use the same names, with the same units."""

import importlib
import inspect
import pkgutil
import re
from pathlib import Path

import pytest

import evenstand.engine

PAGE = Path(__file__).parents[2] / "docs/words.md"
# Plain mathematics, text and exact factors: their names are not words of the trade.
MATHEMATICS = {
    "count_tables",
    "counting",
    "elementary",
    "errors",
    "incomplete",
    "outliers",
    "quantile",
    "distributions",
    "vectors",
}
MATHEMATICS |= {"several", "units", "variance", "phrases"}
# Names that mean what the sentence around them says, in whatever unit; so do single letters.
GENERAL = {"level", "mean", "quantity", "reach", "result", "value", "values", "wanted"}
ANY_UNIT = "of the value"


def words():
    """Every name in code on the page, with the units it may have."""
    found = {}
    for line in PAGE.read_text(encoding="utf-8").splitlines():
        if line.startswith("|") and (cells := [cell.strip() for cell in line.split("|")[1:-1]]):
            for name in re.findall(r"`(\w+)`", cells[2]):
                found.setdefault(name, set()).add(cells[3])
    return found


def units(documented):
    """The unit in brackets that a numpy docstring gives each of its parameters."""
    text = inspect.getdoc(documented) or ""
    section = re.search(r"Parameters\n-+\n(.*?)(\n\n\w[\w ]*\n-+\n|\Z)", text, re.DOTALL)
    entries = re.split(r"^(?=\S)", section[1], flags=re.MULTILINE) if section else []
    for entry in filter(None, entries):
        names, _, rest = entry.partition(":")
        if unit := re.search(r"\[([^\]]+)\]\s*$", rest.strip()):
            yield from ((name.strip(), unit[1]) for name in names.split(","))


def _is_a_word(name):
    return len(name) > 1 and name not in GENERAL


def engine_parameters():
    """Every (where, name, unit) that the engine's public functions and classes document."""
    for module in pkgutil.walk_packages(evenstand.engine.__path__, "evenstand.engine."):
        if module.name.rpartition(".")[2] in MATHEMATICS:
            continue
        for name, thing in vars(importlib.import_module(module.name)).items():
            if callable(thing) and thing.__module__ == module.name and not name.startswith("_"):
                where = f"{module.name}.{name}"
                yield from ((where, *pair) for pair in units(thing) if _is_a_word(pair[0]))


@pytest.mark.parametrize(("where", "name", "unit"), sorted(set(engine_parameters())))
def test_a_parameter_with_a_unit_stands_on_the_page_of_words(where, name, unit):
    page = words()
    assert name in page, f"add `{name}` ({where}, [{unit}]) to docs/words.md, or use a word from it"
    assert {unit, ANY_UNIT} & page[name], (
        f"{where} gives `{name}` in [{unit}], docs/words.md in {page[name]}"
    )


def test_the_page_is_read():
    """Two known rows, so that a table laid out anew cannot pass by being empty."""
    assert words()["spacing"] == {"m"}
    assert words()["dormant"] == {"-"}


def test_a_docstring_is_read():
    def sowing(spacing, slip, turns):
        """Sow.

        Parameters
        ----------
        spacing, slip : float
            Two with one unit. [m]
        turns : float, optional
            Over two
            lines. [turn]

        Returns
        -------
        float [s]
        """

    assert list(units(sowing)) == [("spacing", "m"), ("slip", "m"), ("turns", "turn")]
