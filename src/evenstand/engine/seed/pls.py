"""Pure live seed and bulk: rates, prices and seeds, one from the other."""

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import say
from ..statistics.budget import Quantity, nominal


def bulk_rate(rate: Quantity, *, pls: Quantity) -> Quantity:
    """Bulk to sow for a rate of pure live seed.

    bulk = PLS rate ÷ PLS

    Parameters
    ----------
    rate : Quantity
        Pure live seed per ground, or any amount of it. [kg/m²]
    pls : Quantity
        Pure live seed in the bulk. [-]

    Returns
    -------
    Quantity [kg/m²]

    Raises
    ------
    MeasurementError
        For a rate below zero or PLS outside 0 to 1.

    References
    ----------
    USDA NRCS Pacific Islands Area, job sheet 550.

    Examples
    --------
    >>> print(f"{bulk_rate(20.0, pls=0.95 * 0.85):.2f} lb for 20 lb of live seed")
    24.77 lb for 20 lb of live seed
    """
    return _not_below_zero("rate", rate) / _fraction(pls)


def pls_rate(rate: Quantity, *, pls: Quantity) -> Quantity:
    """Pure live seed in a rate of bulk.

    PLS rate = bulk × PLS

    Parameters
    ----------
    rate : Quantity
        Bulk per ground, or any amount of it. [kg/m²]
    pls : Quantity
        Pure live seed in the bulk. [-]

    Returns
    -------
    Quantity [kg/m²]

    Raises
    ------
    MeasurementError
        For a rate below zero or PLS outside 0 to 1.
    """
    return _not_below_zero("rate", rate) * _fraction(pls)


def price_per_pls(price: Quantity, *, pls: Quantity) -> Quantity:
    """Price of pure live seed.

    price ÷ PLS

    Parameters
    ----------
    price : Quantity
        Of bulk seed. [$/kg]
    pls : Quantity
        Pure live seed in the bulk. [-]

    Returns
    -------
    Quantity [$/kg]

    Raises
    ------
    MeasurementError
        For a price below zero or PLS outside 0 to 1.

    Examples
    --------
    >>> print(f"${price_per_pls(2.50, pls=0.75 * 0.96):.2f}")
    $3.47
    """
    return _not_below_zero("price", price) / _fraction(pls)


def seeds_per_area(rate: Quantity, *, seeds_per_kg: Quantity) -> Quantity:
    """Live seeds per ground.

    PLS rate × seeds per kg

    Parameters
    ----------
    rate : Quantity
        Pure live seed per ground. [kg/m²]
    seeds_per_kg : Quantity
        Of pure seed. [1/kg]

    Returns
    -------
    Quantity [1/m²]

    Raises
    ------
    MeasurementError
        For a rate below zero or a count that is not above zero.

    Examples
    --------
    Alfalfa of 199,000 seeds per pound at 15 lb/ac:

    >>> from evenstand.engine.quantities.units import POUND, POUND_PER_ACRE, SQUARE_FOOT
    >>> seeds = seeds_per_area(15 * POUND_PER_ACRE, seeds_per_kg=199_000 / POUND)
    >>> print(f"{seeds * SQUARE_FOOT:.1f} per square foot")
    68.5 per square foot
    """
    require_positive("seeds_per_kg", nominal(seeds_per_kg), "seeds/kg")
    return _not_below_zero("rate", rate) * seeds_per_kg


def _not_below_zero(field: str, given: Quantity) -> Quantity:
    if not nominal(given) >= 0:
        raise MeasurementError(field, given, say("enter 0 or more"))
    return given


def _fraction(pls: Quantity) -> Quantity:
    if not 0 < nominal(pls) <= 1:
        need = say("enter a live-seed share above 0%, up to 100%")
        raise MeasurementError("pls", pls, need)
    return pls
