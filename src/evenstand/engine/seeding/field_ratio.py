"""What a field gets of what the stand promises, learned field by field for one drill."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt
from typing import Literal

from ..calibration.meter import Belief, predict, update
from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import NUMBER, RATE, SHARE
from ..quantities.working import Line
from ..seed.size_class import SeedClass
from ..statistics.budget import Estimate, Quantity, nominal, standard_uncertainty, uncertain
from ..statistics.distributions import t_quantile
from ..statistics.variance import mean_and_sd
from ..statistics.vectors import Vector

# Field rate ÷ bench rate of one fluted-wheel box: sorghum, millet, sesame, sunflower, cotton.
# Yousif, Gezira Journal of Agricultural Science, as quoted.
STUDY = (0.95, 0.88, 0.96, 0.95, 0.85)
# Rate charts of a planter manual count with about 6 % slip.
USUAL_SLIP, SLIP_U = 0.06, 0.03
CLASS_U = 0.03  # judgement: one class of seed against another on one drill
SOIL_U = 0.02  # judgement: one state of the soil against another
FIELD_U, FIELD_DOF = 0.02, 8.0  # judgement: one field against another of the same kind
LEAST, MOST = 0.5, 1.5  # ratios outside are a slip of the pen

Soil = Literal["firm", "loose", "wet", "residue", ""]


@dataclass(frozen=True, slots=True, kw_only=True)
class PastField:
    """A field that was closed: field rate ÷ what the bench made of it.

    Parameters
    ----------
    ratio : Quantity
        With its standard uncertainty. [-]
    soil : Soil
        As it was noted, empty where nobody did.
    boxes : int
        Boxes of that field that each have a ratio: they share its luck, so
        that together they count as one field.

    Raises
    ------
    MeasurementError
        For a ratio below 0.5 or above 1.5, or less than one box.
    """

    ratio: Quantity
    seed_class: SeedClass
    soil: Soil = ""
    boxes: int = 1

    def __post_init__(self) -> None:
        require_positive("boxes", self.boxes)
        if not LEAST <= nominal(self.ratio) <= MOST:
            need = say(
                "check the weights and the area: a field gets 50% to 150% of the stationary rate"
            )
            raise MeasurementError("ratio", nominal(self.ratio), need)


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldRatio:
    """The field ratio to count with on the next field. [-]

    ``ratio`` has its 95% range for one field to come; ``fields`` is how many
    own fields it rests on, and ``own`` how much of what is known comes from
    them, from 0 to 1.
    """

    ratio: Estimate
    fields: int
    own: float
    say: Phrase
    assumed: tuple[Phrase, ...]

    @property
    def quantity(self) -> Quantity:
        """As an input to a rate at the stand."""
        return uncertain(self.ratio.value, self.ratio.u, "field ratio")


def closed_ratio(field: Quantity, *, static: Quantity) -> Quantity:
    """Work out the ratio of a field that is done.

    ratio = field rate ÷ static rate

    Parameters
    ----------
    field : Quantity
        Used ÷ ground. [kg/m²]
    static : Quantity
        What the stand promised, slip counted as it was then. [kg/m²]

    Raises
    ------
    MeasurementError
        For rates not above zero.
    """
    require_positive("field", nominal(field), "kg/m²")
    require_positive("static", nominal(static), "kg/m²")
    return field / static


def ratio_line(field: float, static: float) -> Line:
    """Write that line of working."""
    return Line(
        say("Field ratio: field rate ÷ stationary rate"),
        NUMBER(field / static),
        RATE(field) / RATE(static),
    )


def from_study(*, slip_counted: bool) -> tuple[float, float]:
    """Mean and standard uncertainty of the ratio before any own field.

    The mean of the study's five crops, ÷ (1 − 6%) where slip is counted
    apart; their spread, the mean's own doubt and that of the slip together.

    Parameters
    ----------
    slip_counted : bool
        Whether slip is already in the travel: a rolled wheel, or a slip given.

    Returns
    -------
    tuple of float [-]

    Examples
    --------
    >>> print("{:.3f} ± {:.3f}".format(*from_study(slip_counted=False)))
    0.918 ± 0.054
    """
    mean, sd = mean_and_sd(STUDY)
    u = sd * sqrt(1 + 1 / len(STUDY))
    if not slip_counted:
        return mean, u
    kept = 1 - USUAL_SLIP
    part = SLIP_U / kept
    return mean / kept, sqrt(u / mean * (u / mean) + part * part) * mean / kept


def learn_ratio(
    fields: Sequence[PastField],
    *,
    seed_class: SeedClass,
    soil: Soil = "",
    slip_counted: bool = True,
) -> FieldRatio:
    """Learn the ratio of the next field from a drill's own, the study behind them.

    ratio = drill + class of seed + soil + field; each field that is closed
    changes all of them at once (conjugate normal–inverse gamma), so that one
    field moves the study's number a little and twenty replace it.

    Parameters
    ----------
    fields : sequence of PastField
        Of this drill; the order does not matter.
    seed_class : SeedClass
        Of the seed to be sown next.
    slip_counted : bool
        Whether slip is already in the travel.

    References
    ----------
    Yousif, Gezira Journal of Agricultural Science, for the start; Gelman et
    al., Bayesian Data Analysis, 3rd ed., ch. 14 (not read), for learning.
    """
    classes = sorted({f.seed_class for f in fields} | {seed_class})
    soils = sorted({f.soil for f in fields if f.soil} | ({soil} if soil else set()))
    start, u = from_study(slip_counted=slip_counted)
    belief = _start(start, u, classes=len(classes), soils=len(soils))
    x = _features(seed_class, soil, classes=classes, soils=soils)
    before = predict(belief, x)[1]
    for past in fields:
        own = standard_uncertainty(past.ratio) / FIELD_U
        belief = update(
            belief,
            _features(past.seed_class, past.soil, classes=classes, soils=soils),
            rate=nominal(past.ratio),
            weight=past.boxes * (1 + own * own),
        )
    number = round(fsum(1 / past.boxes for past in fields))
    mean, sd = predict(belief, x)
    ratio = _next(mean, sd, belief)
    own_part = 1 - (sd / belief.scatter) * (sd / belief.scatter) / (
        before / FIELD_U * before / FIELD_U
    )
    return FieldRatio(
        ratio=ratio,
        fields=number,
        own=max(0.0, own_part),
        say=_headline(ratio, fields=number, own=max(0.0, own_part)),
        assumed=_assumed(start, u, slip_counted=slip_counted),
    )


def _start(mean: float, u: float, *, classes: int, soils: int) -> Belief:
    """The study's number for the drill; its crops' spread is partly that of classes and soils."""
    drill = max(FIELD_U, sqrt(max(0.0, u * u - CLASS_U * CLASS_U - FIELD_U * FIELD_U)))
    us = (drill, *(CLASS_U,) * classes, *(SOIL_U,) * soils)
    spread = tuple(
        tuple(v * v / (FIELD_U * FIELD_U) if i == j else 0.0 for j in range(len(us)))
        for i, v in enumerate(us)
    )
    return Belief((mean, *(0.0,) * (len(us) - 1)), spread, FIELD_U, FIELD_DOF)


def _features(
    seed_class: SeedClass, soil: Soil, *, classes: Sequence[str], soils: Sequence[str]
) -> Vector:
    return (
        1.0,
        *(float(name == seed_class) for name in classes),
        *(float(name == soil) for name in soils),
    )


def _next(mean: float, sd: float, belief: Belief) -> Estimate:
    """What is known of the kind of field, and that one field differs from another."""
    u = sqrt(sd * sd + belief.scatter * belief.scatter)
    reach = t_quantile(0.975, dof=belief.dof) * u
    return Estimate(mean, mean - reach, mean + reach, u, belief.dof if belief.dof else inf)


def _headline(ratio: Estimate, *, fields: int, own: float) -> Phrase:
    values = {
        "ratio": SHARE(ratio.value),
        "low": SHARE(ratio.low),
        "high": SHARE(ratio.high),
        "own": SHARE(own, 2),
    }
    if not fields:
        text = (
            "Plan on {ratio} ({low} to {high}) of the stationary rate, from a "
            "study; none of your own fields yet."
        )
        del values["own"]
        return say(text, **values)
    if fields == 1:
        text = (
            "Plan on {ratio} ({low} to {high}) of the stationary rate, from one "
            "field of your own and a study. Your own data is {own} of that."
        )
        return say(text, **values)
    text = (
        "Plan on {ratio} ({low} to {high}) of the stationary rate, from {n} "
        "fields of your own. Your own data is {own} of that."
    )
    return say(text, n=fields, **values)


def _assumed(mean: float, u: float, *, slip_counted: bool) -> tuple[Phrase, ...]:
    text = (
        "until you have your own fields: {ratio} ± {u} of the stationary rate, "
        "from five crops in one study"
    )
    if slip_counted:
        text = (
            "until you have your own fields: {ratio} ± {u} of the stationary "
            "rate, slip counted, from five crops in one study; charts assume 6% "
            "slip"
        )
    return (say(text, ratio=SHARE(mean), u=SHARE(u, 2)),)
