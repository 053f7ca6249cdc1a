"""Files as people have them: what is read all the same, and what is refused, where and why."""

import io
import json
import re
import zipfile
from contextlib import suppress
from itertools import pairwise

import openpyxl
import pytest
from hypothesis import given as given_some
from hypothesis import strategies as st
from openpyxl.styles import Font

import labels
from evenstand.book.kinds.work import Field
from evenstand.book.opening import open_book
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.tag import Month
from evenstand.office.spreadsheet_read import Limits, read_xlsx
from evenstand.tasks.library.checking import check
from evenstand.tasks.tables import csv as tables_csv
from evenstand.tasks.tables.everything import TABLES
from evenstand.tasks.tables.file import Way, read_table
from evenstand.tasks.tables.match import Choices, choices_by_name
from evenstand.tasks.tables.take import preview, take

NOW = Month(2026, 11)
FIELD = b"name,area [ac]\nAlder Bench,38.5\n"


@pytest.fixture
def book():
    with open_book(":memory:", device="shed") as opened:
        yield opened


def look(book, data, name="fields", *, choices=None, **way):
    grid = read_table(data, Way(**way))
    return preview(grid, TABLES[name], book, today=NOW, choices=choices)


def areas(book, data, **way):
    found = look(book, data, **way)
    assert found.refused == ()
    return {body.name: body.area and round(body.area.value, 3) for body in found.new.values()}


def needs(found):
    return {(each.row, each.column): str(each.need) for each in found.refused}


def refusal(data, **way):
    with pytest.raises(MeasurementError) as refused:
        read_table(data, Way(**way))
    assert refused.value.field in ("file", "sheet")
    return str(refused.value.need)


def workbook(*rows, change=None):
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    if change:
        change(book)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


ALDER = {"Alder Bench": 155_803.972}  # 38.5 × 4046.8564224 m²


@pytest.mark.parametrize(
    "text",
    [
        "name,area [ac]\nAlder Bench,38.5\n",
        "\ufeffname,area [ac]\r\nAlder Bench,38.5\r\n",
        "Name;Area (ac)\nAlder Bench;38,5\n",
        "sep=;\nname;area [ac]\nAlder Bench;38,5\n",
        "name\tarea_ac\nAlder Bench\t38,5\n",
        "field,acres\n\n,\nAlder Bench,38.5\n\n",
        "name,area\nAlder Bench,38.5 ac\n",
        "NAME , ÁREA [ac]\nAlder Bench,38.5\n",
        "Fields of ours,,\n,,\nfarm,name,area [ac]\nx,Alder Bench,38.5\n",
        '"name","area, ac"\n"Alder Bench","38.5"\n',
    ],
)
def test_csv_as_spreadsheets_write_it(book, text):
    assert areas(book, text.encode()) == ALDER


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_letters_of_other_encodings(book, encoding):
    """Windows-1252 is told from UTF-8 by bytes that UTF-8 cannot have; that it was is said."""
    data = "name,note\nLa Cañada,ñandú\n".encode(encoding)
    grid = read_table(data, Way())
    assert grid.rows[1] == ("La Cañada", "ñandú")
    assert bool(grid.notes) == (encoding in ("cp1252", "utf-16"))


def test_an_encoding_that_was_named_is_kept_to():
    data = "name\nCañada\n".encode("cp1252")
    assert "Windows-1252" in refusal(data, encoding="utf-8")
    assert read_table(data, Way(encoding="windows-1252")).notes == ()
    odd = read_table("name\nCañada\n".encode(), Way(encoding="windows-1252"))
    assert odd.rows[1] == ("CaÃ±ada",)


