"""What is odd about the readings of a box: a level that does not fit, a promise not kept."""

from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, RATE, SHARE
from ..statistics.distributions import normal_quantile
from .balance import Balance

HARD_TO_BELIEVE = 0.9995  # one sound reading in a thousand is farther off, either way


def doubts(balance: Balance) -> tuple[Phrase, ...]:
    """Say what to check about the readings."""
    said = [odd] if (odd := _odd_reading(balance)) is not None else []
    if balance.loosened:
        text = (
            "The first reading does not fit what was promised, {rate} ± {u}: it is believed less."
        )
        u = SHARE(balance.known.rate_u / balance.known.rate, 2)
        said.append(say(text, rate=RATE(balance.known.rate), u=u))
    return tuple(said)


def _odd_reading(balance: Balance) -> Phrase | None:
    """Say which reading fits least, where one is hard to believe."""
    worst = max(
        (p for p in balance.points if p.z is not None), key=lambda p: abs(p.z or 0.0), default=None
    )
    if worst is None or worst.z is None or abs(worst.z) <= normal_quantile(HARD_TO_BELIEVE):
        return None
    text = "At {ground} the box held much less than was looked for: is the level right?"
    if worst.z > 0:
        text = "At {ground} the box held much more than was looked for: is a load not written down?"
    return say(text, ground=FIELD(worst.ground))
