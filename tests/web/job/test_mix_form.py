"""The form of a mix: every refusal at its field, nothing kept twice, what jobs share."""

import re

import pytest

import labels
from evenstand.engine.quantities.units import POUND_PER_ACRE, SQUARE_FOOT

RYE = "60", "bulk|lb/ac"


@pytest.fixture
def job(visitor):
    return visitor.job()


def members(book):
    [mix] = book.things("mix")
    return mix.body.members


def test_every_basis_is_kept_in_si_with_what_was_typed(visitor, shelf, job):
    lots = [shelf(name, per_lb=18_000) for name in "ABCD"]
    lines = [
        (lots[0], "60", "bulk|lb/ac"),
        (lots[1], "20", "pls|lb/ac"),
        (lots[2], "9", "live seeds|seeds/ft²"),
        (lots[3], "25", "of full rate|%"),
    ]
    visitor.mix(job, *lines)
    found = [(m.basis, m.rate.value, m.rate.text) for m in members(visitor.book)]
    assert found == [
        ("bulk", pytest.approx(60 * POUND_PER_ACRE), "60 lb/ac"),
        ("pls", pytest.approx(20 * POUND_PER_ACRE), "20 lb/ac"),
        ("live seeds", pytest.approx(9 / SQUARE_FOOT), "9 seeds/ft²"),
        ("of full rate", pytest.approx(0.25), "25%"),
    ]
    assert [m.lot for m in members(visitor.book)] == lots


def test_what_was_kept_stands_in_the_form_again(visitor, shelf, job):
    more = {
        "line1_full": "20 seeds/ft²",
        "line1_full_basis": "live seeds|seeds/ft²",
        "line1_in_mix": "5; 8 lb/ac",
        "line1_depth": "1/4; 1/2 in",
        "line1_group": "legume",
        "line1_season": "cool",
        "line1_may_fail": "yes",
        "line1_cn": "11",
        "line1_biomass": "2000 lb/ac",
        "line3_full": "60 lb/ac",
        "line2_name": "rice hulls",
        "line2_price": "0.5",
        "line2_price_unit": "$/lb",
        "whole": "120",
        "whole_basis": "of full rate|%",
        "uplift": "30",
        "uplift_unit": "%",
        "stand": "small grain",
        "note": "As in 2025.",
    }
    lines = [
        (shelf(), "2 oz/ac", "bulk|lb/ac"),
        ("carrier", "6", "bulk|lb/ac"),
        (shelf("R-27"), "", "rest"),
    ]
    visitor.mix(job, *lines, **more)
    first = members(visitor.book)
    page = visitor.read(f"{job}/mix/edit")
    assert page.fields["line1_rate"] == "2"
    assert page.fields["line1_rate_basis"] == "bulk|oz/ac"
    assert page.fields["line1_full_basis"] == "live seeds|seeds/ft²"
    assert page.fields["line3_full_basis"] == "pls|lb/ac"
    assert page.fields["line3_rate_basis"] == "rest"
    assert page.fields["stand"] == "small grain"
    visitor.send(f"{job}/mix/edit", page.fields)
    assert members(visitor.book) == first
    [mix] = visitor.book.things("mix")
    assert (mix.body.whole.text, mix.body.uplift.text, mix.body.note) == (
        "120%",
        "30%",
        "As in 2025.",
    )


