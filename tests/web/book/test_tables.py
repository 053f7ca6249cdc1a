"""Tables on pages: handed out, looked at column by column, and taken in whole or not at all."""

import csv
import io
import json
import re
from html import unescape

import openpyxl
import pytest

import labels
from evenstand.demo.book import fill
from evenstand.tasks.tables.everything import TABLES

GOOD = "lot;species;purity [%];germ;tested\nR-1;cereal rye;98,5;92%;3/2026\n\nR-2;radish;97;80%;\n"
FIELD = re.compile(r'<input type="hidden" name="(\w+)" value="([^"]*)"')


@pytest.fixture(autouse=True)
def _month(november):
    pass


def look(client, text, kind="lots", **more):
    data = text if isinstance(text, bytes) else text.encode()
    fields = {"kind": kind, "file": (io.BytesIO(data), "table.csv"), **more}
    return client.post("/tables/look", data=fields)


def carried(answer):
    return dict(FIELD.findall(answer.text))


def test_the_book_leads_to_the_tables_and_they_to_files(client, book, visitor):
    fill(book)
    assert "/tables" in visitor.read("/settings").links
    links = visitor.read("/tables").links
    for name in TABLES:
        assert {f"/tables/{name}.csv", f"/tables/{name}.xlsx"} <= set(links)
    for link in [each for each in links if each.startswith("/tables/")]:
        answer = client.get(link)
        assert answer.status_code == 200
        assert answer.headers["Content-Disposition"].startswith("attachment")


def test_files_are_in_the_reader_s_units_language_and_decimal_sign(client, book):
    fill(book)
    us = client.get("/tables/fields.csv")
    assert us.mimetype == "text/csv"
    rows = list(csv.reader(io.StringIO(us.data.decode("utf-8-sig"))))
    assert rows[1][:2] == ["Alder Bench", "38.5"]
    for name, value in (("units", "metric"), ("language", "es"), ("decimal", "comma")):
        client.set_cookie(name, value)
    text = client.get("/tables/fields.csv").data.decode("utf-8-sig")
    assert text.startswith("nombre;área [ha];estado;nota;id") or "[ha];" in text.partition("\r")[0]
    assert ";15,580397" in text
    again = look(client, text, kind="fields", units="metric")
    assert again.status_code == 200
    assert "9 que ya estaban en el libro" in again.text.replace("\u00a0", " ")


def test_a_workbook_of_all_tables(client, book):
    fill(book)
    found = openpyxl.load_workbook(io.BytesIO(client.get("/tables/all.xlsx").data))
    assert found.sheetnames == list(TABLES)


def test_fields_on_the_map_and_everything(client, book):
    fill(book)
    answer = client.get("/tables/fields.geojson")
    assert answer.mimetype == "application/geo+json"  # RFC 7946, 12
    assert json.loads(answer.data)["type"] == "FeatureCollection"
    assert len(client.get("/tables/everything.json").json["things"]["field"]) == 9


def test_there_is_no_table_of_nothing(client):
    for path in ("/tables/nothing.csv", "/tables/nothing.xlsx", "/tables/all.csv"):
        assert client.get(path).status_code == 404


def test_a_table_is_looked_at_and_then_taken_in_once(client, book):
    seen = look(client, GOOD)
    assert seen.status_code == 200
    assert book.counts() == {}
    assert re.search(
        labels.TABLE_WOULD_CHANGE.like(new=2, changed=0, known=0), seen.text.replace("\u00a0", " ")
    )
    fields = carried(seen)
    for _ in range(2):
        done = client.post("/tables/take", data=fields)
        assert done.status_code == 303
    assert book.counts() == {"lot": 2}
    lots = {thing.body.name: thing.body for thing in book.things("lot")}
    assert lots["R-1"].tag.purity == pytest.approx(0.985)
    assert book.things("lot")[0].entry.by == "Ada"
    assert labels.TABLE_IMPORTED(new=0, known=2) in client.get(done.location).text.replace(
        "\xa0", " "
    )


def test_a_row_with_an_id_updates_what_it_names(client, book):
    client.post("/tables/take", data=carried(look(client, GOOD)))
    lot = next(each for each in book.things("lot") if each.body.name == "R-1")
    seen = look(client, f"id,purity\n{lot.id},97.5%\n")
    text = re.sub(r"\s+", " ", seen.text.replace("\xa0", " "))
    assert re.search(labels.TABLE_WOULD_CHANGE.like(new=0, changed=1), text)
    assert "R-1, Pure seed: 98.5% → 97.5%" in text
    assert client.post("/tables/take", data=carried(seen)).status_code == 303
    assert len(book.things("lot")) == 2
    assert book.get(lot.id).body.tag.purity == pytest.approx(0.975)
    assert len(book.history(lot.id)) == 2


def test_what_is_new_under_a_name_that_is_here_says_so(client, book):
    client.post("/tables/take", data=carried(look(client, GOOD)))
    seen = look(client, GOOD.replace("98,5", "97,5"))
    assert re.search(labels.TABLE_NAME_TAKEN.like(names="R-1"), unescape(seen.text))


