"""A photo as it is sent: what kind of picture it is, and whether it is small enough to keep."""

from math import ceil
from typing import Literal

from evenstand.book.bodies import MOST_PHOTO, Photo
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import NUMBER

Media = Literal["image/jpeg", "image/png", "image/webp"]
KIB = 1024
MOST_CAPTION = 200


def media_of(data: bytes) -> Media | None:
    """Tell the kind of a picture from its first bytes; None for any other file.

    References
    ----------
    JPEG: ITU-T T.81 (1992), B.1.1.3, SOI and the marker behind it. PNG: W3C,
    PNG specification, 5.2. WebP: RFC 9649, 2.4.
    """
    if data.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if data.startswith(b"RIFF") and data[8:12] == b"WEBP":
        return "image/webp"
    return None


def read_photo(data: bytes, *, of: str, caption: str, said: str = "") -> Photo:
    """Read a photo; one that is too large is refused, never cut down in silence.

    Parameters
    ----------
    of : str
        Id of the thing that it shows.
    said : str
        The kind that the sender gave it; empty where none was given.

    Raises
    ------
    MeasurementError
        Under ``photo`` or ``caption``.
    """
    media = media_of(data)
    if not data:
        raise MeasurementError("photo", None, say("choose a picture first"))
    if media is None:
        raise MeasurementError("photo", said, say("choose a picture: a JPEG, PNG or WebP file"))
    if said.startswith("image/") and said.replace("jpg", "jpeg") != media:
        need = say(
            "this file calls itself {said} but is {media}: save it anew", said=said, media=media
        )
        raise MeasurementError("photo", said, need)
    if len(data) > MOST_PHOTO:
        raise MeasurementError("photo", len(data), too_large(len(data)))
    if len(caption) > MOST_CAPTION:
        need = say("write it shorter, {most} letters at most", most=MOST_CAPTION)
        raise MeasurementError("caption", caption, need)
    return Photo(of=of, media=media, data=data, caption=caption)


def too_large(size: int) -> Phrase:
    """Say that a photo cannot be kept whole, and what to do. [byte]"""
    return say(
        "this picture has {size} KiB and at most {most} KiB are kept: where the browser may run "
        "the page's scripts it makes pictures smaller by itself, else choose a smaller size in "
        "the camera or cut out the tag",
        size=NUMBER(ceil(size / KIB), 6),
        most=NUMBER(MOST_PHOTO / KIB),
    )
