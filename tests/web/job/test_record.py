"""The Record step and the other papers as pages: what they show, keep and hand out as PDF."""

import io
import re
import unicodedata
from html.parser import HTMLParser

import pypdf
import pytest

import labels
from evenstand.book.kinds import work
from evenstand.book.kinds.bodies import Photo
from evenstand.demo.book import fill

FORM = {
    "producer": "Ada Lindqvist",
    "first": "2026-09-28",
    "last": "2026-09-29",
    "area": "38.1 ± 0.3",
    "area_unit": "ac",
    "depth": "1",
    "depth_unit": "in",
    "box1_loaded": "2,100",
    "box1_loaded_unit": "lb",
    "box1_left": "61",
    "box1_left_unit": "lb",
    "signers": "Ada Lindqvist\nJo Marsh",
}


@pytest.fixture
def demo(book):
    """The demo's book; gives the jobs by the beginning of their names."""
    fill(book)
    return {
        thing.body.name.rpartition(", ")[2]: f"/jobs/{thing.id}" for thing in book.things("job")
    }


class Shown(HTMLParser):
    """What a reader of a document sees on its paper, drawings and hidden words left out."""

    def __init__(self, html):
        super().__init__()
        self._inside, self._deep, self.pieces = False, 0, []
        self.feed(html)

    def handle_starttag(self, name, attributes):
        self._inside = self._inside or name == "article"
        classes = (dict(attributes).get("class") or "").split()
        if self._deep or name == "svg" or {"away", "screen"} & {*classes}:
            self._deep += 1

    def handle_endtag(self, name):
        self._deep = max(0, self._deep - 1)
        self._inside = self._inside and name != "article"

    def handle_data(self, data):
        if self._inside and not self._deep and plain(data):
            self.pieces.append(plain(data))


def plain(text):
    return re.sub(r"\s+", " ", unicodedata.normalize("NFKC", text)).strip()


def tight(text):
    """A text without spaces: a PDF breaks lines where it likes, even behind a hyphen."""
    return re.sub(r"\s", "", unicodedata.normalize("NFKC", text))


def read_pdf(client, path):
    answer = client.get(path)
    assert (answer.status_code, answer.mimetype) == (200, "application/pdf"), answer.text
    read = pypdf.PdfReader(io.BytesIO(answer.data), strict=True)
    return tight("".join(page.extract_text() for page in read.pages))


def numbers(text):
    return re.findall(r"\d[\d.,\u202f]*\d|\d", text)


PAPERS = {
    "record": ("{cover}/record", "{cover}/record.pdf"),
    "worksheet": (
        "{oats}/calibrate/worksheet?box=grain",
        "{oats}/calibrate/worksheet.pdf?box=grain",
    ),
    "card": ("{drill}/card", "{drill}/card.pdf"),
    "season": ("/season?of=spring+2026", "/season.pdf?of=spring+2026"),
}


@pytest.fixture
def addresses(demo, book, visitor):
    """A record, worksheet, drill card and season of the demo, each as page and PDF."""
    oats, cover = demo["spring oats"], demo["fall cover"]
    visitor.send(f"{cover}/record/edit", FORM)
    drill = next(t for t in book.things("drill") if t.body.name == "Plover")
    known = {"oats": oats, "cover": cover, "drill": f"/drills/{drill.id}"}
    return {name: [each.format(**known) for each in pair] for name, pair in PAPERS.items()}


@pytest.mark.parametrize("name", PAPERS)
@pytest.mark.parametrize("reader", ["units=us&language=en", "units=metric&language=es"])
def test_a_pdf_says_what_its_page_says(client, addresses, *, name, reader):
    """Every sentence and every number of the page, none of it another."""
    for choice in reader.split("&"):
        client.set_cookie(*choice.split("="))
    page, pdf = addresses[name]
    pieces = Shown(client.get(page).text).pieces
    found = read_pdf(client, pdf)
    assert len(pieces) > 20
    for piece in pieces:
        assert tight(piece) in found, piece
    for number in numbers(" ".join(pieces)):
        assert number in found


def test_a_value_has_more_room_than_its_label_however_long_labels_are(client, demo):
    """A practice of 27 letters is one line beside Spanish labels; no table squeezes its names."""
    client.set_cookie("language", "es")
    client.set_cookie("units", "metric")
    read = pypdf.PdfReader(
        io.BytesIO(client.get(f"{demo['barley and red clover']}/record.pdf").data)
    )
    lines = {
        " ".join(line.split()) for page in read.pages for line in page.extract_text().splitlines()
    }
    assert any("512 Pasture and hay planting" in line for line in lines)
    assert any("Trébol rojo, lote K-25" in line for line in lines)


def test_the_record_shows_what_was_written_in_its_form(visitor, demo):
    job = demo["fall cover"]
    empty = visitor.read(f"{job}/record")
    assert labels.NOT_SOWN_YET(where="Alder Bench") in empty.text
    assert visitor.send(f"{job}/record/edit", FORM) == f"{job}/record"
    text = visitor.read(f"{job}/record").text
    assert "38.1 ac of Alder Bench seeded from Sep 28, 2026 to Sep 29, 2026." in text
    # (2,100 − 61) lb ÷ 38.1 ac = 53.52 lb/ac
    assert "2,100 61 2,039 53.5 (" in text
    assert "Ada Lindqvist" in text
    assert "Jo Marsh" in text


