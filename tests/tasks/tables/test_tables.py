"""Tables written and taken in again: the same things, once, whatever stands in them."""

import csv
import io
from datetime import datetime

import openpyxl
import polars
import pytest
from hypothesis import given as given_some
from hypothesis import settings
from hypothesis import strategies as st
from msgspec.structs import replace

import labels
from evenstand.book.kinds.machine import Chart, Drill
from evenstand.book.kinds.seed import BagSize, Lot, Member, Mix
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Bag, Catch, Field, Job
from evenstand.book.opening import open_book
from evenstand.demo.book import fill
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import SHARE
from evenstand.engine.seed.tag import Month
from evenstand.tasks.job.form import read_field
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.seed.form import read_lot_form
from evenstand.tasks.tables.csv import read_csv, write_csv
from evenstand.tasks.tables.everything import (
    READ,
    TABLES,
    everything,
    filled,
    filled_all,
    table_named,
)
from evenstand.tasks.tables.file import Way, read_table, write_xlsx
from evenstand.tasks.tables.same import said
from evenstand.tasks.tables.take import preview, take

NOW = Month(2026, 11)
# Text that a spreadsheet would make a formula of, or that CSV could trip over.
TEXT = st.one_of(
    st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=20),
    st.sampled_from(
        ["=1+1", "+1", "-2", "@a", "\tx", "'=x", "''=x", 'a"b', "a;b", "a\nb", "ñandú"]
    ),
)
NUMBERS = st.decimals(min_value="0.1", max_value="99.9", places=2).map(str)


OPENED = []  # books of the test at hand


def new_book():
    OPENED.append(open_book(":memory:", device="shed"))
    return OPENED[-1]


@pytest.fixture(autouse=True)
def closed():
    """Close what a test opened, often many for its drawn examples."""
    yield
    while OPENED:
        OPENED.pop().close()


def as_file(book, name, *, ending, units="us", decimal="."):
    table = filled(book, name, units=units)
    return write_csv(table, decimal=decimal) if ending == "csv" else write_xlsx(table)


def look(data, name, book, **more):
    return preview(read_table(data, Way()), TABLES[name], book, today=NOW, **more)


def kept(book, name):
    """What a table says of everything in a book, without its order."""
    return sorted(said(TABLES[name], thing.body) for thing in book.things(TABLES[name].kind))


def same(a, b):
    """Alike in words, and in numbers as far as other units let them be."""
    assert [words for words, _ in a] == [words for words, _ in b]
    for (_, these), (_, those) in zip(a, b, strict=True):
        assert these == pytest.approx(those, rel=1e-9)


@pytest.fixture(scope="module")
def pool():
    with open_book(":memory:", device="shed") as book:
        fill(book)
        yield book


@pytest.mark.parametrize("decimal", [".", ","])
@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_the_pool_comes_back_from_its_tables(pool, *, ending, units, decimal):
    other = new_book()
    for name in READ:
        data = as_file(pool, name, ending=ending, units=units, decimal=decimal)
        found = look(data, name, other)
        assert found.refused == ()
        assert all(each.column for each in found.matched)
        take(other, found)
        if name != "charts":  # they name the drill by the id it has in their book
            same(kept(other, name), kept(pool, name))
    assert len(other.things("chart")) == len(pool.things("chart"))
    points = [len(t.body.points) for t in other.things("chart")]
    assert sorted(points) == sorted(len(t.body.points) for t in pool.things("chart"))


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
@pytest.mark.parametrize("name", READ)
def test_what_is_there_is_not_taken_in_again(pool, name, ending):
    """Neither twice into an empty book, nor back into the book it came from, in other units."""
    other, n = new_book(), len(pool.things(TABLES[name].kind))
    if name == "charts":
        take(other, look(as_file(pool, "drills", ending=ending), "drills", other))
    data = as_file(pool, name, ending=ending, units="metric")
    take(other, look(data, name, other))
    count = other.cursor()
    again = look(data, name, other)
    assert (len(again.new), again.known) == (0, n)
    take(other, again)
    assert other.cursor() == count
    home = look(data, name, pool)
    assert (len(home.new), home.known) == (0, n)


