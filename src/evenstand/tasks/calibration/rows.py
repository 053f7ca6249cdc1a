"""How even the rows of a drill are, and what to look at."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import CATCH, SCALE_STEP
from evenstand.engine.quantities.written import put
from evenstand.engine.rows.evenness import Evenness, evenness
from evenstand.engine.statistics.budget import nominal

from ..parsing.given import Given, listed
from ..parsing.warned import Warned


@dataclass(frozen=True)
class Rows:
    """Rows judged, and what was taken for it."""

    KEYS = (put("even", added=True), put("taken_as", "assumed"), "warnings")

    even: Evenness
    assumed: tuple[Phrase, ...]
    warnings: tuple[Warned, ...] = ()


def rows(
    weights: Sequence[Sequence[float]],
    *,
    resolution: float | None = None,
    row_cv: float | None = None,
    limit: float | None = None,
    columns: Mapping[str, Sequence[str]] | None = None,
) -> Rows:
    """Judge the rows of a catch and its repeats.

    Parameters
    ----------
    weights : sequence of sequences of float
        Net seed of each row, catch by catch. [kg]
    resolution : float, optional
        Step of the scale; without it rounding is left out, and said. [kg]
    row_cv : float, optional
        What these rows differ by when all is well. [-]
    limit : float, optional
        The user's own limit (±) for a row. [-]
    columns : mapping of str to sequence of str, optional
        A label for each row, by what the labels tell apart.
    """
    even = evenness(
        weights, resolution=resolution or 0.0, row_cv=row_cv, limit=limit, columns=columns
    )
    left_out = (
        ()
        if resolution
        else (say("scale rounding not included: enter the scale step to include it"),)
    )
    return Rows(even, even.assumed + left_out)


def read_rows(given: Given, again: Sequence[Given] = (), columns: Sequence[Given] = ()) -> Rows:
    """Read what was written for it, and judge the rows.

    Parameters
    ----------
    again : sequence of Given
        Each repeat, under ``weights``.
    columns : sequence of Given
        Each with labels under ``columns``, as ``front, rear`` or ``rank: front, rear``.
    """
    weights = [_weights(each) for each in (given, *again)]
    named = dict(_column(each, count=len(weights[0])) for each in columns)
    with given.pointing():
        return rows(
            weights,
            resolution=given.exact("resolution", SCALE_STEP) if "resolution" in given else None,
            row_cv=nominal(given.share("row_cv", tag="row")) if "row_cv" in given else None,
            limit=nominal(given.share("limit", tag="limit")) if "limit" in given else None,
            columns=named,
        )


def _weights(given: Given) -> list[float]:
    texts = listed(given.text("weights"))
    return [given.part(text, "weights", CATCH).value for text in texts]


def _column(given: Given, *, count: int) -> tuple[str, list[str]]:
    """Read labels; fewer than rows go round, as front, rear, front, rear."""
    name, colon, rest = given.text("columns").partition(":")
    labels = listed(rest if colon else name)
    kinds = list(dict.fromkeys(labels))
    if not labels or count % len(labels) or len(kinds) < 2:
        need = say(
            "enter a label for each of the {rows} rows, or some that repeat, such as front, rear",
            rows=count,
        )
        raise given.refuse("columns", need)
    return (name.strip() if colon else "/".join(kinds)), labels * (count // len(labels))
