"""A photo as it is sent: what kind of picture it is, and whether it is small enough to keep."""

from math import ceil

from evenstand.book.kinds.bodies import MOST_PHOTO, Photo
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import NUMBER

from .picture import Media, media_of, size_of

KIB = 1024
MOST_CAPTION = 200
MOST_PIXELS = 25_000_000  # as large as cameras make them: more only fills the memory


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
        raise MeasurementError("photo", None, say("choose a photo first"))
    if media is None:
        raise MeasurementError("photo", said, say("choose a photo: a JPEG, PNG or WebP file"))
    if said.startswith("image/") and said.replace("jpg", "jpeg") != media:
        need = say(
            "this file says it is {said} but is {media}: save it again", said=said, media=media
        )
        raise MeasurementError("photo", said, need)
    if len(data) > MOST_PHOTO:
        raise MeasurementError("photo", len(data), too_large(len(data)))
    check_size(data, media)
    if len(caption) > MOST_CAPTION:
        need = say("shorten it to {most} characters or fewer", most=MOST_CAPTION)
        raise MeasurementError("caption", caption, need)
    return Photo(of=of, media=media, data=data, caption=caption)


def too_large(size: int) -> Phrase:
    """Say that a photo cannot be kept whole, and what to do. [byte]"""
    return say(
        "this photo is {size} KiB and the limit is {most} KiB. If page scripts "
        "are allowed, the browser shrinks it for you. If not, choose a smaller "
        "size in the camera or crop it to the tag",
        size=NUMBER(ceil(size / KIB), 6),
        most=NUMBER(MOST_PHOTO / KIB),
    )


def check_size(data: bytes, media: Media) -> None:
    """Refuse a picture that is cut off, empty, or larger than anybody takes.

    Raises
    ------
    MeasurementError
        Under ``photo``.
    """
    size = size_of(data, media)
    if size is None:
        raise MeasurementError("photo", None, say("choose a whole picture: this file is cut off"))
    if not all(size):
        raise MeasurementError("photo", None, say("choose a picture with something on it"))
    check_pixels(data, media)


def is_small(data: bytes) -> bool:
    """Whether a picture that is kept can be unpacked without filling the memory."""
    media = media_of(data)
    try:
        if media is not None:
            check_pixels(data, media)
    except MeasurementError:
        return False
    return True


def check_pixels(data: bytes, media: Media) -> None:
    """Refuse a picture that would fill the memory.

    Raises
    ------
    MeasurementError
        Under ``photo``.
    """
    width, height = size_of(data, media, whole=False) or (0, 0)
    if width * height > MOST_PIXELS:
        need = say(
            "choose a smaller picture: this one is {width} × {height} pixels, and {most} million "
            "fit",
            width=NUMBER(width, 6),
            height=NUMBER(height, 6),
            most=MOST_PIXELS // 1_000_000,
        )
        raise MeasurementError("photo", f"{width} × {height}", need)
