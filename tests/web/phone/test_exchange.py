"""What an office takes from phones and gives them, request by request."""

import json

import pytest

from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.sown import Finished, Left
from evenstand.book.kinds.work import Job
from evenstand.book.opening import open_book

DRILL = Drill(name="Heron", rows=20, spacing=Typed(value=0.1905, text="7.5 in"))


@pytest.fixture
def key(book, client):
    """The header of a phone that is paired."""
    code = book.devices.offer(account=None, who="Ada")
    told = client.post("/exchange/pair", json={"code": code, "name": "p"}).json
    return {"Authorization": f"Bearer {told['key']}"}


def texts(book):
    with book.all_entries() as found:
        return [entry.text for entry in found]


def test_a_place_of_this_book_is_gone_on_from(book, client, key):
    def behind(place):
        return client.post("/exchange", json=place, headers=key).json

    first = book.add(DRILL)
    told = behind({"cursor": 0})
    assert [each["id"] for each in told["entries"]] == [first.id]
    place = {name: told[name] for name in ("cursor", "mark")}
    assert behind(place) == place | {"entries": [], "more": False, "role": "keeps"}
    second = book.add(DRILL)
    assert [each["id"] for each in behind(place)["entries"]] == [second.id]


def test_a_book_without_what_was_handed_over_is_begun_anew(
    book, client, key, *, monkeypatch, tmp_path
):
    """It goes back to a copy that has all a phone took by then, but not what it gave."""
    from evenstand.web.run.app import create_app

    monkeypatch.setattr("evenstand.web.phone.exchange.MOST_TAKEN", 2)
    for _ in range(3):
        book.add(DRILL)
    book.backup(tmp_path / "copy.evenstand")
    with open_book(":memory:", device="phone") as other:
        sent = other.add(DRILL)
    asked = {"cursor": 0, "entries": [sent.text]}
    told = client.post("/exchange", json=asked, headers=key).json
    assert told["more"]
    place = {name: told[name] for name in ("cursor", "mark")}
    with open_book(tmp_path / "copy.evenstand", device="shed") as copy:
        back = create_app(copy).test_client()
        assert back.post("/exchange", json=place, headers=key).json == {"anew": True}


def test_a_thing_may_come_after_its_removal(book, client, key):
    """As after a backup, where the removal waited and the thing itself was handed over before."""
    with open_book(":memory:", device="phone") as other:
        drill = other.add(DRILL)
        removal = other.remove(drill.about)
    for text in (removal.text, drill.text):
        answer = client.post("/exchange", json={"cursor": 0, "entries": [text]}, headers=key)
        assert answer.status_code == 200, answer.text
    assert texts(book) == [drill.text, removal.text]
    assert book.things("drill") == []
    assert [thing.id for thing in book.things("drill", removed=True)] == [drill.about]


OTHER_PLACES = [
    {"cursor": 1, "mark": "another"},
    {"cursor": 1, "mark": f"1:{64 * '0'}"},
    {"cursor": 9, "mark": f"9{40 * '0'}:00"},
    {"cursor": 1},
]


@pytest.mark.parametrize("place", OTHER_PLACES)
def test_a_place_of_another_book_is_begun_anew(book, client, key, *, place):
    """As after a backup: what was sent along is kept all the same."""
    book.add(DRILL)
    with open_book(":memory:", device="phone") as other:
        sent = other.add(DRILL)
    told = client.post("/exchange", json=place | {"entries": [sent.text]}, headers=key)
    assert told.json == {"anew": True}
    assert sent.text in texts(book)


@pytest.mark.parametrize(("role", "allowed"), [("reads", False), ("works", True), ("keeps", True)])
def test_what_is_here_already_may_come_again_from_anybody(book, client, key, *, role, allowed):
    drill = book.add(DRILL)
    book.remove(drill.about)
    known = texts(book)
    book._store._sqlite.execute("UPDATE device SET role = ?", (role,))
    again = client.post("/exchange", json={"cursor": 0, "entries": known}, headers=key)
    assert (again.status_code, again.json["entries"]) == (200, [])
    with open_book(":memory:", device="phone") as other:
        new = other.add(DRILL).text
    sent = client.post("/exchange", json={"cursor": 0, "entries": [new]}, headers=key)
    assert (sent.status_code, new in texts(book)) == ((200, True) if allowed else (403, False))


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"kind": "note", "body": {"text": "mine", "of": None}}, "kind"),
        ({"format": 99, "body": {"name": [1]}}, "format"),
        (
            {"format": 99, "body": {"name": "x", "rows": 2, "spacing": {"value": 1.0}, "new": 1}},
            "format",
        ),
        ({"made": "9999-12-31T00:00:00.000Z-ffff-z"}, "made"),
        ({"body": {"name": "x", "rows": 20, "spacing": {"value": 1e308, "text": "x"}}}, "entry"),
    ],
)
def test_what_no_page_would_write_is_refused(book, client, key, *, changed, field):
    """Another kind of a thing that is here, a stamp that nothing can follow, an impossible size."""
    known = book.add(DRILL)
    entry = json.loads(known.text) | {"id": book.new_id()} | changed
    if field == "kind":
        entry["body"]["of"] = known.about
    sent = {"cursor": 0, "entries": [json.dumps(entry)]}
    answer = client.post("/exchange", json=sent, headers=key)
    assert answer.status_code == 422, answer.text
    assert texts(book) == [known.text]


