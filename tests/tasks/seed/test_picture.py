"""Kinds and sizes of pictures, read from headers written here by hand after the standards."""

from importlib.resources import files
from struct import pack

import pytest

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.tasks.seed.photo import read_photo
from evenstand.tasks.seed.picture import media_of, size_of

THING = "01a20f15-2c80-7000-8000-000000000000"


def jpeg(width, height, *, end=b"\xff\xd9"):
    """SOI, an application segment, a start of frame, a start of scan, EOI (T.81, figure B.2)."""
    app = b"\xff\xe0" + pack(">H", 4) + b"JF"
    frame = b"\xff\xc0" + pack(">HBHHB", 11, 8, height, width, 1) + b"\x01\x11\x00"
    return b"\xff\xd8" + app + frame + b"\xff\xda" + pack(">H", 2) + b"picture" + end


def png(width, height, *, end=b"IEND\xae\x42\x60\x82"):
    """Signature, IHDR, IEND (PNG, 5.2 and 11.2.2)."""
    header = pack(">I", 13) + b"IHDR" + pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0) + b"crc4"
    return b"\x89PNG\r\n\x1a\n" + header + pack(">I", 0) + end


def webp(chunk):
    return b"RIFF" + pack("<I", len(chunk) + 4) + b"WEBP" + chunk


def extended(width, height):
    """A VP8X chunk: flags, then 24 bits each, one less than the size (RFC 9649, 2.7)."""
    three = [pack("<I", each - 1)[:3] for each in (width, height)]
    return webp(b"VP8X" + pack("<I", 10) + bytes(4) + b"".join(three))


def lossless(width, height):
    """A VP8L chunk: 0x2f, then 14 bits each, one less than the size (RFC 9649, 2.6)."""
    bits = (width - 1) | (height - 1) << 14
    return webp(b"VP8L" + pack("<I", 5) + b"\x2f" + pack("<I", bits))


def lossy(width, height):
    """A VP8 key frame: tag, start code, 14 bits each (RFC 6386, 9.1)."""
    return webp(b"VP8 " + pack("<I", 10) + bytes(3) + b"\x9d\x01\x2a" + pack("<HH", width, height))


@pytest.mark.parametrize("make", [jpeg, png, extended, lossless, lossy])
def test_the_size_stands_in_the_header(make):
    data = make(1200, 801)
    assert size_of(data, media_of(data)) == (1200, 801)


def test_a_photo_of_the_demo_is_read():
    data = (files("evenstand.demo") / "tag_O-25.jpg").read_bytes()
    width, height = size_of(data, "image/jpeg")
    assert 100 < width < 2000
    assert 100 < height < 2000


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (jpeg(65_500, 65_500), "smaller"),
        (png(65_500, 65_500), "smaller"),
        (extended(16_000, 16_000), "smaller"),
        (png(0, 10), "something on it"),
        (jpeg(10, 0), "something on it"),
        (jpeg(100, 100, end=b""), "cut off"),
        (png(100, 100, end=b""), "cut off"),
        (lossless(10, 10)[:-2], "cut off"),
        (jpeg(100, 100)[:9] + b"\xff\xd9", "cut off"),
    ],
)
def test_a_picture_that_is_too_large_empty_or_cut_off_is_refused(data, said):
    with pytest.raises(MeasurementError, match=said) as refused:
        read_photo(data, of=THING, caption="")
    assert refused.value.field == "photo"
