"""A row that is shut off on purpose: out of the catch, and told to the job."""

from msgspec.structs import replace

from evenstand.book.kinds.work import Catch, Job
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

from ..job.kept import Kept, job_drill


def shut_off(catch: Catch, kept: Kept, *, row: str) -> tuple[Catch, Job]:
    """Take rows out of a catch, and shut them off in its job.

    An outermost row leaves the drill narrower; ground under one between open
    rows is still covered.

    Parameters
    ----------
    kept : Kept
        The job that the catch was made for.
    row : str
        Number of the first row of a bag.

    Returns
    -------
    Catch, Job

    Raises
    ------
    MeasurementError
        Where no bag has that row, or it is the only one (field ``row``).
    """
    gone = [bag for bag in catch.bags if str(bag.row) == row]
    left = tuple(bag for bag in catch.bags if bag not in gone)
    if not gone or not left:
        raise MeasurementError("row", row, say("choose one of the rows that were caught"))
    (bag,), drill = gone, job_drill(kept)
    at_end = bag.row == 1 or bag.row + bag.rows - 1 == drill.rows
    key = "blocked_end" if at_end else "blocked"
    job = replace(kept.body, **{key: getattr(kept.body, key) + bag.rows})
    return replace(catch, bags=left), job
