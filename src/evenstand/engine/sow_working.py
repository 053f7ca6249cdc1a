"""The working of a box so far: loaded, left, used, and used ÷ ground."""

from .balance import Balance
from .budget import nominal
from .units import FIELD, LOAD, RATE
from .words import Amount, say
from .working import PENCIL_DIGITS, Line, divide, multiply


def balance_lines(balance: Balance) -> tuple[Line, ...]:
    """Write the lines from loads and level to the mean rate so far.

    The rate now weighs every reading and what Set promised; these lines can
    be done with a pencil and should come near it.
    """
    loaded, used = nominal(balance.loaded), nominal(balance.used)
    ground = nominal(balance.ground)
    lines = [
        Line(
            say("Seed used: loaded − left in the box"),
            Amount(used, LOAD, PENCIL_DIGITS),
            (
                ("+", Amount(loaded, LOAD, PENCIL_DIGITS)),
                ("−", Amount(nominal(balance.seed), LOAD, PENCIL_DIGITS)),
            ),
        )
    ]
    if ground:
        lines.append(
            Line(
                say("Mean rate so far: used ÷ ground"),
                Amount(used / ground, RATE, PENCIL_DIGITS),
                (
                    *multiply(Amount(used, LOAD, PENCIL_DIGITS)),
                    *divide(Amount(ground, FIELD, PENCIL_DIGITS)),
                ),
            )
        )
    return tuple(lines)
