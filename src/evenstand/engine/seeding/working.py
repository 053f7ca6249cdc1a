"""The working of a box: loaded, left, used, and used ÷ ground."""

from ..quantities.phrases import Amount, Phrase, say
from ..quantities.units import FIELD, LOAD, RATE
from ..quantities.working import PENCIL_DIGITS, Line, divide, multiply
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
        say("Seed used: loaded − left in the box"),
        Amount(loaded - left, LOAD, PENCIL_DIGITS),
        (
            ("+", Amount(loaded, LOAD, PENCIL_DIGITS)),
            ("−", Amount(left, LOAD, PENCIL_DIGITS)),
        ),
    )


def rate_line(words: Phrase, *, used: float, ground: float) -> Line:
    """Write a rate: used ÷ ground."""
    return Line(
        words,
        Amount(used / ground, RATE, PENCIL_DIGITS),
        (
            *multiply(Amount(used, LOAD, PENCIL_DIGITS)),
            *divide(Amount(ground, FIELD, PENCIL_DIGITS)),
        ),
    )
