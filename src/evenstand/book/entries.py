"""Entries: small facts that are written once and never changed."""

import hashlib
from collections.abc import Iterator
from contextlib import suppress
from functools import reduce
from typing import Annotated, Any, get_args

import msgspec
from msgspec import Meta, Raw, Struct

from evenstand.engine.words import say

from .bodies import KINDS, Content, Newer
from .errors import BookError
from .shape import Body, Id, Text
from .stamp import STAMP, Stamp, read_stamp

FORMAT = 1  # raised by a release that adds kinds or fields
MOST_BYTES = 1024 * 1024  # of one entry

Person = Annotated[str, Meta(max_length=200)]
_NOTHING = Raw(b"null")

Kind = Annotated[str, Meta(pattern="^[a-z][a-z ]{0,39}$")]


class Envelope(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """An entry as it is written.

    ``about`` is the thing that the entry makes, changes or removes: the first
    entry about a drill makes it, a later one is its newer state. ``why`` is
    the reason for a correction or a removal, ``format`` the newest that its
    writer knew.
    """

    id: Id
    kind: Kind
    about: Id
    made: Annotated[str, Meta(pattern=f"^{STAMP}$")]
    by: Person
    format: Annotated[int, Meta(ge=1)]
    why: Text = ""
    body: Raw


class Entry(Struct, frozen=True):
    """An entry as it is read. ``text`` is what was written, and is carried on as it is."""

    id: str
    kind: str
    about: str
    made: Stamp
    by: str
    why: str
    body: Content
    text: str

    @property
    def order(self) -> tuple[Stamp, str]:
        """Of two entries about a thing, the one that sorts later is its state."""
        return self.made, self.id

    @property
    def sha256(self) -> bytes:
        """Hash of what was written."""
        return hashlib.sha256(self.text.encode()).digest()

    @property
    def newer(self) -> bool:
        """Whether a newer Evenstand wrote something here that this one does not know."""
        return isinstance(self.body, Newer) or _is_newer(_body(self.text), type(self.body))


def write(
    body: Body,
    *,
    id: str,
    about: str,
    made: Stamp,
    by: str,
    why: str = "",
    earlier: Entry | None = None,
) -> Entry:
    """Write an entry.

    Parameters
    ----------
    body : Body
    id, about : str
        Of the entry, and of the thing.
    made : Stamp
    by : str
        Who says it.
    why : str
        Reason for a correction or removal.
    earlier : Entry, optional
        The state it replaces: what a newer Evenstand wrote there, and this
        one does not know, goes over to the new state.

    Raises
    ------
    BookError
        For a body that its own type refuses.
    """
    try:
        new = msgspec.json.encode(body)
    except UnicodeEncodeError as refused:
        raise BookError(body.kind, refused.object, say("write it in Unicode")) from None
    if earlier and earlier.kind == body.kind:
        new = _carried(_body(earlier.text), new, type(body))
    envelope = Envelope(
        id=id,
        kind=body.kind,
        about=about,
        made=str(made),
        by=by,
        format=FORMAT,
        why=why,
        body=Raw(new),
    )
    return read(msgspec.json.encode(envelope))


def read(line: bytes) -> Entry:
    """Read an entry; kinds and fields of a newer release are kept as they are.

    Raises
    ------
    BookError
        For text that is no entry, or too long.
    """
    if len(line) > MOST_BYTES:
        raise BookError("entry", f"{len(line):,} bytes", say("make it shorter than 1 MiB"))
    try:
        text = line.decode()
        envelope = msgspec.json.decode(line, type=Envelope)
    except UnicodeDecodeError:
        raise BookError("entry", _shown(line), say("write it in UTF-8")) from None
    except (msgspec.MsgspecError, RecursionError) as refused:
        raise _refusal(refused, line) from None
    return Entry(
        id=envelope.id,
        kind=envelope.kind,
        about=envelope.about,
        made=read_stamp(envelope.made),
        by=envelope.by,
        why=envelope.why,
        body=_content(envelope),
        text=text,
    )


def _content(envelope: Envelope) -> Content:
    known = KINDS.get(envelope.kind)
    if known is None:
        return Newer(envelope.kind, bytes(envelope.body).decode())
    try:
        return msgspec.json.decode(envelope.body, type=known)
    except (msgspec.MsgspecError, RecursionError) as refused:
        if envelope.format > FORMAT:
            return Newer(envelope.kind, bytes(envelope.body).decode())
        raise _refusal(refused, bytes(envelope.body), kind=envelope.kind) from None


def _body(text: str) -> bytes:
    return bytes(msgspec.json.decode(text, type=dict[str, Raw])["body"])


def _strange(body: bytes, known: type[Struct]) -> dict[str, Raw]:
    """Return the fields of a body that its type does not have."""
    fields = msgspec.json.decode(body, type=dict[str, Raw])
    return {name: raw for name, raw in fields.items() if name not in known.__struct_fields__}


def _is_newer(body: bytes, known: type[Struct]) -> bool:
    fields = msgspec.json.decode(body, type=dict[str, Raw])
    return bool(_strange(body, known)) or any(
        _is_newer(bytes(fields[name]), part)
        for name, part in _parts(known)
        if fields.get(name, _NOTHING) != _NOTHING
    )


def _carried(old: bytes, new: bytes, known: type[Struct]) -> bytes:
    """Write a new body with what the old one has and this release does not know."""
    fields = msgspec.json.decode(new, type=dict[str, Raw])
    before = msgspec.json.decode(old, type=dict[str, Raw])
    for name, part in _parts(known):
        if _NOTHING not in (fields.get(name, _NOTHING), before.get(name, _NOTHING)):
            fields[name] = Raw(_carried(bytes(before[name]), bytes(fields[name]), part))
    return msgspec.json.encode(fields | _strange(old, known))


def _parts(known: type[Struct]) -> Iterator[tuple[str, type[Struct]]]:
    """Yield the fields that hold, or may hold, a part with fields of its own."""
    for field in msgspec.structs.fields(known):
        for each in get_args(field.type) or (field.type,):
            if isinstance(each, type) and issubclass(each, Struct):
                yield field.name, each


def _refusal(refused: Exception, line: bytes, *, kind: str = "entry") -> BookError:
    """Turn what the decoder says into a field, what was given, and what is needed."""
    said, _, path = str(refused).partition(" - at `$")
    names = path.rstrip("`").replace("[", ".").replace("]", "").strip(".").split(".")
    given: Any = _shown(line)
    if names != [""]:
        with suppress(msgspec.MsgspecError, RecursionError):
            given = reduce(_inside, names, msgspec.json.decode(line))
    need = say("{said}", said=said or "it is nested too deep")
    return BookError(" ".join([kind, *filter(None, names)]), given, need)


def _inside(whole: Any, name: str) -> Any:
    if isinstance(whole, dict):
        return whole.get(name)
    return whole[int(name)] if isinstance(whole, list) and name.isdecimal() else None


def _shown(line: bytes) -> str:
    return line[:60].decode(errors="replace")
