"""How counts scatter from place to place: like chance, more evenly, or in clumps."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, say
from ..quantities.units import NUMBER
from ..statistics.distributions import chi_square_survival

CLUMPED_BELOW = 0.05  # chance of so much scatter without clumps, below which clumps are said


@dataclass(frozen=True, slots=True, kw_only=True)
class Scatter:
    """What the scatter of counts looks like.

    ``ratio`` is variance ÷ mean, 1 for plants that fell by chance; ``p`` the
    probability of a ratio as high by chance alone. ``morisita`` is how much
    likelier two plants share a place than by chance. ``k`` is that of a negative
    binomial with this scatter, infinite where there is no more than by chance.
    ``cv`` is the relative scatter of single places.
    """

    ratio: float
    p: float
    morisita: float
    k: float
    cv: float

    @property
    def clumped(self) -> bool:
        """Whether plants stand in clumps, farther from chance than 1 field in 20."""
        return self.p < CLUMPED_BELOW


def squares(counts: Sequence[float], areas: Sequence[float]) -> float:
    """Squared gaps of counts from what their ground would hold, for n and not n − 1 places.

    n ÷ (n − 1) × Σ (count − D × area)², D = Σ count ÷ Σ area

    Parameters
    ----------
    counts : sequence of float, length n ≥ 2
    areas : sequence of float, length n
        In any unit.
    """
    n, density = len(counts), fsum(counts) / fsum(areas)
    gaps = [count - density * area for count, area in zip(counts, areas, strict=True)]
    return n / (n - 1) * fsum(gap * gap for gap in gaps)


def scatter(counts: Sequence[int], *, areas: Sequence[float] | None = None) -> Scatter:
    """Describe how counts scatter.

    ratio = Σ (count − μ)² / μ ÷ (n − 1), Morisita = Σ x (x − 1) / (N (N − 1)) ÷ Σ w²,
    k = Σ μ² ÷ (Σ (count − μ)² n/(n − 1) − Σ μ); μ is the mean for that ground, w its part

    Parameters
    ----------
    counts : sequence of int, length n ≥ 2
        Plants in each place.
    areas : sequence of float, length n, optional
        Ground of each; left out where all are alike. [m²]

    Raises
    ------
    MeasurementError
        For fewer than two places, or fewer than two plants in all.

    References
    ----------
    R. A. Fisher (1925), Statistical Methods for Research Workers, section 16, for the ratio;
    M. Morisita (1959), Memoirs of the Faculty of Science, Kyushu University E 2, 215–235;
    both not read.

    Examples
    --------
    >>> found = scatter([0, 4, 1, 3])  # mean 2, variance 10/3, Σ x (x − 1) = 18
    >>> print(f"{found.ratio:.3f}, {found.morisita:.3f}, {found.k:.1f}")
    1.667, 1.286, 3.0
    """
    areas = areas or [1.0] * len(counts)
    total, n = fsum(counts), len(counts)
    if n < 2 or total < 2:
        raise MeasurementError("counts", tuple(counts), say("count 2 plants or more, in 2 spots"))
    ground = fsum(areas)
    parts = [area / ground for area in areas]
    means = [total * part for part in parts]
    chi_square = fsum((x - m) * (x - m) / m for x, m in zip(counts, means, strict=True))
    pairs = fsum(x * (x - 1) for x in counts)
    over = squares(counts, areas) - total
    return Scatter(
        ratio=chi_square / (n - 1),
        p=chi_square_survival(chi_square, dof=n - 1),
        morisita=pairs / (total * (total - 1)) / fsum(part * part for part in parts),
        k=fsum(m * m for m in means) / over if over > 0 else inf,
        cv=sqrt(n * squares(counts, areas)) / total,
    )


def in_words(seen: Scatter) -> tuple[Phrase, ...]:
    """Say that plants stand in clumps, and what to count instead; nothing where they do not."""
    if not seen.clumped:
        return ()
    text = (
        "The counts vary more than chance explains (variance ÷ average {ratio}): "
        "plants are clumped. Count longer strips or bigger hoops, across several "
        "rows."
    )
    return (say(text, ratio=NUMBER(seen.ratio, 2)),)
