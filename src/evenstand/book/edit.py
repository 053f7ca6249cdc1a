"""What a correction writes beside its body."""

from msgspec import Struct

from .merging import Pointer


class Edit(Struct, frozen=True):
    """What a correction writes: the entries its writer had seen, the fields, the whole body."""

    base: tuple[str, ...]
    changed: tuple[Pointer, ...]
    body: bytes
