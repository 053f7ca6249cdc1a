"""The engine's source holds nothing whose bits differ from one Python to another.

The C library behind ``math.exp`` and its like, ``**`` on floats and, since
Python 3.12, ``sum`` on floats round differently from build to build. Square
roots, ``fsum``, the four operations and the whole-number functions do not.
"""

import ast
from pathlib import Path

import pytest

import evenstand.engine

SOURCES = sorted(Path(evenstand.engine.__file__).parent.rglob("*.py"))
MODULES = {
    *(
        "bisect",
        "collections",
        "dataclasses",
        "difflib",
        "enum",
        "fractions",
        "functools",
        "itertools",
    ),
    *("math", "re", "types", "typing", "uncertainties"),
}
EXACT_MATH = {
    *("ceil", "comb", "copysign", "fabs", "factorial", "floor", "fmod", "frexp", "fsum", "gcd"),
    *("inf", "isclose", "isfinite", "isinf", "isnan", "isqrt", "ldexp", "modf", "nan"),
    *("nextafter", "pi", "prod", "sqrt", "trunc", "ulp"),
}
CALLS = {
    "sum": "use math.fsum, or name the whole number in COUNTS of this test",
    "pow": "multiply",
    "open": "the engine reads no files",
    "print": "the engine prints nothing",
    "input": "the engine asks nothing",
}
COUNTS = {"count", "counts", "plants", "rows", "seeds"}  # whole numbers, which add up exactly
ATTRIBUTES = dict.fromkeys(("s", "std_dev"), "use budget.standard_uncertainty") | dict.fromkeys(
    ("today", "utcnow", "fromtimestamp"), "the engine has no clock: pass the day"
)


def complaints(source):
    """Every line that could break the promise of the same bits, with its cure."""
    for node in ast.walk(ast.parse(source)):
        for what, cure in _faults(node):
            yield f"line {node.lineno}: {what}: {cure}"


def _faults(node):
    match node:
        case ast.Import(names=names):
            yield from _imports([alias.name for alias in names])
        case ast.ImportFrom(module=str(name), level=0, names=names):
            yield from _imports([f"{name}.{alias.name}" for alias in names])
        case ast.Attribute(value=ast.Name(id="datetime"), attr="now"):
            yield "datetime.now", "the engine has no clock: pass the moment"
        case ast.Attribute(value=ast.Name(id="math"), attr=name):
            yield from _imports([f"math.{name}"])
        case ast.Attribute(attr=name) if name in ATTRIBUTES:
            yield f".{name}", ATTRIBUTES[name]
        case ast.Call(func=ast.Name(id=name)) if name in CALLS and not _counts(node):
            yield f"{name}(…)", CALLS[name]
        case ast.BinOp(op=ast.Pow()) | ast.AugAssign(op=ast.Pow()):
            yield "**", "multiply, x * x; ldexp for powers of two"


def _imports(names):
    for name in names:
        root, _, rest = name.partition(".")
        if name in ("datetime.date", "datetime.datetime"):
            continue  # a day or moment that is passed in; their clocks are in ATTRIBUTES
        if root not in MODULES or rest == "umath":
            yield f"import of {name}", "pure arithmetic needs none; see docs/parts.md"
        elif root == "math" and rest and rest not in EXACT_MATH:
            yield name, "use evenstand.engine.elementary"


def _counts(call):
    """Whether a sum adds whole numbers: constants, lengths, answers, or a name in COUNTS."""
    match call:
        case ast.Call(func=ast.Name(id="sum"), args=[ast.GeneratorExp(elt=each)]):
            pass
        case _:
            return False
    match each:
        case ast.Constant(value=int()) | ast.Compare() | ast.Call(func=ast.Name(id="len")):
            return True
        case ast.BoolOp(values=parts):
            return all(isinstance(part, ast.Compare) for part in parts)
        case ast.Attribute(attr=name) | ast.Name(id=name):
            return name in COUNTS
    return False


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.stem)
def test_engine_keeps_to_exact_operations(path):
    assert list(complaints(path.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize(
    "line",
    [
        "import time",
        "import numpy as np",
        "from os import path",
        "from uncertainties import umath",
        "import uncertainties.umath",
        "from math import exp",
        "y = math.expm1(x)",
        "y = x ** 2",
        "x **= 2",
        "y = sum(xs)",
        "y = sum(x.weight for x in xs)",
        "y = pow(x, 3)",
        "u = q.s",
        "u = q.std_dev",
        "day = date.today()",
        "at = datetime.now(UTC)",
        "print(x)",
        "open('x')",
    ],
)
def test_each_rule_can_fail(line):
    assert len(list(complaints(line))) == 1


@pytest.mark.parametrize(
    "line",
    [
        "from math import fsum, sqrt",
        "from . import budget",
        "from .budget import Quantity",
        "from collections.abc import Iterable",
        "y = x * x + math.sqrt(x)",
        "u = standard_uncertainty(q)",
        "n = sum(bag.rows for bag in bags)",
        "n = sum(1 for x in xs if x > 0)",
        "n = sum(len(x) for x in xs)",
        "n = sum(x > 0 and x < 1 for x in xs)",
    ],
)
def test_exact_lines_pass(line):
    assert list(complaints(line)) == []