@pytest.mark.parametrize(
    "case",
    [
        ({"name": ""}, "name", labels.MISSING_GIVE.like()),
        (
            {"line1_rate": "60 ft"},
            "line1_rate",
            labels.WANTED_SUCH.like(given="60 ft", name="a length"),
        ),
        ({"line1_rate": "-3"}, "line1_rate", "enter a value above 0"),
        ({"line1_rate": "60 ± 2"}, "line1_rate", labels.WRITE_WITHOUT_ABOUT.like()),
        ({"line1_rate": "1 bu/ac"}, "line1_rate", labels.GIVE_TEST_WEIGHT_TOO.like()),
        ({"line1_seed": ""}, "line1_seed", labels.CHOOSE_SEED_OR_CLEAR.like()),
        ({"line1_seed": "named"}, "line1_name", labels.CHOOSE_SEED_OR_CLEAR.like()),
        (
            {"line1_seed": "01a20f15-2c80-7000-8000-000000000000"},
            "line1_seed",
            labels.CHOOSE_FROM_LIST.like(),
        ),
        ({"line1_rate_basis": "rest"}, "line1_rate", labels.BLANK_IN_THE_REST.like()),
        ({"line1_seed": "carrier"}, "line1_name", labels.MISSING_GIVE.like()),
        (
            {"line1_seed": "carrier", "line1_name": "hulls", "line1_rate_basis": "pls|lb/ac"},
            "line1_rate",
            labels.CARRIER_BULK_WEIGHT.like(),
        ),
        ({"line1_in_mix": "8; 5 lb/ac"}, "line1_in_mix", labels.LOWER_FIRST.like()),
        ({"line1_in_mix": "1; 2; 3 lb/ac"}, "line1_in_mix", labels.LOWER_FIRST.like()),
        (
            {"line1_in_mix": "five"},
            "line1_in_mix",
            labels.WRITE_SUCH.like(wanted="a rate by weight"),
        ),
        ({"line1_depth": "-1 in; 2 in"}, "line1_depth", labels.GIVE_NUMBER_MORE.like()),
        (
            {"line1_depth": "2 lb"},
            "line1_depth",
            labels.WANTED_SUCH.like(given="2 lb", name="a weight"),
        ),
        ({"line1_cn": "many"}, "line1_cn", labels.WRITE_SUCH.like(wanted="a number")),
        (
            {"line1_biomass": "much"},
            "line1_biomass",
            labels.WRITE_SUCH.like(wanted="a rate by weight"),
        ),
        (
            {"line1_full": "9 in"},
            "line1_full",
            labels.WANTED_SUCH.like(given="9 in", name="a length"),
        ),
        (
            {"line1_seed": "carrier", "line1_name": "hulls", "line1_price": "cheap"},
            "line1_price",
            labels.WRITE_SUCH.like(wanted="a price by weight"),
        ),
        (
            {"line1_seed": "carrier", "line1_name": "hulls", "line1_test_weight": "8 lb"},
            "line1_test_weight",
            labels.WANTED_SUCH.like(given="8 lb", name="a weight"),
        ),
        ({"whole": "lots"}, "whole", labels.WRITE_SUCH.like(wanted="a share")),
        ({"uplift": "400", "uplift_unit": "%"}, "uplift", labels.GIVE_HOW_MUCH.like()),
        (
            {"uplift": "more", "uplift_unit": "%"},
            "uplift",
            labels.WRITE_SUCH.like(wanted="a share"),
        ),
        # What only the whole mix can tell.
        (
            {"line1_rate": "", "line1_rate_basis": "rest", "line2_rate_basis": "rest"},
            "line2_rate",
            labels.ONLY_ONE_MEMBER.like(),
        ),
        (
            {"line1_rate": "", "line1_rate_basis": "rest", "whole": "5"},
            "line1_rate",
            labels.OTHER_MEMBERS_LEAVE.like(whole="5 lb/ac bulk", name="Cereal rye"),
        ),
    ],
)
def test_a_refusal_stands_at_its_field(visitor, shelf, case):
    job = visitor.job()
    changes, field, need = case
    base = {
        "line2_seed": shelf("V-26", "hairy vetch"),
        "line2_rate": "" if "line2_rate_basis" in changes else "12",
        "line2_rate_basis": "bulk|lb/ac",
        "whole_basis": "bulk|lb/ac" if "whole" in changes and changes["whole"] == "5" else "",
    }
    page = visitor.mix(job, (shelf(), *RYE), code=422, **{**base, **changes})
    assert field in page.wrong, page.wrong
    assert re.search(need, page.wrong[field])
    assert visitor.book.things("mix") == []
    assert page.fields["line2_rate"] == base["line2_rate"]


def test_a_mix_of_nothing_is_refused_at_its_first_line(visitor, job):
    page = visitor.mix(job, code=422)
    assert labels.CHOOSE_FIRST_SEED in page.wrong["line1_seed"]


def test_what_is_only_missing_may_come_later(visitor, shelf, job):
    """A C:N for one species wants one for all; the mix is kept, and the page leads to the field."""
    lines = (shelf(), *RYE), (shelf("V-26", "hairy vetch"), "12", RYE[1])
    page = visitor.read(visitor.mix(job, *lines, line1_cn="11"))
    assert "hairy vetch: enter it for every species" in page.text
    assert f"{job}/mix/edit#f-line2_cn" in page.links


def test_a_form_sent_twice_is_kept_once(visitor, shelf, job):
    same = {"entry": visitor.book.new_id(), "job_entry": visitor.book.new_id()}
    lot = shelf()
    visitor.mix(job, (lot, *RYE), **same)
    visitor.mix(job, (lot, *RYE), **same)
    assert len(visitor.book.things("mix")) == 1
    [job_thing] = visitor.book.things("job")
    assert len(visitor.book.history(job_thing.id)) == 2  # written, then told its mix
    page = visitor.mix(job, (lot, "61", RYE[1]), code=422, **same)
    assert labels.SAVED_OTHER_VALUES in page.text


def test_a_mix_is_corrected_in_its_place(visitor, shelf, job):
    visitor.mix(job, (shelf(), *RYE))
    fields = visitor.read(f"{job}/mix/edit").fields
    visitor.send(f"{job}/mix/edit", {**fields, "line1_rate": "70"})
    assert [m.rate.text for m in members(visitor.book)] == ["70 lb/ac"]


