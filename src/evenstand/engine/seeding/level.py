"""Seed in a box, told from how full it is."""

from dataclasses import dataclass

from ..boxes.box import Box
from ..quantities.errors import MeasurementError, Of, Path, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import LOAD, SHARE
from ..statistics.budget import Quantity, nominal, standard_uncertainty

READING_LIMITS = 0.03  # judgement: a level read by eye, as a share of the box
WEIGHED_LIMITS = 0.005  # judgement: seed that was weighed out of the box
SQRT_THREE = 1.7320508075688772


@dataclass(frozen=True, slots=True, kw_only=True)
class InBox:
    """Seed in a box.

    ``u`` is the standard uncertainty of reading it [kg]; ``by_volume`` says
    that it rests on the test weight, whose own error is not in ``u``.
    """

    weight: float
    u: float
    by_volume: bool
    assumed: tuple[Phrase, ...] = ()

    @property
    def by_test_weight(self) -> float:
        """What of it rests on the test weight: all of it or nothing. [kg]"""
        return self.weight if self.by_volume else 0.0


def read_level(box: Box, full: Quantity, *, test_weight: Quantity) -> InBox:
    """Tell the seed in a box from how full it is.

    seed = full × volume × test weight

    Parameters
    ----------
    full : Quantity
        Part of its volume that is filled, 1 at the brim; read to ± 3% of the
        box where nothing is said. [-]
    test_weight : Quantity
        Of the seed in it. [kg/m³]

    Raises
    ------
    MeasurementError
        For a level below empty or above the brim, or no test weight.

    Notes
    -----
    The part is one of volume. In a box that narrows towards the bottom half
    the height is less than half the seed.

    Examples
    --------
    >>> from evenstand.engine.boxes.box import BOX_KINDS
    >>> box = Box(name="grain", volume=0.4, seed=BOX_KINDS["grain"])
    >>> print(f"{read_level(box, 0.5, test_weight=750.0).weight:.0f} kg")
    150 kg
    """
    require_positive("test_weight", nominal(test_weight), "kg/m³")
    part = nominal(full)
    if not 0 <= part <= 1:
        need = say("enter a level from empty to full, 0% to 100%")
        raise MeasurementError(Path("level", Of(box.name)), part, need)
    holds = nominal(box.volume) * nominal(test_weight)
    u, assumed = standard_uncertainty(full), ()
    said: tuple[Phrase, ...] = assumed
    if not u:
        u = READING_LIMITS / SQRT_THREE
        text = "a level reading is good to ± {limits} of the box"
        said = (say(text, limits=SHARE(READING_LIMITS)),)
    return InBox(weight=part * holds, u=u * holds, by_volume=True, assumed=said)


def weighed_out(box: Box, weight: Quantity) -> InBox:
    """Take seed that was let out of a box and weighed.

    Parameters
    ----------
    weight : Quantity
        0 for a box swept empty; known to ± 0.5% where nothing is said. [kg]

    Raises
    ------
    MeasurementError
        For a weight below zero.
    """
    value, u = nominal(weight), standard_uncertainty(weight)
    if not value >= 0:
        raise MeasurementError(
            Path("level", Of(box.name)), value, say("enter a weight of 0 or more")
        )
    said: tuple[Phrase, ...] = ()
    if value and not u:
        u = WEIGHED_LIMITS * value / SQRT_THREE
        text = "seed weighed out of a box is good to ± {limits}"
        said = (say(text, limits=SHARE(WEIGHED_LIMITS)),)
    return InBox(weight=value, u=u, by_volume=False, assumed=said)


def require_room(box: Box, weight: float, *, holds: float, u: float) -> None:
    """Raise MeasurementError where more seed would be in a box than goes into it.

    Parameters
    ----------
    weight : float
        Seed that would be in it. [kg]
    holds : float
        What goes into it, level full. [kg]
    u : float
        Standard uncertainty of the two together. [kg]
    """
    if weight > holds * HEAPED + 3 * u:
        need = say(
            "check the load: {box} would hold {weight}, but level full is {holds}",
            box=box.name,
            weight=LOAD(weight),
            holds=LOAD(holds),
        )
        raise MeasurementError(Path("load", Of(box.name)), weight, need)


HEAPED = 1.10  # judgement: seed heaped above the brim
