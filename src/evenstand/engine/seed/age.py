"""How old a germination test is, and how old the law lets it grow."""

from dataclasses import dataclass

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Iso, Phrase, say
from .tag import Month, Tag


@dataclass(frozen=True, slots=True, kw_only=True)
class AgeLimit:
    """Months that a test may be old, from the end of the month it was made in.

    ``cool_season`` and ``hermetic`` stand where the law gives cool-season
    grasses, or seed sealed against moisture, a limit of their own.
    """

    place: str
    months: int
    short: str = ""
    cool_season: int | None = None
    hermetic: int | None = None
    source: str = ""

    def __post_init__(self) -> None:
        for months in (self.months, self.cool_season, self.hermetic):
            if months is not None and not months > 0:
                raise MeasurementError("age_limit", months, say("enter a number of months above 0"))

    def allowed(self, *, hermetic: bool, cool_season_grass: bool) -> int:
        """Months that hold for seed of this kind."""
        if hermetic and self.hermetic is not None:
            return self.hermetic
        if cool_season_grass and self.cool_season is not None:
            return self.cool_season
        return self.months


INTERSTATE = AgeLimit(
    place="interstate trade",
    short="interstate",
    months=5,
    hermetic=24,
    source="7 CFR 201.22, 201.30a and 201.36c",
)
# Those read. Others: mostly 9 to 15 months (common practice, no source); a user can enter one.
LIMITS = (
    INTERSTATE,
    AgeLimit(
        place="Kentucky",
        short="KY",
        months=9,
        cool_season=15,
        hermetic=36,
        source="University of Kentucky, Division of Regulatory Services",
    ),
    AgeLimit(
        place="Tennessee",
        short="TN",
        months=9,
        hermetic=24,
        source="Tennessee Rules 0080-05-06-.10",
    ),
    AgeLimit(place="Indiana", short="IN", months=12, source="Indiana House Bill 1350 (2014)"),
    AgeLimit(
        place="New Hampshire", short="NH", months=9, source="New Hampshire seed law, historic"
    ),
)


def limit_of(state: str) -> AgeLimit | None:
    """Return the limit kept for a state, by name or two letters; None where none was read."""
    wanted = " ".join(state.casefold().split())
    return next(
        (limit for limit in LIMITS if wanted in (limit.place.casefold(), limit.short.casefold())),
        None,
    )


def age(tested: Month, *, today: Month) -> int:
    """Months since the end of the month of the test, at the end of this one.

    Returns
    -------
    int [month]

    Raises
    ------
    MeasurementError
        For a test in the future.

    References
    ----------
    7 CFR 201.22: so many calendar months after the month of the test.

    Examples
    --------
    Tested in March, seed may cross a state line until the end of August:

    >>> age(Month(2026, 3), today=Month(2026, 8))
    5
    """
    if tested > today:
        need = say("enter the test month: it can't be after {today}", today=Iso(today))
        raise MeasurementError("tested", str(tested), need)
    return tested.until(today)


def too_old(
    tag: Tag, *, today: Month, limit: AgeLimit = INTERSTATE, cool_season_grass: bool = False
) -> Phrase | None:
    """Say that a test is older than a limit allows; it never stops a job.

    Returns
    -------
    Phrase or None
        None where the tag has no date, or is young enough.

    Raises
    ------
    MeasurementError
        For a test in the future.
    """
    if tag.tested is None:
        return None
    months = age(tag.tested, today=today)
    allowed = limit.allowed(hermetic=tag.hermetic, cool_season_grass=cool_season_grass)
    if months <= allowed:
        return None
    return say(
        "The germination test from {tested} is {months} months old; {place} "
        "allows {allowed} months ({source}). Retest it, at home if need be, "
        "before you rely on it.",
        tested=Iso(tag.tested),
        months=months,
        place=limit.place,
        allowed=allowed,
        source=limit.source or "the limit you entered",
    )


def no_limit(state: str) -> Phrase:
    """Say that no limit is kept for a state."""
    return say(
        "We have no age limit for {state}; most states set 9 to 15 months (common"
        " practice). Ask the state seed office.",
        state=state,
    )