def test_a_line_is_taken_out_by_emptying_it(visitor, shelf, job):
    lots = shelf(), shelf("V-26", "hairy vetch")
    visitor.mix(job, (lots[0], *RYE), (lots[1], "12", RYE[1]))
    fields = visitor.read(f"{job}/mix/edit").fields
    visitor.send(f"{job}/mix/edit", {**fields, "line1_seed": "", "line1_rate": ""})
    assert [m.name for m in members(visitor.book)] == ["hairy vetch"]


def test_more_lines_keep_what_was_typed_and_keep_nothing(visitor, shelf, job):
    lot = shelf()
    before = visitor.read(f"{job}/mix/edit")
    page = visitor.mix(job, (lot, *RYE), code=200, more="yes", lines="4")
    assert "line8_rate" in page.fields
    assert "line8_rate" not in before.fields
    assert (page.fields["line1_seed"], page.fields["line1_rate"]) == (lot, "60")
    assert visitor.book.things("mix") == []


def test_refusals_count_the_lines_of_the_form(visitor, shelf, job):
    """Members are numbered without the empty lines between them, the form's lines with them."""
    fields = {"line4_seed": shelf("V-26", "hairy vetch"), "line4_rate": "2 ± 1"}
    page = visitor.mix(job, (shelf(), *RYE), code=422, **fields, line4_rate_basis=RYE[1])
    assert labels.WRITE_WITHOUT_ABOUT in page.wrong["line4_rate"]


def test_a_lot_off_the_shelf_that_the_mix_has_is_still_offered(visitor, shelf, job):
    lot = shelf()
    visitor.mix(job, (lot, *RYE))
    visitor.book.remove(lot)
    page = visitor.read(f"{job}/mix/edit")
    assert page.fields["line1_seed"] == lot
    assert page.fields["line1_rate"] == "60"
    assert re.search(labels.REMOVED_LOTS.like(lots="R-26"), visitor.read(f"{job}/mix").text)


def test_a_mix_of_two_jobs_says_so_and_can_be_kept_apart(visitor, shelf, job):
    visitor.mix(job, (shelf(), *RYE))
    [mix] = visitor.book.things("mix")
    other = visitor.job(name="Spring")
    visitor.send(f"{other}/mix/choose", {"mix": mix.id})
    page = visitor.read(f"{other}/mix/edit")
    assert labels.OTHER_JOBS_USE_MIX(jobs="Alder Bench, fall") in page.text
    assert labels.SAVE_FOR_ALL_JOBS in page.text
    apart = {**page.fields, "line1_rate": "70", "apart": "yes"}
    visitor.send(f"{other}/mix/edit", apart)
    visitor.send(f"{other}/mix/edit", apart)
    assert len(visitor.book.things("mix")) == 2
    assert labels.SEED_TOTAL(bulk="60 lb/ac") in visitor.read(f"{job}/mix").text
    assert labels.SEED_TOTAL(bulk="70 lb/ac") in visitor.read(f"{other}/mix").text


def test_a_change_counts_for_all_jobs_of_a_mix(visitor, shelf, job):
    visitor.mix(job, (shelf(), *RYE))
    [mix] = visitor.book.things("mix")
    other = visitor.job(name="Spring")
    visitor.send(f"{other}/mix/choose", {"mix": mix.id})
    fields = visitor.read(f"{other}/mix/edit").fields
    visitor.send(f"{other}/mix/edit", {**fields, "line1_rate": "70"})
    assert labels.SEED_TOTAL(bulk="70 lb/ac") in visitor.read(f"{job}/mix").text


def test_a_decimal_comma_is_read_and_written(visitor, shelf, job):
    visitor.client.set_cookie("decimal", "comma")
    visitor.mix(job, (shelf(), "60,5", RYE[1]))
    assert members(visitor.book)[0].rate.text == "60.5 lb/ac"
    page = visitor.read(f"{job}/mix/edit")
    assert page.fields["line1_rate"] == "60,5"
    visitor.send(f"{job}/mix/edit", page.fields)
    assert members(visitor.book)[0].rate.text == "60.5 lb/ac"


@pytest.mark.parametrize("field", ["price", "test_weight", "bag1_weight"])
def test_what_only_a_carrier_has_is_not_dropped_in_silence(visitor, field):
    typed = {
        "line1_price": "0.5 $/kg",
        "line1_test_weight": "20 lb/bu",
        "line1_bag1_weight": "50 lb",
    }
    line = {f"line1_{field}": typed[f"line1_{field}"], "line1_name": "cereal rye"}
    page = visitor.mix(visitor.job(), ("named", "40", "bulk|lb/ac"), code=422, **line)
    assert f"line1_{field}" in page.wrong
