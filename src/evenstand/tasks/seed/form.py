"""A lot as its tag is typed: into what is kept, and back into the fields of its form."""

from collections.abc import Iterator

from msgspec.structs import replace

from evenstand.book.kinds.details import detail
from evenstand.book.kinds.seed import Lot, Noxious, Tag
from evenstand.engine.quantities.phrases import say
from evenstand.engine.seed.tag import Month

from ..parsing.given import Given
from ..parsing.structs import keys, numbered, read, texts
from ..parsing.writing import Writing
from .bags import bag_texts, bags_typed
from .kept import read_kept
from .said import TOLD

MOST_WEEDS = 8


def read_lot_form(given: Given, *, today: Month) -> Lot:
    """Read a lot from the fields of its form.

    Parameters
    ----------
    today : Month
        No test can be younger.

    Raises
    ------
    RefusalsError or MeasurementError
        Each under the field it was typed in.
    """
    with Writing(given) as form:
        lot = read(form, Lot, tag=lambda: _tag(form), bags=lambda: tuple(bags_typed(form)))
        _check_one_way(form)
    with given.pointing(noxious="noxious1_name", bags="bag1_weight"):
        read_kept(lot, today=today)
    return lot


def _tag(form: Writing) -> Tag:
    tag = read(form, Tag, noxious=lambda: tuple(_weeds(form)))
    return replace(tag, treated=tag.treated or bool(form.text("treated_with")))


def _weeds(form: Writing) -> Iterator[Noxious]:
    for i in numbered(form.given, "noxious", keys(Noxious), most=MOST_WEEDS):
        yield read(form, Noxious, line=f"noxious{i}_")


def _check_one_way(form: Writing) -> None:
    """See that the seeds in a weight are told in one way."""
    told = [key for name in TOLD if (key := detail(Lot, name).key) in form.given]
    for key in told[1:]:
        form.refuse(form.given.refuse(key, say("enter it only one way")))


def lot_texts(lot: Lot) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    written = texts(lot) | texts(lot.tag) | bag_texts(lot.bags)
    for i, weed in enumerate(lot.tag.noxious, 1):
        written |= texts(weed, line=f"noxious{i}_")
    return written
