"""How surely a germination test is known."""

from math import sqrt

# Between laboratories: what two tests of one lot differ by, beside the luck of the draw.
BETWEEN_LABORATORIES = 1 / 400


def effective_seeds(seeds: float, *, between: float = BETWEEN_LABORATORIES) -> float:
    """Return the seeds of a perfect test that tell as much as ``seeds`` of a real one."""
    return seeds / (1 + (seeds - 1) * between)


def germination_u(germination: float, *, seeds: int) -> float:
    """Return the standard uncertainty of a germination. [-]"""
    n = effective_seeds(seeds)
    a, b = 0.5 + n * germination, 0.5 + n * (1 - germination)
    return sqrt(a * b / (a + b + 1)) / (a + b)
