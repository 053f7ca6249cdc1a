"""A sample of seed, separated by species: counted, or weighed and turned into counts."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import floor

from ..quantities.errors import MeasurementError, Of, Path
from ..quantities.phrases import say
from .portion import Portion

MOST_SEEDS = 1e7  # beyond it somebody typed a weight as a count


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """Seeds of each species in a sample.

    Parameters
    ----------
    counts : mapping of str to int
        By species; none found is 0. [seeds]
    out : float
        Share of the box's seed that was out when the sample was caught. [-]
    weighed : bool
        Whether the counts were made from weights, so that an error of the
        seed counts cancels against the filling.

    Raises
    ------
    MeasurementError
        For a count that is no whole number of 0 or more, or ``out`` not from
        0 to 1.
    """

    counts: Mapping[str, int]
    out: float = 0.0
    weighed: bool = False

    def __post_init__(self) -> None:
        for name, seeds in self.counts.items():
            if not 0 <= seeds <= MOST_SEEDS or seeds != floor(seeds):
                need = say(
                    "enter how many seeds you found, 0 or more; for a weight, include the unit"
                )
                raise MeasurementError(Path("sample", Of(name)), seeds, need)
        if not 0 <= self.out <= 1:
            need = say("enter the share of the box already used, 0% to 100%")
            raise MeasurementError("out", self.out, need)

    @property
    def seeds(self) -> int:
        """All seeds in the sample."""
        return sum(seeds for seeds in self.counts.values())

    def of(self, portions: Sequence[Portion]) -> list[int]:
        """Counts in the order of what is in the box.

        Raises
        ------
        MeasurementError
            For a species that is not in the box, or one that is and was not
            looked for.
        """
        names = [each.name for each in portions]
        for name in self.counts:
            if name not in names:
                need = say("enter what is in the box: {names}", names=", ".join(names))
                raise MeasurementError("sample", name, need)
        for name in names:
            if name not in self.counts:
                need = say("enter how many you found, 0 if none")
                raise MeasurementError(Path("sample", Of(name)), None, need)
        return [self.counts[name] for name in names]


def counted(counts: Mapping[str, int], *, out: float = 0.0) -> Sample:
    """Take a sample that was counted."""
    return Sample(counts=counts, out=out)


def weighed(
    weights: Mapping[str, float], portions: Sequence[Portion], *, out: float = 0.0
) -> Sample:
    """Turn the weights of a separated sample into counts.

    seeds = weight × seeds per weight, to whole seeds

    Parameters
    ----------
    weights : mapping of str to float
        Pure seed of each species. [kg]
    portions : sequence of Portion
        What is in the box.
    out : float
        Share of the box's seed that was out. [-]

    Raises
    ------
    MeasurementError
        For a weight below zero or a species that is not in the box.

    Notes
    -----
    Chance works on seeds, never on grams: one gram of rye is forty chances,
    one gram of timothy more than two thousand.

    Examples
    --------
    >>> rye = Portion(name="rye", rate=0.005, seeds_per_kg=40_000.0)
    >>> weighed({"rye": 0.01}, [rye]).counts["rye"]
    400
    """
    per_kg = {each.name: each.count for each in portions}
    counts = {}
    for name, weight in weights.items():
        if name not in per_kg:
            need = say("enter what is in the box: {names}", names=", ".join(per_kg))
            raise MeasurementError("sample", name, need)
        if not weight >= 0:
            raise MeasurementError(
                Path("sample", Of(name)), weight, say("enter a weight of 0 or more")
            )
        counts[name] = floor(weight * per_kg[name] + 0.5)
    return Sample(counts=counts, out=out, weighed=True)
