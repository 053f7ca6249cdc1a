"""How results are written for programs: their keys, and marks on the types of their parts.

A result names the keys of its JSON in ``KEYS``, in their order: each by the name of its part or
by what `put` returns.
An amount's type says its kind: ``Annotated[Estimate, RATE]`` is written with its range and unit.
"""

from dataclasses import dataclass
from typing import Any

from .units import SHARE, Kind

HELD = "@"  # the kind that the holder of a result gave it


@dataclass(frozen=True, slots=True)
class Key:
    """A key of a result's JSON.

    ``path`` leads to the part that it has: through several to that of each,
    through nothing to nothing; alone, `HELD` is the kind. ``within`` is the
    object that the key is put into; an ``optional`` one is left out where
    there is nothing. A part that is ``added`` lends its own keys.
    """

    name: str
    path: tuple[str, ...]
    within: str = ""
    optional: bool = False
    added: bool = False


def put(name: str, *path: str, **more: Any) -> Key:
    """Name a key and the path to its part, which has the same name without.

    Examples
    --------
    >>> put("gear", "made", "gear", "name").path, put("pace", optional=True).path
    (('made', 'gear', 'name'), ('pace',))
    """
    return Key(name, path or (name,), **more)


def inside(path: tuple[str, ...], *names: str, within: str = "") -> tuple[Key, ...]:
    """Name keys that have parts of the same names, all of one thing."""
    return tuple(Key(name, (*path, name), within) for name in names)


@dataclass(frozen=True, slots=True)
class Bare:
    """An amount without its unit, which stands elsewhere; of its holder's kind without its own."""

    kind: Kind | None = None


PER_CENT = Bare(SHARE)
OF_HOLDER = Bare()
AS_TEXT = "sentences as one text"
ONCE = "each sentence once"
OR_NULL = "null where there is none"
