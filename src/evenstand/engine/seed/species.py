"""Species for drilling: seeds in a weight, rates, depths, cautions, each with its source.

The table itself is text in ``engine/data``, as published and in trade units;
whoever reads those files hands their text to `load`.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated, Literal, cast, get_args

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, say
from ..quantities.units import (
    GRAM,
    INCH,
    POUND,
    POUND_PER_ACRE,
    POUND_PER_BUSHEL,
    RATE,
    SEED_COUNT,
    SPACING,
    TEST_WEIGHT,
)
from ..quantities.written import HELD, OF_HOLDER, OR_NULL, put

Group = Literal["grass", "legume", "broadleaf", "brassica"]
Season = Literal["cool", "warm"]
LifeCycle = Literal["annual", "annual/biennial", "biennial", "biennial/perennial", "perennial"]
Kind = Literal[
    "prussic acid",
    "nitrate",
    "bloat",
    "horses",
    "poison",
    "hard seed",
    "dormant",
    "chaffy",
    "coated",
    "count",
    "sowing",
    "spread",
]

FOLD_APART = 1.5  # sources that differ by so much make the user count the lot

# What a caution of a kind says where the table has no words of its own.
STANDARD: Mapping[str, str] = MappingProxyType(
    {
        "prussic acid": (
            "Keep livestock off young or frosted growth: it may contain prussic "
            "acid. Guides differ; the strictest we read calls for 30 in (76 cm) "
            "of regrowth and 14 days after frost."
        ),
        "nitrate": (
            "Test it before you feed it: nitrate can build up after drought, "
            "frost or heavy nitrogen."
        ),
        "bloat": "It can bloat cattle and sheep.",
        "hard seed": "Often has hard seed: look for it on the tag.",
        "dormant": "Dormancy has to be tested for: look for it on the tag.",
        "chaffy": "Chaffy seed: it may need a box with an agitator.",
    }
)
DEFER = say("This list is not complete: go by your local extension office and the seed label.")


@dataclass(frozen=True, slots=True)
class Sourced:
    """A published range in SI; ``read`` is false where its text was not seen."""

    KEYS = ("low", "high", put("unit", HELD), "basis", "source", "read")

    low: Annotated[float, OF_HOLDER]
    high: Annotated[float, OF_HOLDER]
    source: str
    read: bool
    basis: Annotated[Literal["pls", ""], OR_NULL] = ""


@dataclass(frozen=True, slots=True)
class CountSource:
    """Seeds per kg that one source prints. ``doubt`` says why it is left out of the range."""

    KEYS = (put("count", "seeds_per_kg"), "source", "read", "doubt")

    seeds_per_kg: Annotated[float, SEED_COUNT]
    source: str
    read: bool
    doubt: Annotated[str, OR_NULL] = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """One thing to beware of, in words of its own or in those of its kind."""

    kind: Kind
    text: str
    source: str
    read: bool

    @property
    def phrase(self) -> Phrase:
        """The caution with where it is from."""
        text = say(self.text or STANDARD[self.kind])
        if not self.read:
            return say("{text} (Common knowledge, no source.)", text=text)
        return say("{text} ({source})", text=text, source=self.source)


@dataclass(frozen=True, slots=True)
class InoculantGroup:
    """The group of inoculant a legume needs."""

    KEYS = ("group", "read")

    group: str
    read: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """One species of the table.

    ``test_weight`` is in kg/m³ and a trade unit rather than a density, ``rate``
    in kg/m² drilled, ``depth`` in m; each is None where nothing is known.
    ``spanish`` is a common name, empty where none is sure.
    """

    KEYS = (
        *("name", "scientific", "also", "group", "season", "life_cycle"),
        *(put("seeds_per_weight", "counts"), "count_your_lot", "rate", "depth", "test_weight"),
        *("inoculant", put("cautions", "beware")),
    )

    name: str
    scientific: str
    also: tuple[str, ...]
    spanish: str
    group: Group
    season: Season
    life_cycle: LifeCycle
    counts: tuple[CountSource, ...]
    test_weight: Annotated[Sourced, TEST_WEIGHT] | None
    rate: Annotated[Sourced, RATE] | None
    depth: Annotated[Sourced, SPACING] | None
    inoculant: InoculantGroup | None
    cautions: tuple[Caution, ...]

    @property
    def count_range(self) -> tuple[float, float] | None:
        """Lowest and highest seeds per kg of the sources not in doubt. [1/kg]"""
        counts = [count.seeds_per_kg for count in self.counts if not count.doubt]
        return (min(counts), max(counts)) if counts else None

    @property
    def count_your_lot(self) -> bool:
        """Whether sources differ so much that only a count of the lot will do."""
        found = self.count_range
        return found is not None and found[1] >= FOLD_APART * found[0] * (1 - 1e-9)

    @property
    def cool_season_grass(self) -> bool:
        """Whether a state's longer limit for cool-season grasses holds."""
        return self.group == "grass" and self.season == "cool"

    def has(self, kind: Kind) -> bool:
        """Whether the table has a caution of this kind."""
        return any(caution.kind == kind for caution in self.cautions)

    @property
    def beware(self) -> tuple[Phrase, ...]:
        """Every caution, and whose word is the last; nothing where there is none."""
        said = tuple(caution.phrase for caution in self.cautions)
        return (*said, DEFER) if said else ()


