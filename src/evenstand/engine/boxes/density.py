"""Weight of a mixture that fills a measure, from its parts or from a measurement."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from ..quantities.errors import MeasurementError, Of, Path, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import SHARE, TEST_WEIGHT
from ..quantities.working import Line
from ..statistics.budget import Quantity, give_or_take, nominal, standard_uncertainty, total

# Judgements where nothing was measured. Printed bushels of one species differ by 12 % (oats 32
# and 36 lb) to 79 % (sudangrass 28 and 50 lb), and none of them is a measured weight.
NOMINAL_LIMITS = 0.15
MEASURED_LIMITS = 0.02


class Filling(Protocol):
    """Anything that fills room: seed or carrier, so much for each square metre."""

    @property
    def name(self) -> str:
        """What it is called."""
        ...

    @property
    def weighed(self) -> float:
        """How much of it is weighed out for a square metre. [kg/m²]"""
        ...

    @property
    def test_weight(self) -> Quantity | None:
        """Weight of it that fills a measure, where known. [kg/m³]"""
        ...

    @property
    def measured(self) -> bool:
        """Whether the test weight is this lot's own."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """What fills a measure. [kg/m³]

    ``measured`` says that it was weighed itself; else ``assumed`` says from
    what it was worked out.
    """

    test_weight: Quantity
    measured: bool
    assumed: tuple[Phrase, ...] = ()
    working: tuple[Line, ...] = ()


def lacking(parts: Sequence[Filling]) -> tuple[str, ...]:
    """Names of the parts whose test weight is not known at all."""
    return tuple(part.name for part in parts if part.test_weight is None)


def measured_weight(test_weight: Quantity) -> Packed:
    """Take a mixture's own test weight, known to ± 2% where nothing is said.

    Parameters
    ----------
    test_weight : Quantity
        [kg/m³]

    Raises
    ------
    MeasurementError
        For a weight that is not above zero.
    """
    require_positive("test_weight", nominal(test_weight), "kg/m³")
    return Packed(test_weight=_known(test_weight, "the mixture", measured=True), measured=True)


def mixture(parts: Sequence[Filling]) -> Packed:
    """Work out what a mixture weighs: its parts fill as much room as apart.

    1 ÷ ρ = Σ wᵢ ÷ ρᵢ, w the shares by weight

    Parameters
    ----------
    parts : sequence of Filling, length ≥ 1

    Returns
    -------
    Packed
        One part alone that was measured is measured.

    Raises
    ------
    MeasurementError
        Where a part has no test weight; ``field`` names it.

    Notes
    -----
    Small seed fills gaps between large: the mixture then weighs more than
    this, and the box holds more.

    Examples
    --------
    >>> from evenstand.engine.boxes.portion import Carrier
    >>> halves = [Carrier(name=n, rate=1.0, test_weight=w) for n, w in (("a", 400.0), ("b", 800.0))]
    >>> print(f"{mixture(halves).test_weight.n:.1f} kg/m³")
    533.3 kg/m³
    """
    for name in lacking(parts):
        need = say("weigh a full measure of it: a level bushel, or a liter")
        raise MeasurementError(Path("test_weight", Of(name)), None, need)
    weight = 0.0
    for part in parts:
        weight += part.weighed
    packed = weight / total(part.weighed / _of(part) for part in parts)
    return Packed(
        test_weight=packed,
        measured=len(parts) == 1 and parts[0].measured,
        assumed=_assumed(parts),
        working=(_line(parts, nominal(packed)),),
    )


def _of(part: Filling) -> Quantity:
    if part.test_weight is None:  # refused before
        raise AssertionError(part.name)
    return _known(part.test_weight, part.name, measured=part.measured)


def _known(test_weight: Quantity, name: str, *, measured: bool) -> Quantity:
    if standard_uncertainty(test_weight):
        return test_weight
    value = nominal(test_weight)
    limits = MEASURED_LIMITS if measured else NOMINAL_LIMITS
    return give_or_take(value, limits * value, f"test weight of {name}")


def _assumed(parts: Sequence[Filling]) -> tuple[Phrase, ...]:
    said = []
    if names := [part.name for part in parts if not part.measured]:
        text = (
            "{names}: test weight from a published bushel, not this lot, assumed "
            "good to ± {limits}; weigh a full measure"
        )
        said.append(say(text, names=", ".join(names), limits=SHARE(NOMINAL_LIMITS)))
    if len(parts) > 1:
        said.append(
            say(
                "assumes small seed does not fill the gaps between large seed: the box "
                "may hold more"
            )
        )
    return tuple(said)


def _line(parts: Sequence[Filling], packed: float) -> Line:
    named = [
        say("{name} {weight}", name=part.name, weight=TEST_WEIGHT(nominal(_of(part))))
        for part in parts
    ]
    values = {f"p{i}": words for i, words in enumerate(named)}
    listed = Phrase(", ".join(f"{{{name}}}" for name in values), values)
    text = say("What fills a measure, adding volumes: {parts}", parts=listed)
    return Line(text, TEST_WEIGHT(packed))
