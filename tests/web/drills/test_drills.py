"""Drills: what is typed is kept, what is wrong is said at its field."""

import re

import pytest

import labels
from evenstand.book.kinds.machine import Box, Chart, Drill
from evenstand.book.kinds.shape import Typed
from evenstand.engine.quantities.units import FOOT, INCH, POUND_PER_ACRE


def test_an_empty_book_asks_for_a_drill(visitor):
    assert labels.ENTER_FIRST_DRILL in visitor.read("/drills").text
    assert labels.ENTER_DRILL_FIRST in visitor.read("/").text


def test_a_drill_is_kept_as_typed(visitor, book):
    visitor.send("/drills/new", visitor.HERON | {"rolled": "7 ft 11 in", "rolled_unit": "in"})
    (thing,) = book.things("drill")
    assert thing.body.spacing.text == "7.5 in"
    assert thing.body.spacing.value == pytest.approx(7.5 * INCH)
    # Typed with its own unit, the one beside the field does not matter: 7 ft 11 in are 95 in.
    assert thing.body.rolled.value == pytest.approx((7 + 11 / 12) * FOOT)
    assert (thing.body.rows, thing.body.scale.high) == (20, 60)


def test_the_page_of_a_drill(visitor):
    page = visitor.read(visitor.heron())
    # 20 rows 7.5 in apart are 150 in.
    assert "Width 12.5 ft" in page.text
    assert labels.SCALE_OF_LEVER(low=0, high=60, step=1) in page.text
    assert labels.POINTS_FROM_AT(n=3, low="36 lb/ac", from_=20, high="72 lb/ac", to=40) in page.text


@pytest.mark.parametrize(
    "case",
    [
        ("name", "", labels.MISSING_GIVE.like()),
        ("rows", "many", labels.WRITE_SUCH.like(wanted="a number of rows")),
        (
            "spacing",
            "7.5 lb",
            labels.WANTED_SUCH.like(given="7.5 lb", name="a weight", wanted="a length"),
        ),
        ("rolled", "95 ac", labels.WANTED_SUCH.like(given="95 ac", name="an area")),
        ("taped", "95 in", labels.ROLLED_OR_TAPED.like()),
        ("scale_high", "0", labels.ABOVE_LOW_END.like()),
        ("scale_high", "", labels.MISSING_GIVE.like()),
        ("scale_step", "0.0001", labels.GIVE_A_NOTCH.like()),
        ("row_cv", "-5%", labels.GIVE_NUMBER_MORE.like()),
    ],
)
def test_a_refusal_stands_at_its_field(visitor, book, case):
    field, typed, need = case
    page = visitor.send("/drills/new", visitor.HERON | {field: typed}, code=422)
    assert re.search(need, page.wrong[field])
    assert f"#f-{field}" in page.links
    assert book.things("drill") == []


def test_what_was_typed_stays(visitor):
    page = visitor.send(
        "/drills/new", visitor.HERON | {"rows": "many", "spacing": "7 5/8"}, code=422
    )
    assert page.fields["rows"] == "many"
    assert page.fields["spacing"] == "7 5/8"
    assert page.fields["spacing_unit"] == "in"


def test_several_refusals_are_told_at_once(visitor):
    page = visitor.send(
        "/drills/new", visitor.HERON | {"rows": "0", "spacing": "x", "name": ""}, code=422
    )
    assert set(page.wrong) == {"rows", "spacing", "name"}


def test_a_tape_needs_its_slip(visitor, book):
    taped = visitor.HERON | {"rolled": "", "taped": "95 in"}
    assert "slip" in visitor.send("/drills/new", taped, code=422).wrong
    visitor.send("/drills/new", taped | {"slip": "3 ± 2%"})
    (thing,) = book.things("drill")
    assert (thing.body.slip.value, thing.body.slip.give_or_take) == (0.03, 0.02)


def test_gears_by_teeth_and_boxes(visitor, book):
    more = {"gear1_name": "full", "gear1_ratio": "1", "gear2_name": "half", "gear2_ratio": "12:24"}
    more |= {"box1_name": "grain", "box1_volume": "48", "box1_volume_unit": "bu"}
    visitor.send("/drills/new", visitor.HERON | more)
    (thing,) = book.things("drill")
    assert [gear.ratio for gear in thing.body.gears] == [1, 0.5]
    assert (thing.body.gears[1].driver, thing.body.gears[1].driven) == (12, 24)
    assert thing.body.boxes[0].volume.text == "48 bu"
    for wrong in ({"gear2_ratio": "12:0"}, {"gear2_ratio": "fast"}, {"gear2_name": "full"}):
        assert len(visitor.send("/drills/new", visitor.HERON | more | wrong, code=422).wrong) == 1