def test_its_form_is_filled_in_and_a_second_sending_changes_it(visitor, book, demo):
    job = demo["fall cover"]
    visitor.send(f"{job}/record/edit", FORM)
    fields = visitor.read(f"{job}/record/edit").fields
    assert (fields["first"], fields["box1_loaded"], fields["area"]) == (
        "2026-09-28",
        "2,100",
        "38.1 ± 0.3",
    )
    visitor.send(f"{job}/record/edit", FORM | {"producer": "Jo"})
    found = book.things("record", of=job.rpartition("/")[2])
    assert [each.body.producer for each in found] == ["Jo"]
    assert len(book.history(found[0].id)) == 2


def test_a_form_sent_twice_is_kept_once(visitor, book, demo):
    job, entry = demo["fall cover"], book.new_id()
    for _ in range(2):
        visitor.send(f"{job}/record/edit", FORM | {"entry": entry})
    (thing,) = book.things("record", of=job.rpartition("/")[2])
    assert len(book.history(thing.id)) == 1


@pytest.mark.parametrize(
    ("field", "text"),
    [("first", "soon"), ("last", "2026-09-27"), ("area", "0"), ("box1_left", "3,000")],
)
def test_what_cannot_be_is_refused_at_its_field_and_stays(visitor, book, demo, *, field, text):
    page = visitor.send(f"{demo['fall cover']}/record/edit", FORM | {field: text}, code=422)
    assert set(page.wrong) == {field}
    assert page.fields[field] == text
    assert page.fields["producer"] == "Ada Lindqvist"
    assert not book.things("record", of=demo["fall cover"].rpartition("/")[2])


def test_the_job_page_says_how_far_the_record_is(visitor, demo, book):
    cover, oats = demo["fall cover"], demo["spring oats"]
    assert labels.NEEDS_EARLIER_STEPS in visitor.read(cover).text
    assert "38.5 ac seeded on Apr 14, 2026" in visitor.read(oats).text
    visitor.send(f"{cover}/record/edit", {"producer": "Ada"})
    assert labels.GIVE_SEEDING_DATE_AREA in visitor.read(cover).text
    visitor.send(f"{cover}/record/edit", FORM)
    assert "38.1 ac seeded from Sep 28, 2026 to Sep 29, 2026" in visitor.read(cover).text
    assert f"{cover}/record" in visitor.read(cover).links


def test_paper_is_that_of_the_units_unless_another_is_asked_for(client, visitor, demo):
    job = demo["fall cover"]

    def width(path):
        read = pypdf.PdfReader(io.BytesIO(client.get(path).data))
        return round(read.pages[0].mediabox.width)

    assert width(f"{job}/record.pdf") == 612
    assert width(f"{job}/record.pdf?paper=a4") == 595
    client.set_cookie("units", "metric")
    assert width(f"{job}/record.pdf") == 595
    assert re.search(
        labels.CHOOSE_PAPER_SIZE.like(),
        visitor.read(f"{job}/record.pdf?paper=napkin", code=422).text,
    )


def test_a_pdf_has_a_name_and_is_the_same_again(client, demo):
    first = client.get(f"{demo['fall cover']}/record.pdf")
    assert first.headers["Content-Disposition"] == (
        'inline; filename="record-alder-bench-fall-cover.pdf"'
    )
    assert first.data == client.get(f"{demo['fall cover']}/record.pdf").data


def test_a_photo_of_a_tag_stands_on_the_page_and_a_broken_one_stops_nothing(visitor, book, demo):
    lot = next(thing for thing in book.things("lot") if thing.body.name == "R-26")
    photo = Photo(of=lot.id, media="image/jpeg", data=b"\xff\xd8\xff", caption="The torn tag")
    entry = book.add(photo)
    page = visitor.read(f"{demo['fall cover']}/record")
    assert f'src="/photos/{entry.about}"' in page.html
    text = read_pdf(visitor.client, f"{demo['fall cover']}/record.pdf")
    assert "Thetorntag:thisphotocan'tberead" in text


def test_there_is_nothing_for_what_is_not_there(client, demo, book):
    nowhere = (
        "/jobs/x/record",
        "/jobs/x/record.pdf",
        "/drills/x/card",
        "/jobs/x/calibrate/worksheet",
    )
    for path in nowhere:
        assert client.get(path).status_code == 404
    job = book.add(work.Job(name="Later")).about
    assert client.get(f"/jobs/{job}/record").status_code == 200
    assert client.get(f"/jobs/{job}/record.pdf").status_code == 200
    assert client.get(f"/jobs/{job}/calibrate/worksheet").status_code == 422


def test_an_empty_book_has_a_season_without_jobs(visitor):
    assert labels.NO_JOB_YET in visitor.read("/season").text


def test_a_phone_prints_the_page_and_has_no_pdf(book):
    from evenstand.web.run.app import create_app
    from evenstand.web.site.settings import Settings

    fill(book)
    job = f"/jobs/{book.things('job')[0].id}"
    client = create_app(book, settings=Settings(on_phone=True)).test_client()
    page = client.get(f"{job}/record").text
    assert labels.PRINT_AT_THE_OFFICE in page
    assert ".pdf" not in page
    assert client.get(f"{job}/record.pdf").status_code == 404


def test_where_type_cannot_be_set_there_is_no_pdf(client, demo, monkeypatch):
    import sys

    monkeypatch.setitem(sys.modules, "evenstand.tasks.record.pdf", None)
    with pytest.raises(ModuleNotFoundError):
        client.get(f"{demo['fall cover']}/record.pdf")
    monkeypatch.delitem(sys.modules, "evenstand.tasks.record.pdf")
    monkeypatch.delitem(sys.modules, "evenstand.office.pdf", raising=False)
    monkeypatch.setitem(sys.modules, "typst", None)
    assert client.get(f"{demo['fall cover']}/record.pdf").status_code == 404
