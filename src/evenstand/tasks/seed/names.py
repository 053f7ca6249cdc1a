"""Names as people write them."""

from collections.abc import Sequence

from evenstand.engine.quantities.phrases import say, series

from ..parsing.given import Given
from .species_table import spanish_names


def _spanish(name: str, text: str) -> bool:
    """Whether a text is the Spanish name of a species of the table."""
    own = spanish_names().get(name)
    return own is not None and alike(own, text)


def alike(one: str, other: str) -> bool:
    """Whether two names are the same but for capitals, hyphens and spaces.

    Examples
    --------
    >>> alike("small seed", "Small-Seed")
    True
    """
    return _plain(one) == _plain(other)


def _plain(name: str) -> list[str]:
    return name.casefold().replace("-", " ").split()


def named(given: Given, key: str, text: str, *, names: Sequence[str]) -> str:
    """Find which of some names was meant: the whole of it, or words that only one has.

    Parameters
    ----------
    given : Given
        Where it was written, under ``key``.
    text : str
        What was written.

    Raises
    ------
    MeasurementError
        For a name that none has, or several.
    """
    same = [name for name in names if alike(name, text) or _spanish(name, text)]
    wanted = set(_words(text))
    fitting = same or [name for name in names if wanted and wanted <= set(_words(name))]
    if len(fitting) == 1:
        return fitting[0]
    if fitting:
        either = series(fitting, last="or")
        need = say("{text} could mean {names}: choose one", text=text, names=either)
    else:
        need = say("{text} is not one of {names}", text=text, names=", ".join(names))
    raise given.refuse(key, need)


def _words(name: str) -> list[str]:
    return [word.strip("(),") for word in _plain(name)]
