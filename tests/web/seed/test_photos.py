"""Photos of a lot: small and true pictures are kept and handed out, nothing else."""

import mimetypes
import struct
import zlib

import pytest

from evenstand.book.kinds.bodies import MOST_PHOTO

RYE = {"species": "cereal rye", "purity": "98%", "germination": "92%", "name": "R-26"}


def chunk(name, data):
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


# A picture of one black point, and the beginnings of other kinds.
PNG = (
    b"\x89PNG\r\n\x1a\n"
    + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
    + chunk(b"IDAT", zlib.compress(b"\0\0"))
    + chunk(b"IEND", b"")
)
JPEG = b"\xff\xd8\xff\xc0\0\x0b\x08\0\x01\0\x01\x01\x01\x11\0" + bytes(100) + b"\xff\xd9"
WEBP = b"RIFF\x64\0\0\0WEBPVP8 \x0a\0\0\0\0\0\0\x9d\x01\x2a\x01\0\x01\0" + bytes(100)


@pytest.fixture
def lot(visitor):
    visitor.lot = visitor.send("/seed/new", RYE)
    return visitor.lot


def multipart(fields, data, name):
    """A form as a browser sends it, with one file."""
    kind = mimetypes.guess_type(name)[0]
    parts = [f'form-data; name="{key}"\r\n\r\n{text}'.encode() for key, text in fields.items()]
    head = f'form-data; name="photo"; filename="{name}"\r\nContent-Type: {kind}\r\n\r\n'
    parts.append(head.encode() + data)
    lines = b"".join(b"--cut\r\nContent-Disposition: " + part + b"\r\n" for part in parts)
    return lines + b"--cut--\r\n"


@pytest.fixture
def send(client, book, lot):
    from tests.web.conftest import Page

    def sent(data, name="tag.png", *, code=303, **fields):
        body = multipart({"entry": book.new_id(), **fields}, data, name)
        kind = "multipart/form-data; boundary=cut"
        answer = client.post(f"{lot}/photos/new", data=body, content_type=kind)
        assert answer.status_code == code, answer.text
        return answer if code == 303 else Page(answer)

    return sent


@pytest.mark.parametrize(
    "case",
    [
        (PNG, "tag.png", "image/png"),
        (JPEG, "tag.jpg", "image/jpeg"),
        (WEBP, "t.webp", "image/webp"),
    ],
)
def test_a_photo_is_kept_and_handed_out(visitor, send, case):
    data, name, media = case
    client, book, lot = visitor.client, visitor.book, visitor.lot
    answer = send(data, name, caption="the tag, both sides")
    assert answer.location.endswith(f"{lot}#photos")
    (thing,) = book.things("photo")
    assert (thing.body.of, thing.body.media) == (lot.rsplit("/", 1)[1], media)
    shown = client.get(f"/photos/{thing.id}")
    assert (shown.data, shown.mimetype) == (data, media)
    assert shown.headers["X-Content-Type-Options"] == "nosniff"
    policy = shown.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "sandbox" in policy
    again = client.get(f"/photos/{thing.id}", headers={"If-None-Match": shown.headers["ETag"]})
    assert again.status_code == 304
    html = visitor.read(lot).html
    assert f'src="/photos/{thing.id}" alt="the tag, both sides"' in html


def test_a_photo_without_a_caption_says_of_what_it_is(visitor, lot, send):
    send(PNG)
    assert 'alt="Photo of lot R-26"' in visitor.read(lot).html


def test_a_photo_sent_twice_is_kept_once(book, send):
    entry = book.new_id()
    send(PNG, entry=entry)
    send(PNG, entry=entry)
    assert len(book.things("photo")) == 1


@pytest.mark.parametrize(
    "case",
    [
        (b"", "tag.png", "choose a photo first"),
        (b"%PDF-1.7 " + bytes(100), "tag.pdf", "a JPEG, PNG or WebP file"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "tag.svg", "a JPEG, PNG or WebP file"),
        (b"GIF89a" + bytes(100), "tag.gif", "a JPEG, PNG or WebP file"),
        (b"RIFF\x64\0\0\0WAVE" + bytes(100), "tag.webp", "a JPEG, PNG or WebP file"),
        (JPEG, "tag.png", "says it is image/png but is image/jpeg"),
    ],
)
def test_what_is_no_such_picture_is_refused(book, send, case):
    data, name, need = case
    page = send(data, name, code=422, caption="mine")
    assert need in page.wrong["photo"]
    assert page.fields["caption"] == "mine"
    assert book.things("photo") == []


def test_no_file_at_all_is_refused(visitor, lot):
    assert "choose a photo first" in visitor.send(f"{lot}/photos/new", {}, code=422).wrong["photo"]


def test_a_photo_too_large_is_refused_and_never_cut(book, send):
    send(PNG + bytes(MOST_PHOTO - len(PNG)))
    assert len(book.things("photo")[0].body.data) == MOST_PHOTO
    for size in (MOST_PHOTO + 1, 5 * 1024 * 1024):
        page = send(PNG + bytes(size - len(PNG)), code=422)
        assert f"this photo is {-(-size // 1024):,} KiB" in page.wrong["photo"]
        assert "the limit is 512 KiB" in page.wrong["photo"]
    assert len(book.things("photo")) == 1


def test_what_no_camera_makes_is_not_even_read(send):
    page = send(PNG + bytes(17 * 1024 * 1024), code=413)
    assert "This is too large to import." in page.text


def test_a_caption_too_long(send):
    page = send(PNG, code=422, caption="x" * 201)
    assert "200 characters or fewer" in page.wrong["caption"]


def test_a_photo_is_taken_off(visitor, book, send):
    send(PNG)
    (thing,) = book.things("photo")
    visitor.send(f"/photos/{thing.id}/remove", {})
    visitor.read(f"/photos/{thing.id}", code=404)
    assert "None yet. A tag photo saves" in visitor.read(visitor.lot).text
    assert len(book.history(thing.id)) == 2


def test_another_site_cannot_send_a_photo(client, lot):
    answer = client.post(f"{lot}/photos/new", headers={"Sec-Fetch-Site": "cross-site"})
    assert answer.status_code == 403


def test_what_is_no_photo_is_not_found(visitor, lot):
    visitor.read(f"/photos/{lot.rsplit('/', 1)[1]}", code=404)
    page = visitor.read(f"{lot}/photos/new")
    assert 'accept="image/*" capture="environment"' in page.html
    assert 'enctype="multipart/form-data"' in page.html
