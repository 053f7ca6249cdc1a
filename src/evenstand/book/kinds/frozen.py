"""What a finished record or a locked-in setting rests on, as it stood when it was frozen."""

from typing import Annotated, ClassVar

from msgspec import Meta

from .shape import END, Body, Id, Text

MOST_RESTED = 20_000  # entries that one record rests on
Hash = Annotated[str, Meta(pattern=f"^[0-9a-f]{{64}}{END}", description="SHA-256, hexadecimal")]


class Frozen(Body, frozen=True):
    """The entries that a record, or the ``setting`` of a box, was made of, and nothing since.

    ``sha256`` is that of the hashes of these entries, each in hexadecimal on
    a line of its own, sorted; ``formulas`` names the arithmetic that was used
    on them. A record that is amended is frozen once more: ``amends`` is the
    version before, ``why`` the reason.
    """

    kind: ClassVar = "frozen"
    job: Id
    entries: Annotated[tuple[Id, ...], Meta(min_length=1, max_length=MOST_RESTED)]
    sha256: Hash
    formulas: Text
    setting: Id | None = None
    amends: Id | None = None
    why: Text = ""