@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_row_with_an_id_changes_what_its_columns_say_and_nothing_else(units):
    """Exported, one cell changed, most columns taken out, brought back."""
    book = new_book()
    fill(book)
    lot = next(each for each in book.things("lot") if each.body.bags and each.body.on_hand)
    rows = list(csv.reader(io.StringIO(as_file(book, "lots", ending="csv").decode("utf-8-sig"))))
    head, row = rows[0], next(each for each in rows if lot.id in each)
    at = {name.partition(" [")[0]: i for i, name in enumerate(head)}
    wanted = (
        [at["germination"], at["note"], at["ID"]] if "note" in at else [at["germination"], at["ID"]]
    )
    row[at["germination"]] = "77%"
    text = "\n".join(",".join(f'"{each[i]}"' for i in wanted) for each in (head, row))
    found = look(text.encode(), "lots", book, style=Style(system=units))
    assert (len(found.new), list(found.changed), found.refused) == (0, [lot.id], ())
    [change] = found.changes
    assert (str(change.field), change.after) == ("Germination", SHARE(0.77))
    take(book, found, by="Kay")
    tag = replace(lot.body.tag, germination=0.77)
    assert book.get(lot.id).body == replace(lot.body, tag=tag)
    assert book.history(lot.id)[-1].by == "Kay"


def test_an_id_of_another_book_is_a_new_thing():
    book = new_book()
    row = b"name,area [ac],ID\nAlder Bench,38.5,01a22f0d-9062-7382-8d93-ddafde846691\n"
    found = look(row, "fields", book)
    assert (len(found.new), len(found.changed)) == (1, 0)


def test_a_thing_that_was_removed_or_changed_since_does_not_come_again():
    book = new_book()
    data = b"name,area [ac]\nAlder Bench,38.5\n"
    take(book, look(data, "fields", book))
    book.remove(book.things("field")[0].id)
    assert look(data, "fields", book).known == 1


@given_some(name=TEXT, note=TEXT, area=NUMBERS, unit=st.sampled_from(["ac", "ha"]))
@settings(max_examples=60)
@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_any_text_comes_back_as_it_was(ending, *, name, note, area, unit):
    texts = {"field_name": name, "field_note": note, "field_area": f"{area} {unit}"}
    if not name.strip():
        return
    body = read_field(Given({k: v for k, v in texts.items() if v.strip()}))
    book, other = new_book(), new_book()
    book.add(body)
    found = look(as_file(book, "fields", ending=ending), "fields", other)
    assert found.refused == ()
    (back,) = found.new.values()
    assert (back.name, back.note) == (body.name, body.note)
    assert back.area.value == pytest.approx(body.area.value, rel=1e-11)


LOTS = st.fixed_dictionaries(
    {
        "species": st.sampled_from(["cereal rye", "hairy vetch", "radish"]),
        "purity": st.sampled_from(["98%", "97.5%", "99.99%"]),
        "germination": st.sampled_from(["80%", "85.5%"]),
    },
    optional={
        "name": st.sampled_from(["R-1", "=R", "-2"]),
        "hard": st.sampled_from(["5%", "0.5%"]),
        "tested": st.sampled_from(["2026-03", "3/2026", "March 2026"]),
        "seeds_tested": st.sampled_from(["200", "400"]),
        "seeds_per_lb": st.sampled_from(["18,100 seeds/lb", "40000 ± 500 seeds/kg"]),
        "price": st.sampled_from(["$0.35/lb", "0 $/lb"]),
        "bag1_weight": st.just("50 lb"),
        "bag2_weight": st.just("1 t"),
        "bag2_price": st.just("$560"),
        "on_hand": st.sampled_from(["0 lb", "120 kg"]),
        "sold_out": st.just("yes"),
        "count_hard": st.sampled_from(["yes", "no"]),
        "treated": st.just("yes"),
        "noxious1_name": st.just("dodder"),
        "noxious1_count": st.just("18 seeds/lb"),
        "age_limit": st.just("9"),
        "note": st.just("from the shed"),
    },
)


@given_some(texts=LOTS)
@settings(max_examples=60)
def test_any_lot_comes_back_as_it_was(texts):
    if ("noxious1_name" in texts) != ("noxious1_count" in texts):
        return
    if "bag2_price" in texts and "bag2_weight" not in texts:
        return
    book, other = new_book(), new_book()
    book.add(read_lot_form(Given(texts), today=NOW))
    found = look(as_file(book, "lots", ending="csv"), "lots", other)
    assert found.refused == ()
    take(other, found)
    same(kept(other, "lots"), kept(book, "lots"))


def test_csv_is_read_alike_by_others(pool):
    """The csv module and Polars see one row of headings and real numbers."""
    data = as_file(pool, "catches", ending="csv")
    assert data.startswith(b"\xef\xbb\xbf")
    rows = list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))
    ours = filled(pool, "catches", units="us")
    frame = polars.read_csv(data)
    assert frame.height == len(rows) == len(ours.rows) == len(pool.things("catch"))
    assert tuple(frame.columns) == tuple(rows[0]) == ours.headings
    assert frame[labels.NET_SEED + " [oz]"].dtype == polars.Float64
    seed = ours.keys.index("seed")
    assert frame[labels.NET_SEED + " [oz]"].to_list() == [row[seed] for row in ours.rows]


