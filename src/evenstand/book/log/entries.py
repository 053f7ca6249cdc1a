"""Entries: small facts that are written once and never changed."""

import hashlib
from contextlib import suppress
from functools import reduce
from typing import Annotated, Any

import msgspec
from msgspec import Meta, Raw, Struct

from evenstand.engine.quantities.phrases import say

from ..errors import BookError
from ..kinds.bodies import KINDS, Content, Newer
from ..kinds.shape import END, Body, Id, Text
from .carrying import is_newer
from .edit import Edit
from .nesting import is_too_deep
from .stamp import STAMP, Stamp, read_stamp

FORMAT = 2  # raised by a release that adds kinds or fields
MOST_BYTES = 1024 * 1024  # of one entry

Person = Annotated[str, Meta(max_length=200)]
Kind = Annotated[str, Meta(pattern="^[a-z][a-z ]{0,39}" + END)]
Field = Annotated[str, Meta(max_length=500, description="JSON Pointer, an item by its name")]


class Envelope(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """An entry as it is written.

    ``about`` is the thing that the entry makes, changes or removes: the first
    entry about a drill makes it, a later one is its newer state. ``why`` is
    the reason for a correction or a removal, ``format`` the newest that its
    writer knew. ``base`` are the newest entries about the thing that its
    writer had seen, ``changed`` the fields that it changes of what those add
    up to: the state is worked out field by field (`merging`), ``body`` is the
    whole of it as the writer saw it.
    """

    id: Id
    kind: Kind
    about: Id
    made: Annotated[str, Meta(pattern=f"^{STAMP}{END}")]
    by: Person
    format: Annotated[int, Meta(ge=1)]
    why: Text = ""
    base: Annotated[tuple[Id, ...], Meta(max_length=100)] = ()
    changed: Annotated[tuple[Field, ...], Meta(max_length=1000)] | None = None
    body: Raw


class Entry(Struct, frozen=True):
    """An entry as it is read. ``text`` is what was written, and is carried on as it is."""

    id: str
    kind: str
    about: str
    made: Stamp
    by: str
    why: str
    base: tuple[str, ...]
    changed: tuple[str, ...] | None
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
        return isinstance(self.body, Newer) or is_newer(_body(self.text), type(self.body))


def write(
    body: Body,
    *,
    id: str,
    about: str,
    made: Stamp,
    by: str,
    why: str = "",
    edited: Edit | None = None,
) -> Entry:
    """Write an entry.

    Parameters
    ----------
    id, about : str
        Of the entry, and of the thing.
    by : str
        Who says it.
    why : str
        Reason for a correction or removal.
    edited : Edit, optional
        What a correction or removal changes, and the body with all that others changed.

    Raises
    ------
    BookError
        For a body that its own type refuses.
    """
    new = edited.body if edited else encoded(body, field=body.kind)
    envelope = Envelope(
        id=id,
        kind=body.kind,
        about=about,
        made=str(made),
        by=by,
        format=FORMAT,
        why=why,
        base=edited.base if edited else (),
        changed=edited.changed if edited else None,
        body=Raw(new),
    )
    return read(encoded(envelope, field="entry"))


def read(line: bytes) -> Entry:
    """Read an entry; kinds and fields of a newer release are kept as they are.

    Raises
    ------
    BookError
        For text that is no entry, too long, on several lines or nested too deep.
    """
    if len(line) > MOST_BYTES:
        raise BookError("entry", f"{len(line):,} bytes", say("make it shorter than 1 MiB"))
    if b"\n" in line:
        raise BookError("entry", _shown(line), say("enter it on one line"))
    if is_too_deep(line):
        raise BookError("entry", _shown(line), say("it is nested too deeply"))
    try:
        text = line.decode()
        envelope = msgspec.json.decode(line, type=Envelope)
    except UnicodeDecodeError:
        raise BookError("entry", _shown(line), say("save it as UTF-8")) from None
    except msgspec.MsgspecError as refused:
        raise _refusal(refused, line) from None
    return Entry(
        id=envelope.id,
        kind=envelope.kind,
        about=envelope.about,
        made=read_stamp(envelope.made),
        by=envelope.by,
        why=envelope.why,
        base=envelope.base,
        changed=envelope.changed,
        body=content(envelope.kind, bytes(envelope.body), newer=envelope.format > FORMAT),
        text=text,
    )


def encoded(struct: Struct, *, field: str) -> bytes:
    """Write a body or an envelope as JSON; text and numbers that no file can hold are refused."""
    try:
        return msgspec.json.encode(struct)
    except (UnicodeEncodeError, OverflowError) as refused:
        need = say("enter text and numbers that fit in a file: {said}", said=str(refused))
        raise BookError(field, None, need) from None


def content(kind: str, body: bytes, *, newer: bool) -> Content:
    """Read a body; one that this release does not know is kept as it is.

    Parameters
    ----------
    kind : str
    body : bytes
    newer : bool
        Whether a body that does not fit its kind may be a newer release's.

    Raises
    ------
    BookError
        For a body that its kind refuses, where it cannot be newer.
    """
    known = KINDS.get(kind)
    if known is None:
        return Newer(kind, body.decode())
    try:
        return msgspec.json.decode(body, type=known)
    except msgspec.MsgspecError as refused:
        if newer:
            return Newer(kind, body.decode())
        raise _refusal(refused, body, kind=kind) from None


def _body(text: str) -> bytes:
    return bytes(msgspec.json.decode(text, type=dict[str, Raw])["body"])


def _refusal(refused: Exception, line: bytes, *, kind: str = "entry") -> BookError:
    """Turn what the decoder says into a field, what was given, and what is needed."""
    said, _, path = str(refused).partition(" - at `$")
    names = path.rstrip("`").replace("[", ".").replace("]", "").strip(".").split(".")
    given: Any = _shown(line)
    if names != [""]:
        with suppress(msgspec.MsgspecError):
            given = reduce(_inside, names, msgspec.json.decode(line))
    need = say("{said}", said=said)
    return BookError(" ".join([kind, *filter(None, names)]), given, need)


def _inside(whole: Any, name: str) -> Any:
    if isinstance(whole, dict):
        return whole.get(name)
    return whole[int(name)] if isinstance(whole, list) and name.isdecimal() else None


def _shown(line: bytes) -> str:
    return line[:60].decode(errors="replace")