@dataclass(frozen=True, slots=True)
class SpeciesTable:
    """All species, in the order of the table."""

    species: tuple[Species, ...]

    def __iter__(self) -> Iterator[Species]:
        return iter(self.species)

    def __len__(self) -> int:
        return len(self.species)

    def named(self, name: str) -> Species:
        """Return the species of exactly this common name.

        Raises
        ------
        MeasurementError
            For a name that is not in the table.
        """
        for species in self.species:
            if species.name == name:
                return species
        raise MeasurementError("species", name, say("enter a common name from the table"))


def load(*, species: str, counts: str, cautions: str, spanish: str = "") -> SpeciesTable:
    """Read the table from the text of its files.

    Parameters
    ----------
    species, counts, cautions, spanish : str
        Text of ``species.tsv``, ``seed_counts.tsv``, ``cautions.tsv`` and
        ``species_es.tsv`` of ``engine/data``: a line of names, then rows,
        cells apart by a tab.

    Raises
    ------
    MeasurementError
        For a row of a species that the table does not have, or a word that
        its column does not know.
    """
    rows = list(_rows(species))
    names = [row["common_name"] for row in rows]
    counted = _by_name(counts, names)
    warned = _by_name(cautions, names)
    called = {row["common_name"]: row["spanish_name"] for row in _rows(spanish)}
    return SpeciesTable(
        tuple(
            _species(
                row,
                counted[row["common_name"]],
                warned[row["common_name"]],
                spanish=called.get(row["common_name"], ""),
            )
            for row in rows
        )
    )


def _rows(text: str) -> Iterator[dict[str, str]]:
    lines = [line for line in text.splitlines() if line and not line.startswith("#")]
    if not lines:
        return
    names = lines[0].split("\t")
    for line in lines[1:]:
        yield dict(zip(names, line.split("\t"), strict=True))


def _by_name(text: str, names: list[str]) -> dict[str, list[dict[str, str]]]:
    found: dict[str, list[dict[str, str]]] = {name: [] for name in names}
    for row in _rows(text):
        if row["common_name"] not in found:
            need = say("enter a common name from the species table")
            raise MeasurementError("common_name", row["common_name"], need)
        found[row["common_name"]].append(row)
    return found


def _species(
    row: dict[str, str],
    counts: list[dict[str, str]],
    cautions: list[dict[str, str]],
    *,
    spanish: str,
) -> Species:
    inoculant = row["inoculant"]
    return Species(
        name=row["common_name"],
        scientific=row["scientific_name"],
        also=tuple(name for name in row["also"].split(";") if name),
        spanish=spanish,
        group=cast(Group, _word(row, "group", Group)),
        season=cast(Season, _word(row, "season", Season)),
        life_cycle=cast(LifeCycle, _word(row, "life_cycle", LifeCycle)),
        counts=tuple(_count(count) for count in counts),
        test_weight=_sourced(row, "test_weight", POUND_PER_BUSHEL),
        rate=_sourced(row, "rate", POUND_PER_ACRE),
        depth=_sourced(row, "depth", INCH),
        inoculant=InoculantGroup(inoculant, _is_read(row, "inoculant_known"))
        if inoculant
        else None,
        cautions=tuple(
            Caution(
                cast(Kind, _word(caution, "kind", Kind)),
                caution["text"],
                caution["source"],
                _is_read(caution, "known"),
            )
            for caution in cautions
        ),
    )


def _count(row: dict[str, str]) -> CountSource:
    per_gram, per_pound = row["seeds_per_g"], row["seeds_per_lb"]
    per_kg = float(per_gram) / GRAM if per_gram else float(per_pound) / POUND
    return CountSource(per_kg, row["source"], _is_read(row, "known"), row["doubt"])


def _sourced(row: dict[str, str], of: str, unit: float) -> Sourced | None:
    low, high = row[f"{of}_low"], row[f"{of}_high"]
    if not low:
        return None
    basis: Literal["pls", ""] = "pls" if row.get(f"{of}_basis") == "pls" else ""
    known = _is_read(row, f"{of}_known")
    return Sourced(float(low) * unit, float(high) * unit, row[f"{of}_source"], known, basis)


def _is_read(row: dict[str, str], column: str) -> bool:
    if row[column] not in ("read", "memory"):
        raise MeasurementError(column, row[column], say("choose read or memory"))
    return row[column] == "read"


def _word(row: dict[str, str], column: str, words: object) -> str:
    known = get_args(words)
    if row[column] not in known:
        need = say("choose one of {words}", words=", ".join(known))
        raise MeasurementError(column, row[column], need)
    return row[column]