def test_xlsx_is_read_alike_by_openpyxl(pool):
    book = openpyxl.load_workbook(io.BytesIO(write_xlsx(*filled_all(pool))))
    assert book.sheetnames == list(TABLES)
    sheet = book["catches"]
    headings, first = ([cell.value for cell in row] for row in list(sheet.iter_rows())[:2])
    ours = filled(pool, "catches")
    assert tuple(headings) == ours.headings
    assert isinstance(first[0], datetime)
    assert tuple(first) == ours.rows[0]
    assert sheet.freeze_panes == "A2"


def test_amounts_are_in_the_unit_of_their_heading():
    """38.5 ac is 15.580397 ha: 38.5 × 4046.8564224 m² (NIST SP 811) ÷ 10,000."""
    book = new_book()
    book.add(read_field(Given({"field_name": "Alder Bench", "field_area": "38.5 ± 0.5 ac"})))
    us, metric, si = (filled(book, "fields", units=u) for u in ("us", "metric", "si"))
    assert us.headings[1:3] == (labels.AREA + " [ac]", labels.AREA + " ± [ac]")
    assert us.rows[0][1:3] == (38.5, 0.5)
    assert metric.rows[0][1] == pytest.approx(38.5 * 4046.8564224 / 10_000, rel=1e-11)
    assert si.units == {"area": "m²", "area_limits": "m²"}
    assert si.rows[0][1] == pytest.approx(155_803.97, abs=0.01)


def test_a_catch_is_the_sum_of_its_bags():
    book = new_book()
    job = book.add(Job(name="J")).about
    bags = (Bag(weight=Typed(value=0.02), row=1), Bag(weight=Typed(value=0.03), row=2))
    book.add(Catch(job=job, setting=30.0, bags=bags))
    (row,) = filled(book, "catches", units="si").rows
    said_of = dict(zip(filled(book, "catches", units="si").keys, row, strict=True))
    assert (said_of["seed"], said_of["rows"], said_of["bags"]) == (pytest.approx(0.05), 2, 2)
    assert [r[2] for r in filled(book, "bags", units="si").rows] == [1, 2]


def test_a_carrier_stands_with_its_bags():
    book = new_book()
    bag = BagSize(weight=Typed(value=20), price=Typed(value=9))
    hulls = Member(name="rice hulls", basis="bulk", carrier=True, bags=(bag,))
    book.add(Mix(name="M", members=(hulls, Member(name="oats", basis="rest"))))
    table = filled(book, "mixes", units="si")
    hulls, oats = (dict(zip(table.keys, row, strict=True)) for row in table.rows)
    assert (hulls["bag1_weight"], hulls["bag1_price"]) == (20, 9)
    assert oats["bag1_weight"] is None


def test_two_things_of_one_name_are_called_by_their_ids():
    book = new_book()
    one, two = (book.add(Drill(name="Heron", rows=n, spacing=Typed(value=0.19))) for n in (20, 22))
    for drill in (one, two):
        book.add(Chart(drill=drill.about, points=()))
        book.add(Job(name=f"J{drill.about}", drill=drill.about))
    drills = {row[3] for row in filled(book, "jobs").rows}
    assert drills == {one.about, two.about}


def test_everything_says_what_is_kept(pool):
    found = everything(pool)
    assert found["things"].keys() == pool.counts().keys()
    fields = found["things"]["field"]
    assert fields[0]["body"]["area"]["text"] == "38.5 ac"


def test_a_table_that_there_is_not_is_refused():
    with pytest.raises(MeasurementError) as refused:
        table_named("lot")
    assert refused.value.field == "table"


def test_bodies_of_tables_are_those_of_forms(pool):
    other = new_book()
    found = look(as_file(pool, "lots", ending="xlsx"), "lots", other)
    assert all(isinstance(body, Lot) for body in found.new.values())
    assert all(
        isinstance(body, Field)
        for body in look(as_file(pool, "fields", ending="csv"), "fields", other).new.values()
    )


def test_a_decimal_comma_is_written_with_semicolons(pool):
    data = as_file(pool, "fields", ending="csv", decimal=",")
    assert b";38,5;" in data
    assert read_csv(data).decimal == ","


def test_a_nul_is_left_out_of_csv():
    book = new_book()
    book.add(Field(name="A\0B"))
    assert read_csv(as_file(book, "fields", ending="csv")).rows[1][0] == "AB"
