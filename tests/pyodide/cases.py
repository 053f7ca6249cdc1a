"""What must come out with the same bits on every Python: a name, and how to compute it.

A module of the engine adds its cases here, over a grid wide enough to reach
each of its branches. No random numbers, and no arithmetic that rounds
differently elsewhere: the rules of the engine hold for its grid as well.
"""

from collections.abc import Callable
from math import ldexp

from evenstand.engine import elementary

WIDE = [x * ldexp(1.0, e) for e in range(-1060, 1020, 20) for x in (1.0, 1.2, 1.41, 1.7)]
EXPONENTS = [-744.5 + 0.93 * i for i in range(1560)]
POSITIVE = [0.013 * i for i in range(1, 800)] + [9.7 * i for i in range(1, 400)]

CASES: dict[str, Callable[[], list[float]]] = {
    "elementary.exp": lambda: [elementary.exp(x) for x in EXPONENTS],
    "elementary.log": lambda: [elementary.log(x) for x in WIDE],
    "elementary.lgamma": lambda: [elementary.lgamma(x) for x in POSITIVE],
    "elementary.stirling_error": lambda: [elementary.stirling_error(x) for x in POSITIVE],
}