def test_bytes_that_are_neither_are_named_with_their_line():
    """0x81 stands for nothing in Windows-1252 (Unicode's table cp1252.txt)."""
    need = refusal(b"name\na\nb\xff\x81\n")
    assert re.search(labels.SAVE_CSV_UTF.like(line=3), need)
    assert "0x81" in need


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"", labels.GIVE_FILE_SOMETHING),
        (b" \n\n", labels.GIVE_FILE_SOMETHING),
        (b"a\0b,c\n", labels.GIVE_TABLE_CSV),
        (b"\xff\xfea", "UTF-8"),
        (b"\xd0\xcf\x11\xe0rest of an old one", labels.SAVE_XLSX_CSV),
        (b"PK\x03\x04 no zip at all", "damaged"),
        (b'name\n"open and never closed\n', "fix row 2"),
        (b"name\n" + b"x" * 300_000, "200000 characters"),
        (b"," * 300 + b"x\n", labels.GIVE_MOST_COLUMNS(n=200)),
        (b"{", "GeoJSON"),
    ],
)
def test_what_is_no_table_says_so(data, word):
    assert word in refusal(data)


def test_too_much_is_refused_with_the_limit():
    assert labels.GIVE_MOST_ROWS(n=5000) in refusal(b"name\n" + b"a\n" * 5001).replace(",", "")
    assert len(read_table(b"name\n" + b"a\n" * 5000, Way()).rows) == 5001
    assert labels.DELETE_EMPTY_ROWS(n=100000) in refusal(b"name\n" + b",\n" * 100_000).replace(
        ",", ""
    )
    assert labels.GIVE_FILE_MOST(n=10) in refusal(b"x" * (10 * 1024 * 1024 + 1))
    with pytest.raises(MeasurementError):
        tables_csv.read_csv(b"x" * (10 * 1024 * 1024 + 1))


def test_each_cell_that_is_wrong_is_named_and_nothing_is_taken_in(book):
    data = b"lot,species,purity [%],germination [%],tested\n" + (
        b"R-1,cereal rye,98,92,3/2026\n,hairy vetch,abc,80,45992\n,,97,200,\n"
    )
    found = look(book, data, "lots")
    assert set(needs(found)) == {(3, "C (purity [%])"), (3, "E (tested)"), (4, "B (species)")} | {
        (4, "D (germination [%])")
    }
    assert [each.given for each in found.refused[:2]] == ["abc", "45992"]
    assert "2026-03" in needs(found)[3, "E (tested)"]
    with pytest.raises(MeasurementError) as refused:
        take(book, found)
    assert refused.value.field == "row 3, column C (purity [%])"
    assert book.counts() == {}


def test_a_point_of_a_chart_is_named_by_its_own_row(book):
    take(book, look(book, b"name,rows,spacing [in]\nHeron,20,7.5\n", "drills"))
    data = b"drill,seed,setting,rate [lb/ac]\nHeron,rye,20,36\nHeron,rye,x,54\nHeron,rye,40,-\n"
    found = look(book, data, "charts")
    assert set(needs(found)) == {(3, "C (setting)"), (4, "D (rate [lb/ac])")}
    none = look(book, data.replace(b"x,54", b"30,0").replace(b"40,-", b"40,72"), "charts")
    assert set(needs(none)) == {(3, "D (rate [lb/ac])")}
    bare = look(book, b"drill,setting,rate\nHeron,20,36\n", "charts")
    assert "60 lb/ac" in needs(bare)[2, "C (rate)"]
    good = look(book, data.replace(b"x,54", b"30,54").replace(b"40,-", b"40,72"), "charts")
    (chart,) = good.new.values()
    # 36 lb/ac = 36 × 0.45359237 kg ÷ 4046.8564224 m²
    assert chart.points[0].rate.value == pytest.approx(36 * 0.45359237 / 4046.8564224)
    assert [point.setting for point in chart.points] == [20, 30, 40]


def test_charts_name_their_drill(book):
    row = b"drill,setting,rate [lb/ac]\nHeron,20,36\n"
    assert labels.GIVE_NAME_DRILL in needs(look(book, row, "charts"))[2, "A (" + labels.DRILL + ")"]
    twice = b"name,rows,spacing [in]\nHeron,20,7.5\nHeron,22,7.5\n"
    take(book, look(book, twice, "drills"))
    assert (
        labels.SEVERAL_DRILLS_HAVE
        in needs(look(book, row, "charts"))[2, "A (" + labels.DRILL + ")"]
    )
    id = book.things("drill")[0].id
    (chart,) = look(book, row.replace(b"Heron", id.encode()), "charts").new.values()
    assert chart.drill == id


