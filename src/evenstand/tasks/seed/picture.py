"""What a picture file says of itself, read from its bytes alone: its kind and its size."""

import struct
from collections.abc import Iterator
from struct import unpack_from
from typing import Literal

Media = Literal["image/jpeg", "image/png", "image/webp"]
Size = tuple[int, int]

_NO_FRAME = {0xC4, 0xC8, 0xCC}  # among the markers C0 to CF: tables and an extension
_ALONE = {0x01, *range(0xD0, 0xD9)}  # markers without a segment behind them


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


def size_of(data: bytes, media: Media, *, whole: bool = True) -> Size | None:
    """Return width and height as the header tells them, None where it is cut off. [pixel]

    ``whole`` asks for the end of the picture as well.

    Nothing is unpacked: a small file can claim a picture that fills the memory.

    References
    ----------
    JPEG: ITU-T T.81 (1992), B.2.2 and table B.1. PNG: W3C, PNG specification,
    11.2.2 and 11.2.5. WebP: RFC 9649, 2.4 to 2.7; VP8 frame header: RFC 6386, 9.1.
    """
    read = {"image/jpeg": _jpeg, "image/png": _png, "image/webp": _webp}[media]
    try:
        return read(data) if not whole or _has_end(data, media) else None
    except struct.error:
        return None


def _has_end(data: bytes, media: Media) -> bool:
    match media:
        case "image/jpeg":
            return b"\xff\xd9" in data
        case "image/png":
            return b"IEND" in data
        case "image/webp":
            return int(unpack_from("<I", data, 4)[0]) + 8 <= len(data)


def _jpeg(data: bytes) -> Size | None:
    for marker, at in _segments(data):
        if 0xC0 <= marker <= 0xCF and marker not in _NO_FRAME:
            height, width = unpack_from(">HH", data, at + 3)
            return width, height
    return None


def _segments(data: bytes) -> Iterator[tuple[int, int]]:
    """Yield the markers before the picture itself, and where the segment of each begins."""
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        marker = data[at + 1]
        if marker == 0xFF or marker in _ALONE:
            at += 1 if marker == 0xFF else 2
            continue
        if marker == 0xDA:
            return
        yield marker, at + 2
        at += 2 + unpack_from(">H", data, at + 2)[0]


def _png(data: bytes) -> Size | None:
    if data[12:16] != b"IHDR":
        return None
    width, height = unpack_from(">II", data, 16)
    return width, height


def _webp(data: bytes) -> Size | None:
    chunk = data[12:16]
    if chunk == b"VP8X":
        low = unpack_from("<HBHB", data, 24)
        return 1 + low[0] + (low[1] << 16), 1 + low[2] + (low[3] << 16)
    if chunk == b"VP8L":
        bits = unpack_from("<I", data, 21)[0]
        return 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF)
    width, height = unpack_from("<HH", data, 26)
    return width & 0x3FFF, height & 0x3FFF
