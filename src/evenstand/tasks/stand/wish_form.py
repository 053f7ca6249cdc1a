"""What a stand is judged by, as it is typed: into what is kept, and back into its form."""

from collections.abc import Iterator, Sequence

from evenstand.book.kinds.details import detail
from evenstand.book.kinds.work import Live, StandCount, StandWish
from evenstand.engine.quantities.phrases import Iso, say
from evenstand.engine.stand.tables import TABLES
from evenstand.engine.stand.usual import USUAL

from ..parsing.dates import day
from ..parsing.given import Given
from ..parsing.structs import amount, read, texts
from ..parsing.writing import Writing

CROPS = tuple(dict.fromkeys(table.crop for table in TABLES))
KINDS = tuple(USUAL)


def read_wish_form(
    given: Given, job: str, *, species: Sequence[str], counts: Sequence[StandCount]
) -> StandWish:
    """Read what a stand is judged by.

    Parameters
    ----------
    given : Given
        ``wish``, ``crop``, ``sown``, ``perennial``, ``irrigated``; for each
        species ``seeds1``, ``usual1``…
    job : str
        Id of the job.
    species : sequence of str
        In the order of the form; one without a name stands for all seed.
    counts : sequence of StandCount
        Those of the job so far.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    with Writing(given) as form:
        return read(
            form,
            StandWish,
            job=job,
            crop=lambda: _word(form, "crop", CROPS),
            sown=lambda: _sown(form, counts),
            live=lambda: tuple(_live(form, species)),
        )


def _word(form: Writing, key: str, words: Sequence[str]) -> str:
    text = form.text(key)
    if text and text not in words:
        need = say("choose one of {choices}", choices=", ".join(words))
        form.refuse(form.given.refuse(key, need))
        return ""
    return text


def _sown(form: Writing, counts: Sequence[StandCount]) -> str | None:
    sown = day(form, "sown")
    first = min((count.day for count in counts if count.day), default=None)
    if sown and first and first < sown:
        need = say("choose a date no later than the first plant count, {day}", day=Iso(first))
        form.refuse(form.given.refuse("sown", need))
    return sown


def _live(form: Writing, species: Sequence[str]) -> Iterator[Live]:
    for i, name in enumerate(species, 1):
        seeds = amount(form, f"seeds{i}", detail(Live, "seeds"))
        usual = _word(form, f"usual{i}", KINDS)
        if seeds or usual:
            yield Live(species=name, seeds=seeds, usual=usual)


def wish_texts(wish: StandWish, *, species: Sequence[str]) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    written = texts(wish)
    for each in wish.live:
        if each.species in species:
            i = species.index(each.species) + 1
            written |= {f"usual{i}": each.usual}
            written |= {f"seeds{i}": each.seeds.text} if each.seeds else {}
    return written