def test_a_form_sent_twice_is_kept_once(visitor, book):
    fields = visitor.HERON | {"entry": book.new_id()}
    assert visitor.send("/drills/new", fields) == visitor.send("/drills/new", fields)
    assert len(book.things("drill")) == 1


def test_a_form_changed_after_going_back_asks_what_is_meant(visitor, book):
    fields = visitor.HERON | {"entry": book.new_id()}
    visitor.send("/drills/new", fields)
    page = visitor.send("/drills/new", fields | {"name": "Egret"}, code=422)
    assert labels.SAVED_OTHER_VALUES in page.text
    visitor.send("/drills/new", fields | {"name": "Egret", "entry": page.fields["entry"]})
    assert len(book.things("drill")) == 2


def test_a_drill_is_changed_and_taken_off_the_list(visitor, book):
    drill = visitor.heron()
    fields = visitor.read(f"{drill}/edit").fields
    assert (fields["name"], fields["spacing"], fields["scale_high"]) == ("Heron", "7.5", "60")
    visitor.send(f"{drill}/edit", fields | {"rows": "18"})
    assert "Rows 18" in visitor.read(drill).text
    visitor.send(f"{drill}/remove", {})
    assert "Heron" not in visitor.read("/drills").text
    assert len(book.history(drill.rsplit("/", 1)[1])) == 3


def test_changing_a_drill_keeps_what_was_said_of_its_boxes(visitor, book):
    body = Drill(
        name="Heron",
        rows=20,
        spacing=Typed(value=0.1905, text="7.5 in"),
        boxes=(Box(name="grain", dead=0.02, own_depth=False, agitator=True),),
    )
    drill = book.add(body).about
    fields = visitor.read(f"/drills/{drill}/edit").fields
    visitor.send(f"/drills/{drill}/edit", fields | {"note": "chain renewed"})
    assert book.get(drill).body.boxes == body.boxes
    assert book.get(drill).body.note == "chain renewed"


def test_limits_of_a_box(visitor, book):
    limits = {"box1_name": "grain", "box1_dead": "3", "box1_dead_unit": "%"}
    limits |= {"box1_least": "5 lb/ac", "box1_most": "150 lb/ac", "box1_shared_depth": "yes"}
    visitor.heron(**limits)
    (thing,) = book.things("drill")
    (box,) = thing.body.boxes
    assert (box.dead, box.own_depth, box.agitator) == (pytest.approx(0.03), False, False)
    assert (box.least.text, box.most.text) == ("5 lb/ac", "150 lb/ac")
    fields = visitor.read(f"/drills/{thing.id}/edit").fields
    assert (fields["box1_dead"], fields["box1_least"], fields["box1_shared_depth"]) == (
        "3",
        "5",
        "yes",
    )


@pytest.mark.parametrize(
    "case",
    [
        ("box1_dead", "120%", labels.GIVE_SHARE_BELOW.like()),
        ("box1_least", "0 lb/ac", labels.GIVE_VALUE_ABOVE.like()),
        ("box1_most", "4 lb/ac", labels.MORE_THAN_MINIMUM.like()),
        ("box2_dead", "3%", labels.MISSING_GIVE.like(), "box2_name"),
        ("box2_name", "grain", labels.GIVE_EACH_BOX.like()),
        ("rows", "1001", labels.NO_MORE_THAN.like(n=1000)),
        ("row_cv", "120%", labels.GIVE_SHARE_BELOW.like()),
    ],
)
def test_limits_that_cannot_be_are_refused_at_their_field(visitor, case):
    field, typed, need, *at = case
    sent = {**visitor.HERON, "box1_name": "grain", "box1_least": "5 lb/ac", field: typed}
    page = visitor.send("/drills/new", sent, code=422)
    assert re.search(need, page.wrong[at[0] if at else field])