def test_a_cursor_beyond_all_is_refused_in_words(client, key):
    answer = client.post("/exchange", json={"cursor": 2**70}, headers=key)
    assert answer.status_code == 400


OUTLINES = ["somewhere", '{"type": "Point"}', '{"a": ' + "[" * 900 + "]" * 900 + "}"]


@pytest.mark.parametrize("outline", OUTLINES)
def test_an_outline_that_is_none_is_refused_by_both_ways_and_left_out_of_maps(
    book, client, key, *, outline, tmp_path
):
    from evenstand.book.exchange import export_book
    from evenstand.book.kinds.work import Field

    with open_book(":memory:", device="phone") as other:
        field = other.add(Field(name="North", outline=outline))
        export_book(other, tmp_path / "out.zip")
    asked = {"cursor": 0, "entries": [field.text]}
    assert client.post("/exchange", json=asked, headers=key).status_code == 422
    with (tmp_path / "out.zip").open("rb") as file:
        sent = client.post("/api/import", data=file.read(), content_type="application/zip")
    assert (sent.status_code, sent.json["errors"][0]["field"]) == (422, "entry field outline")
    assert texts(book) == []
    book.merge([field])
    [feature] = client.get("/tables/fields.geojson").get_json(force=True)["features"]
    assert feature["geometry"] is None


def test_a_file_turns_no_drill_into_a_lot(book, client, tmp_path):
    from evenstand.book.exchange import export_book

    drill = book.add(DRILL)
    with open_book(":memory:", device="b") as other:
        entry = other.add(DRILL)
        text = entry.text.replace(entry.about, drill.about).replace('"drill"', '"note"')
        early = json.loads(text) | {"id": other.new_id(), "made": "2001-01-01T00:00:00.000Z-0000-b"}
        early["body"] = {"of": drill.about, "text": "x"}
        from evenstand.book.log.entries import read

        other.merge([read(json.dumps(early).encode())])
        export_book(other, tmp_path / "out.zip")
    data = (tmp_path / "out.zip").read_bytes()
    sent = client.post("/api/import", data=data, content_type="application/zip")
    assert (sent.status_code, sent.json["errors"][0]["field"]) == (422, "entry kind")
    assert [each.kind for each in book.history(drill.about)] == ["drill"]
    assert book.get(drill.about).kind == "drill"


def test_a_picture_that_fills_the_memory_is_refused_by_both_ways(book, client, key, *, tmp_path):
    from evenstand.book.exchange import export_book
    from evenstand.book.kinds.bodies import Photo

    frame = b"\xff\xc0\x00\x0b\x08" + bytes([255, 220]) * 2 + b"\x01\x01\x11\x00"
    with open_book(":memory:", device="phone") as other:
        drill = other.add(DRILL).about
        data = b"\xff\xd8" + frame + b"\xff\xd9"
        photo = other.add(Photo(of=drill, media="image/jpeg", data=data))
        export_book(other, tmp_path / "out.zip")
    asked = {"cursor": 0, "entries": [photo.text]}
    assert client.post("/exchange", json=asked, headers=key).status_code == 422
    data = (tmp_path / "out.zip").read_bytes()
    sent = client.post("/api/import", data=data, content_type="application/zip")
    assert sent.status_code == 422
    assert texts(book) == []


def test_a_phone_of_an_account_signs_as_its_person_and_carriers_are_named(book, client, three):
    code = book.devices.offer(account=three["works"].id, who="Wim")
    told = client.post("/exchange/pair", json={"code": code, "name": "Wim's phone"}).json
    assert told["signs"] == "Wim"
    key = {"Authorization": f"Bearer {told['key']}"}

    def send(device, who):
        with open_book(":memory:", device=device, who=who) as other:
            entry = other.add(DRILL)
        asked = {"cursor": 0, "entries": [entry.text]}
        return entry, client.post("/exchange", json=asked, headers=key).status_code

    _, refused = send(told["device"], "Kim")
    own, taken = send(told["device"], "Wim")
    carried, also = send("phone-of-kim", "Kim")
    assert (refused, taken, also) == (403, 200, 200)
    assert book.devices.carriers([own, carried]) == {carried.id: "Wim's phone"}
    client.set_cookie("session", book.people.begin(three["reads"].id))
    page = client.get(f"/history/{carried.about}").text
    assert "by Kim (synced from Wim&#39;s phone)" in page


def test_a_field_finished_on_a_phone_of_an_earlier_release_is_frozen(book, client, key):
    with open_book(":memory:", device="phone") as phone:
        job = phone.add(Job(name="Alder Bench")).about
        phone.add(Finished(job=job, at=Typed(value=1000.0), left=(Left(weight=Typed(value=0.0)),)))
        for _ in range(2):
            sent = {"cursor": 0, "entries": texts(phone)}
            assert client.post("/exchange", json=sent, headers=key).status_code == 200
    [frozen] = book.things("frozen", of=job)
    assert frozen.entry.by == "Ada"
