"""Vectors and matrices as tuples of floats, and their sum of products."""

from collections.abc import Sequence
from math import fsum

Vector = tuple[float, ...]


Matrix = tuple[Vector, ...]


def dot(x: Sequence[float], y: Sequence[float]) -> float:
    """Return the sum of products, rounded once."""
    return fsum(a * b for a, b in zip(x, y, strict=True))
