"""Inoculant for legume seed: how much by the label, and what to mind."""

from dataclasses import dataclass
from math import ceil
from typing import Annotated

from ..boxes.portion import Portion
from ..quantities.errors import MeasurementError, Of, Path, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import CATCH, HOUR, HOURS, LOAD
from ..quantities.working import Line
from ..quantities.written import put

SOW_WITHIN = 48 * HOUR
ERDMAN = "Erdman, USDA bulletin on legume inoculation, 1967"
ROUNDING = 1e-9

RULES = (
    say("Follow the label: its rate, its legumes and its expiration date."),
    say(
        "Seed within the hours on the label ({hours} if it has none), or "
        "inoculate again ({source}).",
        hours=HOURS(SOW_WITHIN),
        source=ERDMAN,
    ),
    say("Always inoculate where that legume has not been grown before ({source}).", source=ERDMAN),
    say(
        "Keep inoculant and inoculated seed cool and out of the sun (Mississippi State Extension)."
    ),
    say(
        "In a mix, other seed rubs inoculant off: sellers advise using more, as "
        "far as the label allows."
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Inoculant:
    """What stands on the label.

    Parameters
    ----------
    amount : float
        Inoculant for ... [kg]
    seed : float
        ... this much seed. [kg]
    pack : float, optional
        Inoculant in a pack. [kg]
    sow_within : float
        Time from inoculating to sowing. [s]

    Raises
    ------
    MeasurementError
        For an amount that is not above zero.
    """

    name: str
    amount: float
    seed: float
    pack: float | None = None
    sow_within: float = SOW_WITHIN

    def __post_init__(self) -> None:
        require_positive("inoculant", self.amount, "kg")
        require_positive(Path("inoculant", "seed"), self.seed, "kg")
        require_positive("sow_within", self.sow_within, "s")
        if self.pack is not None:
            require_positive(Path("inoculant", "pack"), self.pack, "kg")


@dataclass(frozen=True, slots=True, kw_only=True)
class Inoculation:
    """Inoculant for the seed of one legume. [kg]

    ``each_time`` is what goes on the seed of one of ``times`` equal parts, so
    that no part lies longer than the label allows.
    """

    KEYS = (
        *(put("species", "seed"), "inoculant", "amount", "packs", "times", "each_time", "say"),
        put("notes", "warnings"),
    )

    seed: str
    inoculant: str
    amount: Annotated[float, CATCH]
    packs: int | None
    times: int
    each_time: Annotated[float, CATCH]
    say: Phrase
    warnings: tuple[Phrase, ...]
    working: tuple[Line, ...]


def inoculate(
    portion: Portion,
    weight: float,
    *,
    inoculant: Inoculant,
    hours: float = 0.0,
    times: int = 1,
) -> Inoculation:
    """Work out inoculant for a weight of seed, by the label's rate.

    amount = weight × label's inoculant ÷ label's seed

    Parameters
    ----------
    portion : Portion
        A legume.
    weight : float
        Its seed. [kg]
    hours : float
        Time from the first seed in the ground to the last. [s]
    times : int
        Batches that the seed is mixed in; more where time asks for it.

    Returns
    -------
    Inoculation [kg]

    Raises
    ------
    MeasurementError
        For a species that is no legume, a weight not above zero, or no time
        at all.

    References
    ----------
    L. W. Erdman, USDA (1967): plant within 48 h or inoculate again. The rate
    is the label's own.

    Examples
    --------
    >>> vetch = Portion(name="vetch", rate=0.002, seeds_per_kg=35_000.0, legume=True)
    >>> label = Inoculant(name="pea and vetch", amount=0.15, seed=25.0, pack=0.2)
    >>> done = inoculate(vetch, 100.0, inoculant=label)
    >>> round(done.amount, 3), done.packs
    (0.6, 3)
    """
    _require(portion, weight, times)
    amount = weight * inoculant.amount / inoculant.seed
    parts = max(times, ceil(hours / inoculant.sow_within - ROUNDING))
    packs = None if inoculant.pack is None else ceil(amount / inoculant.pack - ROUNDING)
    return Inoculation(
        seed=portion.name,
        inoculant=inoculant.name,
        amount=amount,
        packs=packs,
        times=parts,
        each_time=amount / parts,
        say=_in_time(_headline(portion.name, amount, parts, packs=packs), inoculant.sow_within),
        warnings=_warnings(portion, inoculant, hours=hours),
        working=(_line(portion.name, weight, inoculant),),
    )


def _require(portion: Portion, weight: float, times: int) -> None:
    if not portion.legume:
        need = say("inoculate legumes only: leave the inoculant off this one")
        raise MeasurementError(Path("inoculant", Of(portion.name)), portion.name, need)
    require_positive(Path("weight", Of(portion.name)), weight, "kg")
    if not times >= 1:
        raise MeasurementError("times", times, say("enter 1 or more"))


def _headline(name: str, amount: float, parts: int, *, packs: int | None) -> Phrase:
    weight = CATCH(amount)
    text = "{name}: {amount} of inoculant"
    if packs is not None:
        text = "{name}: {amount} of inoculant, {packs} packages"
    if packs == 1:
        text = "{name}: {amount} of inoculant, {packs} package"
    start = say(text, name=name, amount=weight, packs=packs or 0)
    if parts == 1:
        return start
    each = CATCH(amount / parts)
    return say("{start}, {each} in each of {parts} batches", start=start, each=each, parts=parts)


def _in_time(what: Phrase, within: float) -> Phrase:
    """Say the hours of the label too, where they are not those of all the others."""
    if within == SOW_WITHIN:
        return what
    return say("{what}; seed within {hours}", what=what, hours=HOURS(within))


def _warnings(portion: Portion, inoculant: Inoculant, *, hours: float) -> tuple[Phrase, ...]:
    said = []
    if portion.treated:
        text = "{name} is treated: check both labels before you put inoculant on that treatment"
        said.append(say(text, name=portion.name))
    if hours > inoculant.sow_within:
        text = (
            "seeding will take {hours}, longer than the {limit} inoculated seed "
            "should sit: split the job"
        )
        limit = HOURS(inoculant.sow_within)
        said.append(say(text, hours=HOURS(hours), limit=limit))
    return tuple(said)


def _line(name: str, weight: float, inoculant: Inoculant) -> Line:
    amount = weight * inoculant.amount / inoculant.seed
    terms = LOAD(weight) * CATCH(inoculant.amount) / LOAD(inoculant.seed)
    text = "Inoculant for {name}: seed × label amount ÷ label seed weight"
    return Line(say(text, name=name), CATCH(amount), terms, "the label")
