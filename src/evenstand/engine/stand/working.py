"""The pencil lines behind a stand and what came up of the seed."""

from ..quantities.phrases import Phrase, say
from ..quantities.units import DENSITY, GROUND, NUMBER, PLANTS, SHARE
from ..quantities.working import PENCIL_DIGITS, Line
from ..statistics.budget import Quantity, nominal
from ..statistics.distributions import t_quantile
from .emergence import Emergence
from .stand import BETWEEN, Stand

PRACTICE = "common practice, no source"
GUM = "JCGM 100:2008 (GUM)"
WHOLE = 7  # digits that show any count of plants wholly


def stand_lines(found: Stand) -> tuple[Line, ...]:
    """Show plants ÷ ground, and how the range comes from the places."""
    value = PLANTS(found.range.value)
    plants, ground = NUMBER(found.plants, WHOLE), GROUND(nominal(found.ground), 4)
    first = Line(_first(found), value, plants / ground, PRACTICE)
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
    first = Line(said, PLANTS(between.u), source="Cochran (1977), section 6.3")
    return first, _reach(found)


def _reach(found: Stand) -> Line:
    """Show how far the range reaches: by a factor where it is made on the log scale."""
    t = t_quantile(0.975, dof=found.range.dof)
    if found.range.log_scale:
        text = "Range: stand ÷ and × this factor, e to the power of t × u ÷ stand, t {t}"
        factor = NUMBER(found.range.high / found.range.value)
        return Line(say(text, t=NUMBER(t, PENCIL_DIGITS)), factor, source=GUM)
    return Line(
        say("Half the range: Student's t × standard uncertainty of all causes"),
        PLANTS(t * found.range.u),
        NUMBER(t) * PLANTS(found.range.u),
        GUM,
    )


def emergence_lines(found: Emergence, *, stand: Stand, seeds: Quantity) -> tuple[Line, ...]:
    """Show stand ÷ live seeds, and what is usual where it was joined with that.

    Parameters
    ----------
    seeds : Quantity
        Live seeds sown. [1/m²]
    """
    plants = PLANTS(stand.range.value, PENCIL_DIGITS)
    lines = [
        Line(_came_up(stand), SHARE(found.share.value), plants / DENSITY(nominal(seeds)), PRACTICE)
    ]
    if found.updated is not None and found.usual is not None:
        text = "With what is usual, {mean}; the counts weigh as {n} seeds"
        said = say(text, mean=SHARE(found.usual.mean), n=NUMBER(found.effective, 2))
        lines.append(Line(said, SHARE(found.updated.value), source=found.usual.source))
    return tuple(lines)


def _came_up(stand: Stand) -> Phrase:
    if stand.name:
        return say("Emergence of {name}: stand ÷ live seeds sown", name=stand.name)
    return say("Emergence: stand ÷ live seeds sown")
