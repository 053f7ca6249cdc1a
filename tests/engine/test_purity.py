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
    *("bisect", "collections", "dataclasses", "enum", "fractions", "functools", "itertools"),
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
ATTRIBUTES = dict.fromkeys(("s", "std_dev"), "use budget.standard_uncertainty")


def complaints(source):
    """Every line that could break the promise of the same bits, with its cure."""
    for node in ast.walk(ast.parse(source)):
        for what, cure in _faults(node):
            yield f"line {node.lineno}: {what}: {cure}"


def _faults(node):
    match node:
        case ast.Import(names=names):
            yield from (_module(alias.name) for alias in names if not _known(alias.name))
        case ast.ImportFrom(module=str(name), level=0, names=names):
            full = [f"{name}.{alias.name}" for alias in names]
            yield from (_module(each) for each in full if not _known(each))
            if name == "math":
                yield from (_math(alias.name) for alias in names if alias.name not in EXACT_MATH)
        case ast.Attribute(value=ast.Name(id="math"), attr=name) if name not in EXACT_MATH:
            yield _math(name)
        case ast.Attribute(attr=name) if name in ATTRIBUTES:
            yield f".{name}", ATTRIBUTES[name]
        case ast.Call(func=ast.Name(id="sum"), args=[ast.GeneratorExp(elt=each)]) if _whole(each):
            pass
        case ast.Call(func=ast.Name(id=name)) if name in CALLS:
            yield f"{name}(…)", CALLS[name]
        case ast.BinOp(op=ast.Pow()) | ast.AugAssign(op=ast.Pow()):
            yield "**", "multiply, x * x; ldexp for powers of two"


def _known(module):
    root, *rest = module.split(".")
    return root in MODULES and rest != ["umath"]


def _whole(expression):
    match expression:
        case ast.Constant(value=int()) | ast.Call(func=ast.Name(id="len")):
            return True
        case ast.Attribute(attr=name) | ast.Name(id=name):
            return name in COUNTS
    return False


def _module(name):
    return f"import of {name}", "pure arithmetic needs none; see docs/architecture.md"


def _math(name):
    return f"math.{name}", "use evenstand.engine.elementary"


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
    ],
)
def test_exact_lines_pass(line):
    assert list(complaints(line)) == []