@pytest.mark.parametrize(
    "points",
    [
        "20\t36\n30\t54",
        "20 36\n30 54",
        "20; 36\n30; 54",
        "Setting\tlb/ac\n20\t36\n30\t54",
        "20, 36\n30, 54",
    ],
)
def test_a_chart_is_typed_or_pasted(visitor, book, points):
    drill = visitor.send("/drills/new", visitor.HERON)
    visitor.send(f"{drill}/charts/new", visitor.CHART | {"points": points})
    (thing,) = book.things("chart")
    rates = [point.rate.value / POUND_PER_ACRE for point in thing.body.points]
    assert ([p.setting for p in thing.body.points], rates) == ([20, 30], pytest.approx([36, 54]))


def test_a_rate_with_its_own_unit_keeps_it(visitor, book):
    drill = visitor.send("/drills/new", visitor.HERON)
    visitor.send(f"{drill}/charts/new", visitor.CHART | {"points": "20 40 kg/ha\n30 54"})
    (thing,) = book.things("chart")
    assert [point.rate.text for point in thing.body.points] == ["40 kg/ha", "54 lb/ac"]


@pytest.mark.parametrize(
    "case",
    [
        ("", labels.MISSING_GIVE.like()),
        ("none", labels.GIVE_ONE_POINT.like()),
        ("20 36\n20 40", labels.SETTING_ONCE.like()),
        ("20 36 54", labels.ON_LINE.like(n=1)),
        ("20 36\n30 0", "line 2: enter a rate above 0"),
        ("20 54\n30 36", labels.RATES_GO_UP.like()),
        ("20 36\n70 54", labels.GIVE_NUMBER_RANGE.like(low=0, high=60)),
    ],
)
def test_a_chart_that_cannot_be(visitor, book, case):
    points, need = case
    drill = visitor.send("/drills/new", visitor.HERON)
    page = visitor.send(f"{drill}/charts/new", visitor.CHART | {"points": points}, code=422)
    assert re.search(need, page.wrong["points"])
    assert book.things("chart") == []


def test_a_chart_is_drawn_while_it_is_typed(visitor, client, book):
    drill = visitor.send("/drills/new", visitor.HERON)
    drawn = client.post(f"{drill}/charts/draw", data=visitor.CHART | {"points": "20 36\n30"})
    assert labels.DRAWN_FROM_TWO_COLUMNS in drawn.text
    drawn = client.post(f"{drill}/charts/draw", data=visitor.CHART)
    assert drawn.text.count("<circle") == 3
    assert book.things("chart") == []


def test_a_chart_is_corrected_and_taken_away(visitor, book):
    drill = visitor.heron()
    (thing,) = book.things("chart")
    fields = visitor.read(f"/charts/{thing.id}").fields
    visitor.send(f"/charts/{thing.id}", fields | {"points": "20 36\n40 80", "unit": "lb/ac"})
    assert isinstance(book.get(thing.id).body, Chart)
    assert "to 80 lb/ac at 40" in visitor.read(drill).text
    visitor.send(f"/charts/{thing.id}/remove", {})
    assert labels.ENTER_CHART in visitor.read(drill).text


def test_the_label_opens_the_drill_s_page(visitor):
    drill = visitor.heron()
    page = visitor.read(f"{drill}/label?at=https://book.example/field")
    assert f"https://book.example/field{drill}" in page.text
    assert "<svg" in page.html
    assert labels.ADDRESS_STARTS_HTTP in visitor.read(f"{drill}/label?at=ftp:nowhere").wrong["at"]


def test_no_such_drill(visitor):
    visitor.read("/drills/nothing", code=404)
    job = visitor.job()
    visitor.read(job.replace("jobs", "drills"), code=404)


def test_a_long_list_goes_on_on_the_next_page(visitor, monkeypatch):
    from evenstand.web.drills import drills

    monkeypatch.setattr(drills, "MOST_SHOWN", 2)
    for name in ("Plover", "heron", "Teal"):
        visitor.send("/drills/new", {**visitor.HERON, "name": name})
    for path in ("/drills", "/pool"):
        first = visitor.read(path)
        assert re.search("heron.*Plover", first.text)
        assert "Teal" not in first.text
        assert f"{path}?from=2" in first.links
        last = visitor.read(f"{path}?from=2")
        assert "Teal" in last.text
        assert not {"heron", "Plover"} & set(last.text.split())
        assert not [link for link in last.links if "from=" in link]
        for odd in ("9", "-1", "x", "9" * 30, "²"):
            assert visitor.read(f"{path}?from={odd}").code == 200
