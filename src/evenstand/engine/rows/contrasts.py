"""Groups of rows that ought to drop alike, planned before a catch is looked at.

Rows are counted from 1 at the left, looking the way the drill goes.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, say

Shape = Literal["halves", "trend", "ends", "period", "column"]

GROUPS = {
    "left half": say("left half"),
    "right half": say("right half"),
    "inner rows": say("inner rows"),
    "outermost rows": say("outermost rows"),
}
RANKS = {2: say("two ranks, every other row"), 3: say("three ranks, every third row")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Contrast:
    """Rows put in groups.

    A ``period`` of k is looked for among neighbours, k rows at a time.
    ``about`` names the group that is spoken of; without it that is the one
    farthest from all others.
    """

    shape: Shape
    name: Phrase
    labels: Mapping[int, str]
    period: int = 0
    about: str = ""

    def block(self, row: int) -> int:
        """Neighbours that a row is compared with."""
        return (row - 1) // self.period if self.period else 0

    def group(self, label: str) -> Phrase:
        """Name a group in words that can be translated."""
        if self.shape == "period":
            return say("rows {rows}", rows=label)
        return say("{label}", label=label) if self.shape == "column" else GROUPS[label]

    def partition(self, rows: Iterable[int]) -> frozenset[frozenset[int]]:
        """Which of some rows stand together, whatever their groups are called."""
        groups: dict[str, set[int]] = {}
        for row in rows:
            groups.setdefault(self.labels[row], set()).add(row)
        return frozenset(frozenset(group) for group in groups.values())


def planned(rows: int, columns: Mapping[str, Sequence[str]]) -> tuple[Contrast, ...]:
    """Lay out the contrasts of a drill.

    Parameters
    ----------
    rows : int
        Rows of the drill. [row]
    columns : mapping of str to sequence of str
        Labels of the rows by column: rank, box, feed shaft.

    Returns
    -------
    tuple of Contrast
        The user's columns, then left and right half, outermost rows and
        every period from 2 to half the rows; one whose groups a column
        already has is left out.

    Raises
    ------
    MeasurementError
        Where a column has not one label for each row (field ``columns``).
    """
    mine = [_column(name, labels, rows) for name, labels in columns.items()]
    ready = [_halves(rows), _ends(rows), *(_period(k, rows) for k in range(2, rows // 2 + 1))]
    return (*mine, *(contrast for contrast in ready if not _told(contrast, mine)))


def _told(ready: Contrast, mine: Sequence[Contrast]) -> bool:
    """Whether a column of the user has the groups of a contrast already."""
    groups = ready.partition(ready.labels)
    return any(column.partition(ready.labels) == groups for column in mine)


def _column(name: str, labels: Sequence[str], rows: int) -> Contrast:
    if len(labels) != rows:
        need = say("enter one label for each of the {rows} rows", rows=rows)
        raise MeasurementError("columns", tuple(labels), need)
    by_row = {row: str(label) for row, label in enumerate(labels, 1)}
    return Contrast(shape="column", name=say("{column}", column=name), labels=by_row)


def _halves(rows: int) -> Contrast:
    half = rows // 2
    sides = dict.fromkeys(range(1, half + 1), "left half")
    sides |= dict.fromkeys(range(rows - half + 1, rows + 1), "right half")
    return Contrast(shape="halves", name=say("left and right half"), labels=sides)


def _ends(rows: int) -> Contrast:
    labels = dict.fromkeys(range(1, rows + 1), "inner rows")
    labels[1] = labels[rows] = "outermost rows"
    name = say("outermost rows")
    return Contrast(shape="ends", name=name, labels=labels, about="outermost rows")


def _period(k: int, rows: int) -> Contrast:
    """Places 1 to k, over and over; a last group of fewer than k rows is left out."""
    whole = rows - rows % k
    names = {place: _listed(range(place, whole + 1, k)) for place in range(1, k + 1)}
    labels = {row: names[(row - 1) % k + 1] for row in range(1, whole + 1)}
    name = RANKS.get(k, say("every {k} rows", k=k))
    return Contrast(shape="period", name=name, labels=labels, period=k)


def _listed(rows: Iterable[int]) -> str:
    return ", ".join(str(row) for row in rows)
