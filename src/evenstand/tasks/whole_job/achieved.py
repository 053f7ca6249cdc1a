"""What was achieved: pure live seed of every species that went on the ground."""

from dataclasses import dataclass

from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.statistics.budget import Quantity, nominal

from ..boxes.portions import Tipped
from .gather import JobSoFar

WEIGHED = say("By weight: seed used from each box, over the area seeded.")
BY_SETTING = say(
    "From each box's setting and its catches: the seed used was not weighed, or "
    "the area was not entered."
)
BY_BOTH = say("By weight if a box was weighed back, otherwise by its setting.")


@dataclass(frozen=True, kw_only=True)
class Achieved:
    """One species on the ground: bulk and pure live seed [kg/m²], live seeds [1/m²].

    ``whole`` and ``whole_pls`` are bulk and pure live seed on all the ground
    [kg], None where that is not known; ``part`` is what was laid down of what
    was planned [-]; ``weighed`` tells whether the box was weighed back.
    """

    name: str
    box: str
    bulk: Quantity
    pls: Quantity
    live: Quantity
    whole: Quantity | None
    whole_pls: Quantity | None
    part: float
    weighed: bool


@dataclass(frozen=True, kw_only=True)
class Planned:
    """Pure live seed planned of one species [kg/m²], and what was achieved where it is known."""

    name: str
    box: str
    pls: Quantity
    achieved: Achieved | None


def plans(job: JobSoFar) -> tuple[Planned, ...]:
    """Return every species of the mix, in the order of its boxes.

    A box is taken to be mixed well: each species is its part of the weight.
    """
    if job.boxes is None:
        return ()
    tipped = {each.portion.name: each for each in job.boxes.tipped}
    return tuple(
        Planned(
            name=portion.name,
            box=filled.box.name,
            pls=portion.weighed * _pls(tipped[portion.name]),
            achieved=_achieved(job, filled, portion, pls=_pls(tipped[portion.name])),
        )
        for filled in job.boxes.used
        for portion in filled.portions
    )


def achieved(job: JobSoFar) -> tuple[Achieved, ...]:
    """Return the species whose box has laid down a known rate."""
    return tuple(each.achieved for each in plans(job) if each.achieved)


def _achieved(
    job: JobSoFar, filled: FilledBox, portion: Portion, *, pls: Quantity
) -> Achieved | None:
    rate, weighed = job.achieved(filled.box.name)
    if rate is None:
        return None
    share = filled.shares[portion.name]
    bulk, all_seed = rate * share, job.laid_down(filled.box.name)
    whole = None if all_seed is None else all_seed * share
    return Achieved(
        name=portion.name,
        box=filled.box.name,
        bulk=bulk,
        pls=bulk * pls,
        live=bulk * portion.live_per_kg,
        whole=whole,
        whole_pls=None if whole is None else whole * pls,
        part=nominal(bulk) / portion.weighed,
        weighed=weighed,
    )


def _pls(tipped: Tipped) -> Quantity:
    return tipped.lot.pls if tipped.lot else 1.0


def basis(found: tuple[Achieved, ...]) -> Phrase:
    """Say how the rates were found."""
    weighed = {each.weighed for each in found}
    return BY_BOTH if len(weighed) > 1 else WEIGHED if True in weighed else BY_SETTING
