"""What this count and earlier ones say of the next season's seed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any

from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import DENSITY, SHARE
from evenstand.engine.quantities.written import inside, put
from evenstand.engine.stand import learned as learned_emergence
from evenstand.engine.stand import next_seeds
from evenstand.engine.stand.emergence import Emergence
from evenstand.engine.stand.learned import Learned, Season, learned
from evenstand.engine.stand.next_seeds import season_at, seeds_for
from evenstand.engine.stand.species import SownSpecies
from evenstand.engine.statistics.budget import Estimate, nominal

from ..job.tables import many

HERE = "this field"
GUESSED = 0.05  # standard uncertainty of an emergence that was written without ±


@dataclass(frozen=True, kw_only=True)
class Earlier:
    """Emergence of a species, counted once before, and the live seeds it was of. [1/m²]

    ``guessed`` tells that nobody said how sure it is.
    """

    species: str
    season: Season
    seeds: float | None = None
    guessed: bool = False

    def at(self, seeds: float) -> Season:
        """Return the season as it would have been at another seed rate.

        Parameters
        ----------
        seeds : float
            [1/m²]
        """
        if self.seeds is None:
            return self.season
        return season_at(self.season, seeds=seeds, counted_at=self.seeds)


@dataclass(frozen=True, kw_only=True)
class NextSeason:
    """Emergence to be looked for in the same field, and the live seeds that the wish then asks for.

    ``seeds`` are those for the stand wished for, None where none was. [1/m²]
    """

    KEYS = (
        *(put("emergence", "emergence", "share"), put("counts", "emergence", "seasons")),
        *inside(("emergence",), "fields", "usual_counts"),
        *("seeds", "say"),
    )

    emergence: Learned
    seeds: Annotated[Estimate, DENSITY] | None
    say: tuple[Phrase, ...]


def read_earlier(file: Mapping[str, Any]) -> tuple[Earlier, ...]:
    """Read what came up in earlier seasons.

    Raises
    ------
    MeasurementError
        Naming the table and key.
    """
    found = []
    for table in many(file, "emerged"):
        given = table.given
        share = given.reading("share", SHARE)
        counted = share.give_or_take / 2  # ± is the 95 % range that a count gave
        with given.pointing(emergence="share", u="share"):
            season = Season(field=given.text("field"), emergence=share.value, u=counted or GUESSED)
        name = given.text("species") if "species" in given else ""
        seeds = given.exact("seeds", DENSITY) if "seeds" in given else None
        found.append(
            Earlier(species=name, season=season, seeds=seeds, guessed=not share.give_or_take)
        )
    return tuple(found)


def taken_as(earlier: Sequence[Earlier]) -> tuple[Phrase, ...]:
    """Say what was taken where nobody said how sure an earlier count is."""
    if not any(each.guessed for each in earlier):
        return ()
    text = "earlier emergence entered without ± is assumed good to ± {reach}"
    return (say(text, reach=SHARE(2 * GUESSED)),)


def next_season(
    came: Emergence,
    sown: SownSpecies,
    earlier: Sequence[Earlier],
    *,
    field: str = HERE,
    wish: float | None = None,
) -> NextSeason:
    """Foretell emergence next season, and the seed for a stand.

    Parameters
    ----------
    came : Emergence
        As counted now.
    sown : SownSpecies
        What it was counted of.
    field : str
        The one that was counted now.
    wish : float, optional
        Stand wished for of this species. [1/m²]
    """
    counted_at, share = nominal(sown.seeds), came.share
    seasons = [each.at(counted_at) for each in earlier if each.species == sown.name]
    if 0 < share.value < 1 and share.u > 0:
        seasons.append(Season(field=field, emergence=share.value, u=share.u))
    found = learned(seasons, usual=sown.usual, field=field)
    said = [learned_emergence.in_words(found)]
    seeds = None
    if wish is not None:
        seeds = seeds_for(wish, found.share, counted_at=counted_at)
        said.append(next_seeds.in_words(wish, seeds))
    return NextSeason(emergence=found, seeds=seeds, say=tuple(said))
