"""Two people change one thing in their browsers: nothing is lost, and the second is asked."""

import re

import pytest
from msgspec.structs import replace


@pytest.fixture
def lot(visitor, shelf):
    return f"/seed/{shelf()}"


def questions(page):
    """What is asked, by the name of its keys."""
    found = re.findall(
        r'<legend>(.*?)</legend>\s*<label><input type="radio" name="(whose:[^"]*)"', page.html
    )
    return {name: re.sub(r"\s+", " ", said.replace("\u00a0", " ")) for said, name in found}


def theirs(book, lot, by="Nia", **changes):
    id = lot.rsplit("/", 1)[1]
    now = book.get(id).body
    tag = {key: value for key, value in changes.items() if hasattr(now.tag, key)}
    own = {key: value for key, value in changes.items() if key not in tag}
    return book.correct(id, replace(now, tag=replace(now.tag, **tag), **own), by=by)


def body(book, lot):
    return book.get(lot.rsplit("/", 1)[1]).body


@pytest.mark.parametrize(("whose", "germination"), [("theirs", 0.93), ("yours", 0.88)])
def test_the_second_to_save_is_asked_and_decides(visitor, book, lot, *, whose, germination):
    """90 % was on the tag; Nia has made it 93 %, this form says 88 %."""
    form = visitor.read(f"{lot}/edit").fields
    theirs(book, lot, germination=0.93)
    page = visitor.send(f"{lot}/edit", form | {"germination": "88", "note": "mine"}, code=409)
    [(name, said)] = questions(page).items()
    assert name == "whose:/tag/germination"
    assert re.fullmatch(
        r"Germination: Nia changed 90% to 93% at \d\d:\d\d while you had this open\.", said
    )
    assert ("Use 93% from Nia" in page.text, "Use my 88%" in page.text) == (True, True)
    assert body(book, lot).note == "", "nothing is written before it is decided"
    assert page.fields["germination"] == "88"
    assert visitor.send(f"{lot}/edit", page.fields | {name: whose}) == lot
    now = body(book, lot)
    assert (now.tag.germination, now.note) == (germination, "mine")
    assert book.clashing() == []
    assert len(book.history(lot.rsplit("/", 1)[1])) == 3


def test_another_field_changed_meanwhile_is_kept_without_a_question(visitor, book, lot):
    form = visitor.read(f"{lot}/edit").fields
    theirs(book, lot, note="north bay")
    visitor.send(f"{lot}/edit", form | {"germination": "88"})
    now = body(book, lot)
    assert (now.tag.germination, now.note) == (0.88, "north bay")


def test_without_an_answer_it_is_asked_again_and_so_is_a_third_persons_change(visitor, book, lot):
    form = visitor.read(f"{lot}/edit").fields | {"germination": "88"}
    theirs(book, lot, germination=0.93)
    page = visitor.send(f"{lot}/edit", form, code=409)
    page = visitor.send(f"{lot}/edit", page.fields, code=409)
    theirs(book, lot, by="Kay", germination=0.95)
    key = "whose:/tag/germination"
    page = visitor.send(f"{lot}/edit", page.fields | {key: "yours"}, code=409)
    assert "Germination: Kay changed 90% to 95%" in page.text
    visitor.send(f"{lot}/edit", page.fields | {key: "yours"})
    assert body(book, lot).tag.germination == 0.88


def test_what_was_removed_meanwhile_is_asked_about(visitor, book, lot):
    form = visitor.read(f"{lot}/edit").fields | {"germination": "88"}
    book.remove(lot.rsplit("/", 1)[1], by="Nia")
    page = visitor.send(f"{lot}/edit", form, code=409)
    assert "Nia removed this" in page.text
    visitor.send(f"{lot}/edit", page.fields | {"whose:": "theirs"})
    assert book.get(lot.rsplit("/", 1)[1]).removed


def test_two_write_down_the_one_record_of_a_job(visitor, book):
    """The second had an empty form open."""
    job = visitor.job()
    empty = visitor.read(f"{job}/record/edit").fields
    visitor.send(f"{job}/record/edit", visitor.read(f"{job}/record/edit").fields | {"farm": "Elm"})
    page = visitor.send(f"{job}/record/edit", empty | {"farm": "Oak", "soil": "loam"}, code=409)
    assert list(questions(page)) == ["whose:/farm"]
    visitor.send(f"{job}/record/edit", page.fields | {"whose:/farm": "yours"})
    [record] = book.things("record")
    assert (record.body.farm, record.body.soil) == ("Oak", "loam")


def test_every_form_that_changes_a_thing_says_what_it_was_opened_from(visitor, book, lot):
    job = visitor.job()
    drill = book.things("drill")[0]
    chart = book.things("chart")[0]
    visitor.mix(job, (lot.rsplit("/", 1)[1], "60", "bulk|lb/ac"))
    visitor.send(f"{job}/calibrate", visitor.GOOD)
    catch = book.things("catch")[0]
    for path, id in {
        f"{lot}/edit": lot.rsplit("/", 1)[1],
        f"/drills/{drill.id}/edit": drill.id,
        f"/charts/{chart.id}": chart.id,
        f"{job}/edit": job.rsplit("/", 1)[1],
        f"{job}/mix/edit": book.things("mix")[0].id,
        f"/catches/{catch.id}": catch.id,
    }.items():
        assert visitor.read(path).fields["base"] == " ".join(book.get(id).heads), path
    for path in (f"{job}/record/edit", f"{job}/stand-count"):
        assert visitor.read(path).fields["base"] == "", path


def test_a_second_drill_of_the_same_name_is_asked_about(visitor, book):
    first = visitor.send("/drills/new", visitor.HERON)
    page = visitor.send("/drills/new", {**visitor.HERON, "name": "heron"}, code=409)
    assert "There is already a drill Heron." in page.text
    assert first in page.links
    assert book.counts()["drill"] == 1
    visitor.send("/drills/new", {**visitor.HERON, "another": "yes"})
    assert book.counts()["drill"] == 2


def test_a_second_lot_of_the_same_species_and_number_is_asked_about(visitor, book, lot):
    fields = {"species": "cereal rye", "name": "R-26", "purity": "98 %", "germination": "90 %"}
    page = visitor.send("/seed/new", fields | {"tested": "2026-08"}, code=409)
    assert "There is already a lot R-26 of cereal rye." in page.text
    assert lot in page.links
    visitor.send("/seed/new", fields | {"tested": "2026-08", "name": "R-27"})
    assert book.counts()["lot"] == 2
