"""Which rows were caught, as it is written: how many, or which by number."""

import re
from dataclasses import dataclass
from itertools import pairwise

from evenstand.engine.catch.weighing import Bag, Catch
from evenstand.engine.drill.drill import Drill
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import ROWS

from .given import Given

KEY = "rows_caught"
_APART = re.compile(r"\s*[;,]\s*")
_GROUP = re.compile(r"(\d+)(?:\s*[-–]\s*(\d+))?")


@dataclass(frozen=True)
class RowsCaught:
    """How many rows were caught; ``groups`` of neighbors by number where they are known.

    ``every``: all rows of the drill; one bag of them needs no numbers.
    """

    count: int
    groups: tuple[range, ...] = ()
    every: bool = False

    def bags(self, weights: list[float]) -> Catch | None:
        """Share the rows out among the bags, from the left; None where they do not go round.

        One bag for all, one for each group, one for each row, or equal groups.
        """
        if not weights or self.count % len(weights):
            return None
        each = self.count // len(weights)
        rows = [row for group in self.groups for row in group]
        if len(weights) == len(self.groups) and not self.every:
            parts = [list(group) for group in self.groups]
        elif rows and not (self.every and len(weights) == 1):
            parts = [rows[i : i + each] for i in range(0, self.count, each)]
        else:
            parts = [[0] * each] * len(weights)
        return tuple(
            Bag(weight=weight, rows=len(part), first=part[0] if _neighbors(part) else 0)
            for weight, part in zip(weights, parts, strict=True)
        )


def _neighbors(rows: list[int]) -> bool:
    return all(after == row + 1 for row, after in pairwise(rows))


def of_all(count: int, drill: Drill) -> RowsCaught:
    """So many rows, from the first on where that is every row of the drill."""
    every = count == drill.rows
    return RowsCaught(count, (range(1, count + 1),) if every else (), every=every)


def row_numbers(given: Given, *, drill: Drill) -> RowsCaught:
    """Read how many rows were caught, or which: ``4``, or ``5, 10, 12, 18``, or ``1-6, 7-12``.

    Raises
    ------
    MeasurementError
        For more rows than drop seed, a row that the drill has not, one named twice.
    """
    pieces = _APART.split(given.text(KEY).strip())
    if len(pieces) == 1 and not re.search(r"\d\s*[-–]", pieces[0]):
        count = given.count(KEY, ROWS)
        found = of_all(count, drill)
    else:
        groups = [_group(given, _GROUP.fullmatch(each)) for each in pieces]
        found = RowsCaught(_checked(given, groups, drill), tuple(groups))
    if found.count > drill.open_rows:
        need = say("enter no more than the drill's {rows} open rows", rows=drill.open_rows)
        raise given.refuse(KEY, need)
    return found


def _group(given: Given, found: re.Match[str] | None) -> range:
    if found is None:
        need = say("enter how many rows, or which ones, such as 5, 10, 12 or 1-6, 7-12")
        raise given.refuse(KEY, need)
    return range(int(found[1]), int(found[2] or found[1]) + 1)


def _checked(given: Given, groups: list[range], drill: Drill) -> int:
    """Return how many rows some groups have, each of the drill's and named once."""
    rows = [row for group in groups for row in group]
    if not all(groups) or len({*rows}) < len(rows) or not 1 <= min(rows) <= max(rows) <= drill.rows:
        need = say("enter each row once, from 1 to {rows}, the lower number first", rows=drill.rows)
        raise given.refuse(KEY, need)
    return len(rows)
