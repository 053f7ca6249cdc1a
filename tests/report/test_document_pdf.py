"""PDFs, read back by another library: standards, fonts, words, pages; and the same bytes again."""

import io
import re
import struct
import unicodedata
import zlib
from datetime import UTC, datetime

import pypdf
import pytest
import typst

from evenstand.office.pdf import can_be_set, pdf
from evenstand.report.document import Cell, Drawing, Picture, Table, Words
from evenstand.report.svg import drawing, words
from evenstand.report.typesetting import _CANNOT
from evenstand.tasks.record.pdf import document_pdf

MADE = datetime(2026, 11, 25, 12, tzinfo=UTC)


def png():
    def chunk(kind, data):
        return (
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        )

    rows = b"\0\xc8\x64\x32" * 3
    head = struct.pack(">IIBBBBB", 1, 3, 8, 2, 0, 0, 0)
    parts = (chunk(b"IHDR", head), chunk(b"IDAT", zlib.compress(rows)), chunk(b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def opened(data):
    return pypdf.PdfReader(io.BytesIO(data), strict=True)


def text_of(read):
    joined = " ".join(page.extract_text() for page in read.pages)
    return re.sub(r"\s+", " ", unicodedata.normalize("NFKC", joined))


@pytest.fixture
def blocks(every_block):
    return [
        Picture("p1", "image/png", png(), "A tag") if isinstance(each, Picture) else each
        for each in every_block
    ]


def test_it_says_that_it_is_for_keeping_and_for_everybody(whole, pen, blocks):
    read = opened(document_pdf(whole(*blocks), "letter", pen))
    meta = read.xmp_metadata.stream.get_data().decode()
    assert "<pdfaid:part>2</pdfaid:part>" in meta
    assert "<pdfaid:conformance>A</pdfaid:conformance>" in meta
    assert "<pdfuaid:part>1</pdfuaid:part>" in meta
    catalog = read.trailer["/Root"]
    assert catalog["/MarkInfo"]["/Marked"]
    assert catalog["/Lang"] == "en"
    assert catalog["/ViewerPreferences"]["/DisplayDocTitle"]
    assert read.metadata.title == "Seeding record: Alder Bench"
    assert read.metadata.author == "Ada"
    assert read.metadata.creation_date == MADE


def fonts(page):
    for font in page["/Resources"].get("/Font", {}).values():
        for below in font.get_object().get("/DescendantFonts", [font]):
            yield below.get_object()["/FontDescriptor"].get_object()


def test_all_its_fonts_are_inside(whole, pen, blocks):
    read = opened(document_pdf(whole(*blocks), "a4", pen))
    found = [font for page in read.pages for font in fonts(page)]
    assert found
    for font in found:
        assert {"/FontFile2", "/FontFile3"} & set(font)
        assert "Libertinus" in font["/FontName"]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_paper_is_what_was_asked_for(whole, pen, paper):
    """In points: 8½ × 11 in, 210 × 297 mm."""
    sizes = {"letter": (612, 792), "a4": (595, 842)}
    box = opened(document_pdf(whole(), paper, pen)).pages[0].mediabox
    assert (round(box.width), round(box.height)) == sizes[paper]


def test_drawings_photos_and_codes_have_words_in_their_place(whole, pen, blocks):
    read, told = opened(document_pdf(whole(*blocks), "a4", pen)), []
    todo = [read.trailer["/Root"]["/StructTreeRoot"]]
    while todo:
        node = todo.pop().get_object()
        if isinstance(node, list):
            todo += node
        elif isinstance(node, dict):
            told += [node["/Alt"]] if "/Alt" in node else []
            todo += [node["/K"]] if "/K" in node else []
    assert {"Twelve", "A tag", "Scan it"} <= set(told)


def test_pages_are_numbered(whole, pen, blocks):
    long = [Words(f"Line {n}.") for n in range(120)]
    read = opened(document_pdf(whole(*blocks, *long), "letter", pen))
    count = len(read.pages)
    assert count > 2
    for number, page in enumerate(read.pages, 1):
        assert f"page {number} of {count}" in page.extract_text()


def test_a_long_table_goes_on_with_its_heads_on_the_next_page(whole, pen):
    rows = tuple((Cell(f"Lot {n}"), Cell(str(n))) for n in range(90))
    table = Table(caption="Lots", heads=("Which lot", "Number"), rows=rows)
    read = opened(document_pdf(whole(table), "letter", pen))
    assert len(read.pages) > 1
    for page in read.pages:
        assert "Which lot" in page.extract_text()
    text = text_of(read)
    assert all(f"Lot {n} " in text for n in range(90))


def test_the_same_document_gives_the_same_bytes(whole, pen, blocks):
    document = whole(*blocks)
    assert document_pdf(document, "a4", pen) == document_pdf(document, "a4", pen)


def test_a_photo_that_is_none_does_not_spoil_the_rest(whole, pen):
    broken = Picture("p2", "image/png", png()[:40], "The back")
    good = Picture("p1", "image/png", png(), "The front")
    assert can_be_set(png(), "png", made=MADE)
    assert not can_be_set(b"\x89PNG\r\n\x1a\n", "png", made=MADE)
    text = text_of(opened(document_pdf(whole(broken, good), "a4", pen)))
    assert "The back: this photo can't be read" in text
    assert "The front" in text


def test_what_people_write_is_text_and_no_command(whole, pen):
    mean = (
        '#panic("x") $x$ *bold* _it_ `raw` <label> @ref \\ [ ] { } // no /* comment */ "q" = H - li'
    )
    document = whole(Words(mean), Table(caption=mean, heads=(mean,), rows=((Cell(mean),),)))
    text = text_of(opened(document_pdf(document, "a4", pen)))
    for word in ('#panic("x")', "*bold*", "`raw`", "<label>", "/* comment */", '"q"'):
        assert text.count(word) == 4  # paragraph, caption, head, cell


def test_every_sign_let_through_can_be_set(whole, pen):
    """What the letters lack would be refused: a PDF for keeping has a shape for every sign."""
    signs = [chr(n) for n in range(0x20, 0x3000) if not _CANNOT.match(chr(n))]
    lines = [Words(" ".join(signs[i : i + 40])) for i in range(0, len(signs), 40)]
    assert document_pdf(whole(*lines), "a4", pen)


def test_a_template_reads_nothing_but_what_is_handed_to_it():
    page = b'#set document(title: "x")\n#read("/etc/hostname")'
    with pytest.raises(typst.TypstError):
        pdf({"main.typ": page}, made=MADE)


def test_a_drawing_keeps_its_words(whole, pen, blocks):
    svg = drawing(80, 40, words("38.9 wanted", 40, 20), title="t", describe="d", name="n")
    text = text_of(opened(document_pdf(whole(Drawing(svg, "Told")), "a4", pen)))
    assert "38.9 wanted" in text


def test_a_document_in_spanish_says_so(whole, pen):
    document = whole(language="es", page_of="página {page} de {pages}")
    read = opened(document_pdf(document, "a4", pen))
    assert read.trailer["/Root"]["/Lang"] == "es"
    assert "página 1 de 1" in text_of(read)