def test_columns_that_are_missing_or_said_twice(book):
    assert re.match(
        labels.NO_COLUMN_SAYS.like(), needs(look(book, b"area [ac]\n38.5\n"))[1, "name"]
    )
    twice = look(book, b"name,area [ac],acres\nAlder Bench,38.5,38.5\n")
    assert labels.LEAVE_OUT_COLUMN(other="B (area [ac])") in needs(twice)[1, "C (acres)"]
    assert look(book, b"name,name\na,b\n", choices=Choices({1: ""})).refused == ()


def test_a_unit_that_does_not_fit_is_refused_at_its_heading(book):
    found = look(book, b"name,area [kg]\nAlder Bench,38.5\n")
    assert needs(found)[1, "B (" + labels.AREA + " [kg])"].startswith(
        labels.WRITE_UNIT_FITS(us="ac", metric="ha")
    )


def test_columns_can_be_matched_by_hand(book):
    data = b"what,how much\nAlder Bench,38.5\n"
    chosen = Choices({0: "field_name", 1: "field_area"}, {1: "ac"})
    (body,) = look(book, data, choices=chosen).new.values()
    assert round(body.area.value, 3) == ALDER["Alder Bench"]
    grid = read_table(data, Way())
    assert choices_by_name(grid, ["A=name", "how much=area"]).keys == {0: "name", 1: "area"}
    for wrong in ("Z=name", "A", "nothing=name"):
        with pytest.raises(MeasurementError) as refused:
            choices_by_name(grid, [wrong])
        assert refused.value.field == "--column"


def test_the_same_row_twice_in_a_file_comes_once(book):
    found = look(book, b"name,area [ha]\nA,10\nB,11\nA,10.0\n")
    assert (len(found.new), found.twice) == (2, 1)


@pytest.mark.parametrize(
    ("cell", "word"), [("yes", True), ("Sí", True), ("x", True), ("no", False), ("0", False)]
)
def test_yes_and_no_in_many_words(book, cell, word):
    data = f"species,purity [%],germination [%],treated\ncereal rye,98,92,{cell}\n".encode()
    (lot,) = look(book, data, "lots").new.values()
    assert lot.tag.treated is word


def test_neither_yes_nor_no(book):
    data = b"species,purity [%],germination [%],treated\ncereal rye,98,92,perhaps\n"
    assert needs(look(book, data, "lots")) == {
        (2, "D (" + labels.TREATED + ")"): labels.ANSWER_YES_NO
    }


def test_a_cell_is_not_a_book(book):
    found = look(book, b"name,note\nA," + b"x" * 10_001 + b"\n")
    assert labels.WRITE_MOST_CHARACTERS(n=10000) in needs(found)[
        2, "B (" + labels.NOTE + ")"
    ].replace(",", "")


@pytest.mark.parametrize("data", [b"", b" ", b"\x1c", b",,\n", b'""'])
def test_a_table_with_nothing_in_it_is_refused(book, data):
    with pytest.raises(MeasurementError) as refused:
        look(book, data)
    assert refused.value.field == "file"


@given_some(
    st.one_of(
        st.binary(max_size=300),
        st.text(max_size=200).map(lambda text: f"name,area\n{text}".encode("utf-8", "replace")),
    )
)
def test_no_bytes_make_it_stumble(data):
    with open_book(":memory:", device="shed") as book, suppress(MeasurementError):
        look(book, data)


# XLSX


def test_xlsx_with_real_numbers_dates_and_percents(book):
    from datetime import date

    def percent(book):
        book.active["C2"].number_format = "0.0%"

    rows = (
        ["species", "tested", "purity", "germination [%]", "treated", "price [$/lb]"],
        ["cereal rye", date(2026, 3, 15), 0.985, 92, True, 0.35],
    )
    (lot,) = look(book, workbook(*rows, change=percent), "lots").new.values()
    assert (lot.tag.purity, lot.tag.germination) == (pytest.approx(0.985), pytest.approx(0.92))
    assert (lot.tag.tested, lot.tag.treated) == ("2026-03", True)
    assert lot.price.value == pytest.approx(0.35 / 0.45359237)


