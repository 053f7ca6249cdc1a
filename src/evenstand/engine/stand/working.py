"""The pencil lines behind a stand and what came up of the seed."""

from ..quantities.phrases import Amount, Phrase, say
from ..quantities.units import DENSITY, GROUND, NUMBER, PLANTS, SHARE
from ..quantities.working import PENCIL_DIGITS, Line, divide, multiply
from ..statistics.budget import Quantity, nominal
from ..statistics.distributions import t_quantile
from .emergence import Emergence
from .stand import BETWEEN, Stand

PRACTICE = "common practice, no source"
GUM = "JCGM 100:2008 (GUM)"
WHOLE = 7  # digits that show any count of plants wholly


def stand_lines(found: Stand) -> tuple[Line, ...]:
    """Show plants ÷ ground, and how the range comes from the places."""
    value = Amount(found.range.value, PLANTS, PENCIL_DIGITS)
    plants, ground = Amount(found.plants, NUMBER, WHOLE), Amount(nominal(found.ground), GROUND, 4)
    first = Line(
        _first(found),
        value,
        (*multiply(plants), *divide(ground)),
        PRACTICE,
    )
    return (first, *(_range_lines(found) if found.plants else ()))


def _first(found: Stand) -> Phrase:
    if found.name:
        text = "Stand of {name}: plants counted ÷ ground of {n} places"
        return say(text, name=found.name, n=found.places)
    return say("Stand: plants counted ÷ ground of {n} places", n=found.places)


def _range_lines(found: Stand) -> tuple[Line, ...]:
    between = next((share for share in found.budget if share.name == BETWEEN), None)
    if between is None:
        return ()
    said: Phrase = say("Its standard uncertainty, by how the places differ")
    if found.basis == "usual scatter":
        said = say("Its standard uncertainty, by how places usually differ")
    first = Line(said, Amount(between.u, PLANTS, PENCIL_DIGITS), (), "Cochran (1977), section 6.3")
    return first, _reach(found)


def _reach(found: Stand) -> Line:
    """Show how far the range reaches: by a factor where it is made on the log scale."""
    t = t_quantile(0.975, dof=found.range.dof)
    if found.range.log_scale:
        text = "Range: stand ÷ and × this factor, e to the power of t × u ÷ stand, t {t}"
        factor = Amount(found.range.high / found.range.value, NUMBER, PENCIL_DIGITS)
        return Line(say(text, t=Amount(t, NUMBER, PENCIL_DIGITS)), factor, (), GUM)
    return Line(
        say("Half the range: Student's t × standard uncertainty of all causes"),
        Amount(t * found.range.u, PLANTS, PENCIL_DIGITS),
        multiply(Amount(t, NUMBER, PENCIL_DIGITS), Amount(found.range.u, PLANTS, PENCIL_DIGITS)),
        GUM,
    )


def emergence_lines(found: Emergence, *, stand: Stand, seeds: Quantity) -> tuple[Line, ...]:
    """Show stand ÷ live seeds, and what is usual where it was joined with that.

    Parameters
    ----------
    found : Emergence
    stand : Stand
    seeds : Quantity
        Live seeds sown. [1/m²]
    """
    plants = Amount(stand.range.value, PLANTS, PENCIL_DIGITS)
    lines = [
        Line(
            _came_up(stand),
            Amount(found.share.value, SHARE, PENCIL_DIGITS),
            (*multiply(plants), *divide(Amount(nominal(seeds), DENSITY, PENCIL_DIGITS))),
            PRACTICE,
        )
    ]
    if found.updated is not None and found.usual is not None:
        text = "With what is usual, {mean}; the counts weigh as {n} seeds"
        said = say(
            text,
            mean=Amount(found.usual.mean, SHARE),
            n=Amount(found.effective, NUMBER, 2),
        )
        lines.append(Line(said, Amount(found.updated.value, SHARE, 4), (), found.usual.source))
    return tuple(lines)


def _came_up(stand: Stand) -> Phrase:
    if stand.name:
        return say("Emergence of {name}: stand ÷ live seeds sown", name=stand.name)
    return say("Emergence: stand ÷ live seeds sown")
