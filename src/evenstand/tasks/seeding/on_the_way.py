"""What was written down of a job while it was sown."""

from dataclasses import dataclass
from typing import TypeVar

from evenstand.book.book import Book
from evenstand.book.kinds import sown, work
from evenstand.book.kinds.shape import Body

from ..boxes.kept import body_of, order_of
from ..job.kept import Kept, find

Known = TypeVar("Known", bound=Body)


@dataclass(frozen=True, kw_only=True)
class OnTheWay:
    """All that was written down of a job so far.

    ``boxes`` are the job once for each box that a rate is wanted from.
    """

    boxes: tuple[Kept, ...]
    things: tuple[tuple[str, Body], ...]
    order: work.Order | None

    def of(self, kind: type[Known], *, box: str | None = None) -> list[Known]:
        """Return what was written of a kind, oldest first; of one box where one is named."""
        bodies = [body for _, body in self.things if isinstance(body, kind)]
        return [body for body in bodies if box is None or getattr(body, "box", "") == box]

    @property
    def finished(self) -> sown.Finished | None:
        """The end of the field as last written down."""
        return next(iter(reversed(self.of(sown.Finished))), None)

    @property
    def begun(self) -> bool:
        """Whether anything was put into a box."""
        return bool(self.of(sown.Load) or self.of(sown.Level))


SOWN = (sown.Load, sown.Level, sown.Ground, sown.Moved, sown.Check, sown.Finished)


def on_the_way(
    book: Book, kept: Kept, *, new: Body | None = None, about: str = "", without: str = ""
) -> OnTheWay:
    """Gather what was written down of a job.

    Parameters
    ----------
    new : Body, optional
        What is about to be kept, taken as if it were.
    about : str
        Id of the thing that ``new`` corrects.
    without : str
        Id of a thing to leave out.
    """
    job = kept.thing.id
    things: list[tuple[str, Body]] = [
        (thing.id, thing.body)
        for kind in SOWN
        for thing in reversed(book.things(kind.kind, of=job))
        if thing.id not in (about, without) and isinstance(thing.body, kind)
    ]
    if new is not None:
        things.append((about, new))
    return OnTheWay(
        boxes=tuple(find(book, job, box=wanted.box) for wanted in kept.body.wanted),
        things=tuple(things),
        order=body_of(order_of(book, kept), work.Order),
    )