def test_what_is_refused_says_where_and_nothing_is_taken_in(client, book):
    seen = look(client, GOOD.replace("80%", "eighty"))
    assert seen.status_code == 422
    text = re.sub(r"\s+", " ", seen.text.replace("\u00a0", " "))
    assert labels.ROW_AND_COLUMN(row=4, column="D (germ)") in text
    assert "<q>eighty</q>" in text
    assert "tables/take" not in text
    assert client.post("/tables/take", data=carried(seen)).status_code == 422
    assert book.counts() == {}


def test_columns_and_units_can_be_chosen_and_looked_at_again(client, book):
    seen = look(client, "what,how much\nAlder Bench,38.5\n", kind="fields")
    assert seen.status_code == 422
    chosen = carried(seen) | {"column0": "field_name", "column1": "field_area", "unit1": "ac"}
    again = client.post("/tables/look", data=chosen)
    assert again.status_code == 200
    assert re.search(r'<option value="field_area" selected>', again.text)
    assert client.post("/tables/take", data=chosen).status_code == 303
    assert book.things("field")[0].body.area.text == "38.5 ac"
    assert client.post("/tables/look", data=chosen | {"column1": ""}).status_code == 200


def test_letters_and_signs_can_be_chosen(client):
    data = "name;note\nCañada;1\n".encode("cp1252")
    seen = look(client, data, kind="fields")
    assert "Windows-1252" in seen.text
    assert look(client, data, kind="fields", encoding="utf-8").status_code == 422
    comma = look(client, "name,area\nA,38.5 ac", kind="fields", decimal="comma", separator="comma")
    assert comma.status_code == 200


@pytest.mark.parametrize(
    ("fields", "need"),
    [
        ({"kind": "lots"}, labels.CHOOSE_FILE_FIRST.like()),
        ({"kind": "lots", "carried": "not base 64!"}, labels.CHOOSE_FILE_FIRST.like()),
        ({"kind": "catches", "carried": "YQ=="}, labels.GIVE_ONE.like()),
        ({"carried": "YQ=="}, labels.GIVE_ONE.like()),
        ({"kind": "lots", "carried": "AAA="}, labels.GIVE_TABLE_CSV.like()),
    ],
)
def test_what_is_no_table_is_said_on_the_page(client, fields, need):
    for path in ("/tables/look", "/tables/take"):
        answer = client.post(path, data=fields)
        assert answer.status_code == 422
        assert re.search(need, answer.text.replace("\u00a0", " "))


def raw(client, content):
    """Send a file in a form made by hand: the client's own maker of forms leaves files open."""
    parts = [("kind", "fields", b""), ("file", "a.csv", content)]
    sent = b"".join(
        b'--x\r\nContent-Disposition: form-data; name="%s"%s\r\n\r\n%s\r\n'
        % (
            name.encode(),
            b'; filename="a.csv"' if content else b"",
            content or value.encode(),
        )
        for name, value, content in parts
    )
    kind = "multipart/form-data; boundary=x"
    return client.post("/tables/look", data=sent + b"--x--\r\n", content_type=kind)


def test_how_large_a_file_may_be(client):
    """Larger than other forms, which end at 2 MB; beyond it the page says so."""
    middling = raw(client, b"name,note\n" + b",\n" * 1_200_000)
    assert "100000 rows" in middling.text.replace("\u00a0", " ").replace(",", "")
    large = raw(client, b"x" * (3 * 1024 * 1024 + 1))
    assert (large.status_code, "3\u00a0MB" in large.text) == (422, True)
    assert raw(client, b"x" * (7 * 1024 * 1024)).status_code == 413


def test_text_of_a_file_is_never_markup(client):
    evil = 'name,"<script>alert(1)</script>"\n<b>A</b>,<i>x</i>\n'
    assert not re.search(r"<(script>|b>A|i>x)", look(client, evil, kind="fields").text)


def test_readers_have_files_but_take_nothing_in(signed_in, client):
    signed_in("reads")
    assert client.get("/tables/fields.csv").status_code == 200
    assert "/tables/look" not in client.get("/tables").text
    assert look(client, GOOD).status_code == 403


def test_on_a_phone_there_is_csv_and_no_xlsx(book):
    from evenstand.web.run.app import create_app
    from evenstand.web.site.settings import Settings

    client = create_app(book, settings=Settings(on_phone=True)).test_client()
    page = client.get("/tables").text
    assert "/tables/lots.csv" in page
    assert ".xlsx" not in re.sub(r'accept="[^"]*"', "", page)
    assert client.get("/tables/lots.xlsx").status_code == 404
    assert look(client, GOOD).status_code == 200
    assert labels.XLSX_AT_THE_OFFICE in look(client, b"PK\x03\x04rest").text


def test_an_address_made_up_says_nothing(client):
    for query in (
        "kind=lots&new=x&known=1",
        "kind=no&new=1&known=1",
        "kind=lots&new=99999999&known=1",
    ):
        assert 'role="status"' not in client.get(f"/tables?{query}").text
