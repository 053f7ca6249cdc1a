"""The working of a box: loaded, left, used, and used ÷ ground."""

from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, LOAD, RATE
from ..quantities.working import Line
from ..statistics.budget import nominal
from .balance import Balance


def balance_lines(balance: Balance) -> tuple[Line, ...]:
    """Write the lines from loads and level to the mean rate so far.

    The rate now weighs every reading and what Set promised; these lines can
    be done with a pencil and should come near it.
    """
    used = used_line(nominal(balance.loaded), nominal(balance.seed))
    ground = nominal(balance.ground)
    if not ground:
        return (used,)
    words = say("Mean rate so far: used ÷ ground")
    return (used, rate_line(words, used=nominal(balance.used), ground=ground))


def used_line(loaded: float, left: float) -> Line:
    """Write what went down: loaded − left."""
    return Line(
        say("Seed used: loaded − left in the box"), LOAD(loaded - left), LOAD(loaded) - LOAD(left)
    )


def rate_line(words: Phrase, *, used: float, ground: float) -> Line:
    """Write a rate: used ÷ ground."""
    return Line(words, RATE(used / ground), LOAD(used) / FIELD(ground))
