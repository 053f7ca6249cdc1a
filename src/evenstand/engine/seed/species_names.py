"""Finding a species by what people call it; where a name fits several, asking."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from types import MappingProxyType

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, say, series
from .species import Species, SpeciesTable

_PLAIN = str.maketrans("áéíóúüñ", "aeiouun", "'’\u0301\u0303\u0308")  # accents may stand apart
_APART = re.compile(r"[^a-z0-9]+")
_CLOSE = 0.75  # how alike a misspelt name must be, from 0 to 1
_LEAST = 3  # letters of a word that may be part of a longer one

_RYES = ("Cereal rye", "Annual (Italian) ryegrass", "Perennial ryegrass")
_WHEATS = ("Winter wheat", "Durum wheat", "Spelt", "Emmer")
_RAPES = ("Rapeseed / forage rape", "Winter rape / canola")
_PEAS = ("Field / winter pea", "Cowpea", "Chickpea", "Roughpea (Caley pea)", "Partridge pea")
_VETCHES = ("Hairy vetch", "Woollypod vetch", "Common vetch", "Purple vetch")

# Words that people use for plants whose seeds differ: never taken for one of them.
ASK: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "rye": _RYES,
        "annual rye": _RYES,
        "perennial rye": _RYES,
        "ryegrass": _RYES[1:],
        "wheat": _WHEATS,
        "vetch": _VETCHES,
        "rape": _RAPES,
        "rapeseed": _RAPES,
        "canola": _RAPES,
        "pea": _PEAS,
        "trigo": _WHEATS,
        "raigras": _RYES[1:],
        "veza": _VETCHES,
        "colza": _RAPES,
    }
)
_RYE = "Cereal rye is a grain; ryegrass is another plant, with seed a tenth of its size."


@dataclass(frozen=True, slots=True)
class Found:
    """What a name led to: one species, or candidates and a question."""

    species: Species | None
    candidates: tuple[Species, ...] = ()
    question: Phrase | None = None


def find(text: str, table: SpeciesTable) -> Found:
    """Find the species that a name means.

    In this order: words that mean several plants ask; a whole name, common,
    scientific or other, is taken; some words of a name, parts of words and
    misspellings only suggest.

    Parameters
    ----------
    text : str
        As a person wrote it.
    """
    words = _words(text)
    asked = _asked(words)
    if asked:
        return _ask(text, tuple(table.named(name) for name in asked), words)
    whole = _those(table, _whole(words))
    if len(whole) == 1:
        return Found(whole[0])
    found = whole or _those(table, _all_words(words))
    return _ask(text, found, words) if len(found) > 1 else _suggest(text, table, words)


def one(text: str, table: SpeciesTable, *, field: str = "species") -> Species:
    """Return the one species that a name means.

    Raises
    ------
    MeasurementError
        Where it means none, or more than one; what is needed asks which.
    """
    found = find(text, table)
    if found.species is None:
        raise MeasurementError(field, text, found.question or say("enter a species name"))
    return found.species


@lru_cache(maxsize=4096)
def _words(text: str) -> tuple[str, ...]:
    plain = text.casefold().translate(_PLAIN)
    return tuple(_singular(word) for word in _APART.split(plain) if word)


def _singular(word: str) -> str:
    if len(word) > 5 and word.endswith("ches"):
        return word[:-2]
    return word[:-1] if len(word) > 3 and word.endswith("s") and word[-2] not in "su" else word


def _names(species: Species) -> Iterable[str]:
    plain = species.name.partition(" (")[0]
    return (species.name, plain, species.scientific, species.spanish, *species.also)


def _those(table: SpeciesTable, match: Callable[[Species], bool]) -> tuple[Species, ...]:
    return tuple(species for species in table if match(species))


def _asked(words: tuple[str, ...]) -> tuple[str, ...]:
    together = "".join(words)
    return next((names for key, names in ASK.items() if key.replace(" ", "") == together), ())


def _whole(words: tuple[str, ...]) -> Callable[[Species], bool]:
    together = "".join(words)
    return lambda species: any(_joined(name) == together for name in _names(species))


@lru_cache(maxsize=4096)
def _joined(name: str) -> str:
    return "".join(_words(name))


def _all_words(words: tuple[str, ...]) -> Callable[[Species], bool]:
    def match(species: Species) -> bool:
        own = {word for name in _names(species) for word in _words(name)}
        return bool(words) and own.issuperset(words)

    return match


def _parts(words: tuple[str, ...]) -> Callable[[Species], bool]:
    def match(species: Species) -> bool:
        own = [word for name in _names(species) for word in _words(name)]
        return bool(words) and all(
            len(word) >= _LEAST and any(w.startswith(word) or w.endswith(word) for w in own)
            for word in words
        )

    return match


def _ask(text: str, found: tuple[Species, ...], words: tuple[str, ...]) -> Found:
    names = series([species.name for species in found], last="or")
    which = say(
        "{text} could be more than one: {names}. Which one?", text=text.strip(), names=names
    )
    if "rye" in words:
        which = say("{why} {which}", why=say(_RYE), which=which)
    return Found(None, found, which)


def _suggest(text: str, table: SpeciesTable, words: tuple[str, ...]) -> Found:
    found = _those(table, _parts(words)) or _alike(words, table)
    if not found:
        need = say(
            "{text} is not in the species table: check the spelling, or go ahead "
            "with a count of the lot and its tag",
            text=text.strip(),
        )
        return Found(None, (), need)
    names = series([species.name for species in found], last="or")
    return Found(
        None,
        found,
        say("{text} is not in the list. Did you mean {names}?", text=text.strip(), names=names),
    )


def _alike(words: tuple[str, ...], table: SpeciesTable) -> tuple[Species, ...]:
    names = {" ".join(_words(name)): s for s in table for name in _names(s)}
    near = get_close_matches(" ".join(words), names, n=3, cutoff=_CLOSE)
    return tuple(dict.fromkeys(names[name] for name in near))
