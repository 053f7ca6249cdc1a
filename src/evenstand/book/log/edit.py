"""What a correction writes beside its body, and what its writer has answered."""

from msgspec import Struct

from .merging import Pointer


class Edit(Struct, frozen=True):
    """What a correction writes: the entries its writer had seen, the fields, the whole body."""

    base: tuple[str, ...]
    changed: tuple[Pointer, ...]
    body: bytes


class Answered(Struct, frozen=True, kw_only=True):
    """What a writer answered who was asked about fields that somebody else had changed meanwhile.

    ``heads`` are the newest entries when it was asked; ``theirs`` and ``yours``
    the fields to leave as the other has them, and those to write all the same.
    """

    heads: tuple[str, ...]
    theirs: tuple[Pointer, ...] = ()
    yours: tuple[Pointer, ...] = ()