def test_days_as_numbers_are_those_of_a_spreadsheet(book):
    """Day 46,096 is 15 March 2026: 36,526 is 1 January 2000 (ECMA-376, 18.17.4.1, not read)."""
    rows = (["species", "tested", "purity [%]", "germination [%]"], ["rye", 46_096, 98, 92])
    rows[1][0] = "cereal rye"
    (lot,) = look(book, workbook(*rows), "lots").new.values()
    assert lot.tag.tested == "2026-03"


def test_a_date_where_an_amount_is_wanted_is_refused(book):
    from datetime import date

    data = workbook(["name", "area [ac]"], ["A", date(2026, 1, 2)])
    assert (
        labels.WRITE_TEXT_SPREADSHEET in needs(look(book, data))[2, "B (" + labels.AREA + " [ac])"]
    )


def test_formulas_without_values_and_with_errors_are_named(book):
    data = workbook(["name", "area [ac]", "note"], ["A", "=30+8.5", "x"], ["B", 12, "=1/0"])
    found = look(book, data)
    assert set(needs(found)) == {
        (2, "B (" + labels.AREA + " [ac])"),
        (3, "C (" + labels.NOTE + ")"),
    }
    assert labels.OPEN_FILE_SPREADSHEET in needs(found)[2, "B (" + labels.AREA + " [ac])"]
    # The same with what a spreadsheet keeps beside a formula.
    packed = zipfile.ZipFile(io.BytesIO(data))
    sheet = packed.read("xl/worksheets/sheet1.xml").decode()
    sheet = sheet.replace("<f>30+8.5</f><v></v>", "<f>30+8.5</f><v>38.5</v>")
    sheet = sheet.replace("<f>30+8.5</f><v/>", "<f>30+8.5</f><v>38.5</v>")
    sheet = sheet.replace("<f>30+8.5</f><v />", "<f>30+8.5</f><v>38.5</v>")
    sheet = sheet.replace('r="C3"><f>1/0</f><v></v>', 'r="C3" t="e"><f>1/0</f><v>#DIV/0!</v>')
    sheet = sheet.replace('r="C3"><f>1/0</f><v />', 'r="C3" t="e"><f>1/0</f><v>#DIV/0!</v>')
    sheet = sheet.replace('r="C3"><f>1/0</f><v/>', 'r="C3" t="e"><f>1/0</f><v>#DIV/0!</v>')
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as out:
        for each in packed.namelist():
            whole = sheet if each.endswith("sheet1.xml") else packed.read(each)
            out.writestr(each, whole)
    assert needs(look(book, file.getvalue())) == {
        (3, "C (" + labels.NOTE + ")"): labels.MEND_FORMULA_GIVES(error="#DIV/0!")
    }


def test_merged_cells_are_named_where_they_matter(book):
    def merge(*ranges):
        def change(book):
            for each in ranges:
                book.active.merge_cells(each)

        return change

    title = workbook(["My fields"], ["name", "area [ac]"], ["A", 10], change=merge("A1:B1"))
    assert areas(book, title) == {"A": 40_468.564}
    below = workbook(["name", "area [ac]"], ["A", 10], [None, 12], change=merge("A2:A3"))
    assert needs(look(book, below))[2, "A"] == labels.SPLIT_JOINED_CELLS(cells="A2:A3")


def test_hidden_sheets_are_left_alone_and_others_can_be_chosen(book):
    def sheets(book):
        book.active.title = "secret"
        book.active.sheet_state = "hidden"
        for name, field in (("fields", "A"), ("more", "B")):
            sheet = book.create_sheet(name)
            sheet.append(["name"])
            sheet.append([field])

    data = workbook(["name"], ["hidden"], change=sheets)
    grid = read_table(data, Way())
    assert grid.sheets == ("fields", "more")
    assert [str(note) for note in grid.notes] == [
        labels.SHEET_READ(name="fields"),
        labels.HIDDEN_SHEETS_LEFT(names="secret"),
    ]
    assert areas(book, data, sheet="more") == {"B": None}
    assert refusal(data, sheet="secret") == labels.GIVE_ONE(names="fields, more")


