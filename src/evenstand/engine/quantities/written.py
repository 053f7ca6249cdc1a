"""How results are written for programs: marks on the types of their parts.

A result names the keys of its JSON in ``KEYS``, in their order:

- ``rate`` has the part of that name, ``rate=catch.rate`` another, by its path;
- a path through several takes the part of each, one through nothing is nothing;
- ``@`` is the kind that the holder of the result gave it;
- ``total.cost`` puts a key into an object of its own;
- ``pace?`` is left out where there is nothing;
- ``*stand`` adds the keys of a part.

An amount's type says its kind: ``Annotated[Estimate, RATE]`` is written with its range and unit.
"""

from dataclasses import dataclass

from .units import SHARE, Kind


@dataclass(frozen=True, slots=True)
class Bare:
    """An amount without its unit, which stands elsewhere; of its holder's kind without its own."""

    kind: Kind | None = None


PER_CENT = Bare(SHARE)
OF_HOLDER = Bare()
AS_TEXT = "sentences as one text"
ONCE = "each sentence once"
OR_NULL = "null where there is none"
