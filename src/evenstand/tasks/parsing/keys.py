"""Keys of a job file that stand for the fields of what is kept: a lot, its tag, its counts."""

from collections.abc import Collection

from msgspec import Struct

from evenstand.book.kinds.details import details
from evenstand.book.kinds.seed import Lot, Tag


def keys_of(known: type[Struct], *more: str, but: Collection[str] = ()) -> tuple[str, ...]:
    """Return the keys of a struct's fields, those left out that a job file says elsewhere.

    Parameters
    ----------
    *more : str
        Keys that no field has.
    but : collection of str
        Fields that are left out.
    """
    return (*(each.key for each in details(known) if each.name not in but), *more)


COUNTS = ("seeds_per_lb", "tsw", "coated_per_lb", "replicates", "counted")
TAG = keys_of(Tag, "home_test", "home_hard")
LOT = keys_of(Lot, *TAG, "replicates", "counted", "resolution", but=("tag", "treated_with", "note"))