def test_a_workbook_without_a_sheet_to_see():
    data = workbook(["name"], ["A"])
    packed = zipfile.ZipFile(io.BytesIO(data))
    text = packed.read("xl/workbook.xml").decode().replace('state="visible"', 'state="hidden"')
    assert 'state="hidden"' in text
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as out:
        for each in packed.namelist():
            out.writestr(each, text if each == "xl/workbook.xml" else packed.read(each))
    assert refusal(file.getvalue()) == labels.SHOW_SHEET_ALL


def replaced(data, name, text):
    """Put another part into a workbook."""
    file = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(data)) as packed,
        zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as out,
    ):
        for each in packed.namelist():
            out.writestr(each, text if each == name else packed.read(each))
    return file.getvalue()


def test_a_zip_bomb_is_refused_before_it_is_unpacked():
    data = replaced(workbook(["name"]), "xl/worksheets/sheet1.xml", b" " * (40 * 1024 * 1024))
    assert len(data) < 100_000
    assert labels.GIVE_FILE_UNPACKS(n=50) in refusal(data)


def test_signs_of_ones_own_are_refused():
    bomb = b'<?xml version="1.0"?><!DOCTYPE a [<!ENTITY x "ha">]><a>&x;</a>'
    assert labels.SAVE_XLSX_ANEW in refusal(replaced(workbook(["name"]), "xl/workbook.xml", bomb))


def test_a_million_rows_are_not_read(book):
    def far(book):
        book.active.cell(row=1_048_576, column=1, value="end")

    assert labels.DELETE_EMPTY_ROWS(n=100000) in refusal(workbook(["name"], change=far)).replace(
        ",", ""
    )
    many = workbook(["name"], *(["a"] for _ in range(5001)))
    assert labels.GIVE_MOST_ROWS(n=5000) in refusal(many).replace(",", "")


def test_too_wide_and_too_long_in_a_workbook():
    assert labels.GIVE_MOST_COLUMNS(n=200) in refusal(workbook(["x"] * 201))
    with pytest.raises(MeasurementError):
        read_xlsx(workbook(["x" * 20]), sheet="", limits=Limits(rows=9, seen=9, columns=9, cell=10))


def test_a_workbook_that_is_cut_short_is_damaged():
    data = workbook(["name"], ["A"])
    for part in (len(data) // 2, len(data) - 10):
        assert "damaged" in refusal(data[:part])
    no_sheet = replaced(data, "xl/workbook.xml", b"<nothing/>")
    assert "damaged" in refusal(no_sheet) or "hidden" in refusal(no_sheet)


def test_text_that_looks_like_a_formula_stays_text():
    from evenstand.office.spreadsheet import write_xlsx

    data = write_xlsx([("a", ["=b"], [["=1+1"], ["+2"], ["-3"], ["@x"], [-3.0]])])
    cells = [row[0] for row in openpyxl.load_workbook(io.BytesIO(data)).active.iter_rows()]
    assert [cell.data_type for cell in cells] == ["s"] * 5 + ["n"]
    assert [cell.value for cell in cells] == ["=b", "=1+1", "+2", "-3", "@x", -3]
    assert [cell.quotePrefix for cell in cells[1:5]] == [True] * 4
    assert isinstance(cells[0].font, Font | object)


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", "\tx", "\rx", "＝1"])
def test_csv_text_that_looks_like_a_formula_gets_an_apostrophe(text):
    """The signs are those of OWASP, CSV Injection."""
    assert tables_csv.harmless(text) == f"'{text}"
    assert tables_csv.harmless(f"a{text}") == f"a{text}"


def test_on_a_phone_csv_is_read_and_xlsx_takes_the_office(book):
    assert read_table(FIELD, Way(office=False)).rows[1] == ("Alder Bench", "38.5")
    assert "office" in refusal(workbook(["name"]), office=False)


# GeoJSON

SQUARE = [[-100.0, 45.0], [-100.0, 45.01], [-99.99, 45.01], [-99.99, 45.0], [-100.0, 45.0]]


def geojson(*features, **more):
    shaped = [{"type": "Feature", "properties": p, "geometry": g} for p, g in features]
    return json.dumps({"type": "FeatureCollection", "features": shaped, **more}).encode()


def test_fields_from_a_map(book):
    """A field with an outline and no area gets the area of its outline; see `outline` for it."""
    shape = {"type": "Polygon", "coordinates": [SQUARE]}
    data = geojson(({"Name": "A", "crop": "rye"}, shape), ({"name": "B", "area_ha": 10}, None))
    found = look(book, geojson(({"Name": "A", "crop": "rye"}, shape)))
    (body,) = found.new.values()
    # About 0.01° × 111.1 km by 0.01° × 78.8 km (a degree at 45° north).
    assert body.area.value == pytest.approx(1111 * 788, rel=0.01)
    ring = json.loads(body.outline)["coordinates"][0]
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring))
    assert twice > 0  # counterclockwise, RFC 7946 3.1.6; it was drawn clockwise
    assert {each.name for each in look(book, data.replace(b'"Name"', b'"name"')).new.values()} == {
        "A",
        "B",
    }


