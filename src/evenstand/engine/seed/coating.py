"""Coated seed: what is coating, and the two ways to its live seeds.

A coating is inside the inert matter of the tag, so that purity is already free
of it. Two ways lead to the same live seeds, and must not be mixed:

raw seeds per kg of pure seed × purity × germination, or
coated units per kg as they come × germination.
"""

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import SEED_COUNT
from ..statistics.budget import Quantity, nominal
from .tag import Tag

NEAR = 0.15  # how far from the coated count one must be to be taken for it: our judgement


def coating_share(coated: float, *, bare: float) -> float:
    """Share of the weight that is coating.

    (coated − bare) ÷ coated

    Parameters
    ----------
    coated, bare : float
        Weight of as many units with their coating, and washed free of it.

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For weights that are not above zero, or bare seed heavier than coated.

    References
    ----------
    7 CFR 201.46 (d): weights of 100 coated and 100 de-coated units.

    Examples
    --------
    >>> coating_share(0.34, bare=0.17)
    0.5
    """
    require_positive("coated", coated, "kg")
    require_positive("bare", bare, "kg")
    if bare > coated:
        raise MeasurementError("bare", bare, say("enter the coated weight first, the larger one"))
    return (coated - bare) / coated


def pure_count(
    tag: Tag, *, seeds_per_kg: Quantity | None = None, coated_units: Quantity | None = None
) -> Quantity:
    """Seeds per kg of pure seed, by one of the two ways.

    coated units per kg ÷ purity, where they were counted with their coating

    Parameters
    ----------
    seeds_per_kg : Quantity, optional
        Seeds in a weight of seed without coating. [1/kg]
    coated_units : Quantity, optional
        Coated units in a kg of seed as it comes, coating and all.

    Returns
    -------
    Quantity [1/kg]
        Correlated with the tag's purity, which thereby drops out of the live
        seeds per kg of bulk.

    Raises
    ------
    MeasurementError
        For both counts, none, one that is not above zero, or coated units of a
        lot whose tag has no coating.

    References
    ----------
    7 CFR 201.51b (f): coating is inert matter; 201.58 (c): coated units germinate as they come.
    """
    if seeds_per_kg is not None and coated_units is not None:
        need = say("enter only one: raw or coated seed count")
        raise MeasurementError("coated_units", coated_units, need)
    if seeds_per_kg is not None:
        require_positive("seeds_per_kg", nominal(seeds_per_kg), "seeds/kg")
        return seeds_per_kg
    if coated_units is None:
        need = say("enter the seed count, raw or coated")
        raise MeasurementError("seeds_per_kg", None, need)
    require_positive("coated_units", nominal(coated_units), "units/kg")
    if not tag.coating:
        need = say("enter the coating from the tag too, or enter the count as raw seed")
        raise MeasurementError("coated_units", coated_units, need)
    return coated_units / tag.pure


def looks_coated(tag: Tag, *, seeds_per_kg: float, known: tuple[float, float]) -> Phrase | None:
    """Ask whether a count of raw seeds was one of coated units.

    Parameters
    ----------
    seeds_per_kg : float
        Given as a count without coating. [1/kg]
    known : tuple of float
        Lowest and highest count of the species without coating, per kg.
    """
    low, high = (end * tag.purity for end in known)
    if (
        not tag.coating
        or not low * (1 - NEAR) <= seeds_per_kg <= high * (1 + NEAR)
        or seeds_per_kg >= known[0]
    ):
        return None
    return say(
        "{count} looks like a coated-seed count, not raw seed. Entered as raw, "
        "the coating is subtracted twice and you seed too much.",
        count=SEED_COUNT(seeds_per_kg),
    )