def test_fields_go_out_on_the_map_and_come_back(book):
    from evenstand.tasks.tables.geojson import fields_geojson

    shape = {"type": "MultiPolygon", "coordinates": [[SQUARE]]}
    take(book, look(book, geojson(({"name": "A", "note": "=x"}, shape), ({"name": "B"}, None))))
    data = fields_geojson(book, units="metric")
    document = json.loads(data)
    assert [f["geometry"] and f["geometry"]["type"] for f in document["features"]] == [
        "Polygon",
        None,
    ]
    assert set(document["features"][0]["properties"]) == {"name", "area_ha", "note"}
    again = look(book, data)
    assert (again.refused, len(again.new), again.known) == ((), 0, 2)
    with open_book(":memory:", device="barn") as other:
        take(other, look(other, data))
        a, b = (
            sorted((t.body.name, t.body.outline) for t in x.things("field")) for x in (book, other)
        )
    assert a == b


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"{}", "collection"),
        (b'{"type": "Topology"}', "collection"),
        (b'{"type": "Feature", "properties": {"name": NaN}}', "UTF-8"),
        (b'{"type":' + b"[" * 5000 + b"]" * 5000 + b"}", "nested"),
        (geojson(crs={"properties": {"name": "EPSG:25832"}}), labels.SAVE_LONGITUDE_LATITUDE),
        (geojson(*[({}, None)] * 5001), labels.GIVE_MOST_ROWS(n=5000)),
        (geojson(({f"p{i}": 1 for i in range(201)}, None)), labels.GIVE_MOST_COLUMNS(n=200)),
        (
            geojson(
                ({}, {"type": "Polygon", "coordinates": [[[0.123456789, 1.123456789]] * 12_000]})
            ),
            "fewer corners",
        ),
    ],
)
def test_what_is_no_map_of_fields_says_so(data, word):
    assert word in refusal(data).replace("5,000", "5000")


def test_an_outline_that_crosses_itself_is_named_by_its_feature(book):
    bow = [[0, 0], [1, 1], [1, 0], [0, 1], [0, 0]]
    found = look(book, geojson(({"name": "A"}, {"type": "Polygon", "coordinates": [bow]})))
    assert labels.DRAW_OUTLINE_AGAIN in needs(found)[1, "B (outline)"]


def test_one_feature_or_a_bare_outline_will_do(book):
    shape = {"type": "Polygon", "coordinates": [SQUARE]}
    one = json.dumps({"type": "Feature", "properties": {"name": "A"}, "geometry": shape}).encode()
    assert look(book, one).rows == 1
    assert read_table(json.dumps(shape).encode(), Way()).rows[0] == ("outline",)
    assert "object" not in refusal(b'{"type": "FeatureCollection", "features": 3}')


def test_a_program_s_field_is_asked_for_its_outline_too(book):
    with pytest.raises(MeasurementError) as refused:
        check(Field(name="A", outline='{"type": "Point"}'), book, today=NOW)
    assert refused.value.field == "outline"
    check(Field(name="A"), book, today=NOW)
