"""The Stand step: places counted, what they tell, and what is refused of them."""

import re
from datetime import date

import pytest

import labels
from evenstand.book.kinds.seed import Member, Mix
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Field, Job, Wanted

# 12 counts of 3 ft in rows 7.5 in apart are 1.875 ft² each: 357 ÷ 22.5 ft² are 15.87 plants/ft²,
# s of a place 2.513, ÷ √12 0.7255, × t(11) = 2.201: 14.27 to 17.46.
TWELVE = "31 27 35 22 29 33 26 30 38 24 28 34"
ROW = {"way": "row", "length": "3", "length_unit": "ft", "spacing_unit": "in", "day": "2026-10-25"}
# Limits of 22 live seeds/ft² with u = 3 %: √3 × 0.66.
SEED = {"seeds1": "22 ± 1.1432", "seeds1_unit": "seeds/ft²"}
WISH = {"wish": "15", "wish_unit": "plants/ft²"}


@pytest.fixture
def job(visitor):
    return visitor.job()


def count(visitor, job, plants=TWELVE, *, code=303, **more):
    return visitor.send(f"{job}/stand-count", ROW | {"plants": plants} | more, code=code)


def counts(book):
    return list(reversed(book.things("count")))


def test_nothing_is_counted_yet(visitor, job):
    page = visitor.read(f"{job}/stand-count")
    assert labels.COUNT_TEN_SPOTS in page.text
    assert page.fields["way"] == "row"
    assert page.fields["day"] == date.today().isoformat()
    assert labels.NEEDS_PLANT_COUNTS in visitor.read(job).text


def test_the_worked_field(visitor, job):
    count(visitor, job)
    visitor.send(f"{job}/stand-count/wish", WISH | SEED | {"usual1": "small grain"})
    page = visitor.read(f"{job}/stand-count")
    assert "15.9 plants/ft² 14.3 to 17.5" in page.text
    assert "15.87 plants/ft²" in page.text  # in the arithmetic
    assert re.search(labels.LIVE_SEED_CAME.like(share="72.1%"), page.text)
    assert re.search(labels.ODDS_MEETS_GOAL.like(odds="6 in 7"), page.text)  # 0.871
    assert labels.USUAL_IS_TO(low="80%", high="90%") in page.text
    assert labels.LIVE_SEED_AS_ENTERED in page.text
    assert "15.9 plants/ft², 14.3 plants/ft² to 17.5 plants/ft²" in visitor.read(job).text


def test_the_worked_field_through_the_api(client, visitor, job):
    count(visitor, job)
    visitor.send(f"{job}/stand-count/wish", WISH | SEED)
    said = client.get(f"/api{job}/stand").json
    assert [round(said["stand"][key], 2) for key in ("value", "low", "high", "u")] == [
        15.87,
        14.27,
        17.46,
        0.73,
    ]
    assert said["odds"] == pytest.approx(0.871, abs=0.0005)
    share = said["emergence"]["share"]
    assert share["value"] == pytest.approx(72.1, abs=0.05)
    assert (share["low"], share["high"]) == pytest.approx((64.0, 80.3), abs=0.06)
    assert said["seed"] == [labels.LIVE_SEED_AS_ENTERED]


def test_the_api_says_what_is_missing(client, job):
    answer = client.get(f"/api{job}/stand")
    assert answer.status_code == 422
    assert answer.json["errors"][0]["field"] == "places"


def test_places_in_batches_tell_the_same_as_all_at_once(visitor, job, book):
    for batch in ("31", "27, 35, 22", "29;33;26\n30", "38 / 24 / 28 / 34"):
        count(visitor, job, batch)
    assert [len(each.body.places) for each in counts(book)] == [1, 3, 4, 4]
    page = visitor.read(f"{job}/stand-count")
    assert "15.9 plants/ft² 14.3 to 17.5" in page.text
    assert labels.PLANTS_IN_SPOTS(n=357, places=12) in page.text


def test_the_next_count_begins_as_the_last_one_was_made(visitor, job):
    count(visitor, job, spacing="10")
    fields = visitor.read(f"{job}/stand-count").fields
    assert (fields["way"], fields["length"], fields["spacing"]) == ("row", "3", "10")
    assert fields["plants"] == ""


@pytest.mark.parametrize(
    ("size", "stand"),
    [
        # π × 1.5² ft² are 7.07 ft²: 10 plants are 1.41 per ft².
        ({"way": "hoop", "hoop": "36", "hoop_unit": "in"}, "1.41"),
        # The same hoop by the length of its hose, π × 36 in.
        ({"way": "around", "around": "113.1", "around_unit": "in"}, "1.41"),
        (
            {"way": "frame", "side1": "2", "side2": "2.5", "side1_unit": "ft", "side2_unit": "ft"},
            "2",
        ),
        ({"way": "area", "area": "4", "area_unit": "ft²"}, "2.5"),
    ],
)
def test_each_way_to_count(visitor, job, *, size, stand):
    count(visitor, job, "10 10 10 10 10 10", **size)
    page = visitor.read(f"{job}/stand-count")
    assert f"{stand} plants/ft²" in page.text
    assert page.fields["way"] == size["way"]


def test_a_form_sent_twice_counts_once(visitor, job, book):
    entry = {"entry": book.new_id()}
    count(visitor, job, **entry)
    count(visitor, job, **entry)
    assert len(counts(book)) == 1
    page = count(visitor, job, "9 9", code=422, **entry)
    assert labels.SAVED_OTHER_VALUES in page.text


@pytest.mark.parametrize(
    ("changes", "field", "need"),
    [
        ({"plants": ""}, "plants", labels.COUNT_ONE_SPOT.like()),
        ({"plants": "31 many"}, "plants", labels.WHOLE_PLANTS.like()),
        ({"plants": "3.5 4"}, "plants", labels.WHOLE_PLANTS.like()),
        ({"plants": "-3"}, "plants", labels.WHOLE_PLANTS.like()),
        ({"plants": "312735222933"}, "plants", labels.WHOLE_PLANTS.like()),
        ({"plants": "31273522"}, "plants", labels.PLANTS_TOO_MANY.like()),
        ({"plants": "1 " * 501}, "plants", labels.AT_MOST_SPOTS.like()),
        ({"length": ""}, "length", labels.MISSING_GIVE.like()),
        ({"length": "0"}, "length", labels.GIVE_VALUE_ABOVE_SUCH.like()),
        ({"length": "-1"}, "length", labels.GIVE_VALUE_ABOVE_SUCH.like()),
        ({"spacing": "x"}, "spacing", ""),
        ({"way": "pace"}, "way", labels.GIVE_ONE.like()),
        ({"way": "hoop"}, "hoop", labels.MISSING_GIVE.like()),
        ({"way": "frame", "side1": "2 ft"}, "side2", labels.MISSING_GIVE.like()),
        ({"gaps": "8\n0"}, "gaps", labels.LINE_FOR_EACH_SPOT.like(n=3)),
        ({"gaps": "8\n0\nwide"}, "gaps", ""),
        ({"gaps": "8\n0\n-2"}, "gaps", ""),
        ({"gaps": "80\n0\n0"}, "gaps", labels.LENGTH_COVERS_GAPS.like()),
        ({"day": "25 October"}, "day", labels.GIVE_DATE_SUCH.like()),
    ],
)
def test_refusals_stand_at_their_field(visitor, job, book, *, changes, field, need):
    sent = {"plants": "31 27 35", "measured": "in", **changes}
    page = count(visitor, job, code=422, **sent)
    assert list(page.wrong) == [field]
    assert re.search(need, page.wrong[field])
    assert page.fields["plants"].strip() == sent["plants"].strip()  # what was typed stays
    assert counts(book) == []


def test_places_for_a_wanted_range(visitor, job):
    count(visitor, job)
    # s of a place is 15.84 % of the stand: with 41, t(40) = 2.021 and 2.021 × 15.84 ÷ √41 = 5.0 %.
    text = visitor.read(f"{job}/stand-count?within=5&within_unit=%25").text
    told = [n for n in (28, 29, 30) if labels.COUNT_MORE_SPOTS(n=n, within="5%") in text]
    assert len(told) == 1
    assert (
        labels.ALREADY_WITHIN(within="20%") in visitor.read(f"{job}/stand-count?within=20+%25").text
    )
    assert (
        labels.NOT_WITHIN_BY_MORE(within="0.1%")
        in visitor.read(f"{job}/stand-count?within=0.1+%25").text
    )
    page = visitor.read(f"{job}/stand-count?within=much", code=422)
    assert list(page.wrong) == ["within"]


def test_zero_everywhere(visitor, job, client):
    count(visitor, job, "0 0 0 0 0 0")
    visitor.send(f"{job}/stand-count/wish", WISH | SEED)
    page = visitor.read(f"{job}/stand-count")
    assert re.search(labels.NO_PLANT_THERE.like(places="6 spots"), page.text)
    assert labels.NO_PLANTS_SPOTS(n=6) in visitor.read(job).text
    said = client.get(f"/api{job}/stand").json
    assert said["stand"]["value"] == said["stand"]["low"] == 0
    # None seen on 6 × 1.875 ft² leaves at least −ln 0.05 ÷ 11.25 = 0.27 plants/ft² open.
    assert said["stand"]["high"] >= 0.266


def test_one_place_alone_says_so(visitor, job):
    count(visitor, job, "31")
    page = visitor.read(f"{job}/stand-count")
    assert re.search(labels.COUNT_MORE_FAR.like(places="4 spots"), page.text)
    assert re.search(labels.ONE_PLACE_SAYS.like(), page.text)


def test_days_out_of_order_are_refused_at_the_count_and_at_the_day_sown(visitor, job):
    visitor.send(f"{job}/stand-count/wish", {"sown": "2026-10-30"})
    page = count(visitor, job, code=422)
    assert list(page.wrong) == ["day"]
    assert labels.NOT_BEFORE_SEEDING(day="Oct 30, 2026") in page.wrong["day"]
    count(visitor, job, day="2026-11-08")
    page = visitor.send(f"{job}/stand-count/wish", {"sown": "2026-11-09"}, code=422)
    assert labels.NOT_AFTER_FIRST_COUNT(day="Nov 8, 2026") in page.wrong["sown"]


def test_perennials_are_not_judged_yet(visitor, job):
    count(visitor, job)
    wish = {"sown": "2026-09-25", "perennial": "yes", "irrigated": "yes"}
    visitor.send(f"{job}/stand-count/wish", WISH | wish)
    assert re.search(labels.DO_NOT_JUDGE.like(), visitor.read(f"{job}/stand-count").text)
    visitor.send(f"{job}/stand-count/wish", WISH | wish | {"sown": "2026-07-25"})  # 92 days before
    assert "Do not judge it yet" not in visitor.read(f"{job}/stand-count").text


def test_published_tables_advise_and_name_their_source(visitor, job):
    count(visitor, job)
    assert "Penn State" not in visitor.read(f"{job}/stand-count").text
    visitor.send(f"{job}/stand-count/wish", WISH | {"crop": "winter wheat"})
    text = visitor.read(f"{job}/stand-count").text
    assert "Penn State Extension (winter wheat): 15 plants/ft² to 18 plants/ft² gave 75%" in text
    assert labels.SUCH_TABLES_ADVISE in text


def test_gaps_are_told(visitor, job):
    count(visitor, job, "31 27 35", gaps="8; 5\n0\n-", measured="in")
    # 13 in of 9 ft are 12 %, the longest 8 in or 0.667 ft.
    assert (
        labels.ROW_LIES_GAPS(share="12%", longest="0.667 ft")
        in visitor.read(f"{job}/stand-count").text
    )


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"wish": "many"}, "wish"),
        ({"wish": "15 ± 1"}, "wish"),
        ({"wish": "0"}, "wish"),
        ({"seeds1": "-2"}, "seeds1"),
        ({"usual1": "moss"}, "usual1"),
        ({"crop": "moss"}, "crop"),
        ({"sown": "spring"}, "sown"),
    ],
)
def test_what_it_is_judged_by_is_refused_at_its_field(visitor, job, book, *, changes, field):
    sent = WISH | {"seeds1_unit": "seeds/ft²"} | changes
    page = visitor.send(f"{job}/stand-count/wish", sent, code=422)
    assert list(page.wrong) == [field]
    assert book.things("stand wish") == []


def test_what_it_is_judged_by_is_settled_anew(visitor, job, book):
    visitor.send(f"{job}/stand-count/wish", WISH)
    visitor.send(f"{job}/stand-count/wish", WISH | {"wish": "16"})
    assert [each.body.wish.text for each in book.things("stand wish")] == ["16 plants/ft²"]
    assert visitor.read(f"{job}/stand-count").fields["wish"] == "16"


def test_a_count_is_corrected_with_its_history(visitor, job, book):
    count(visitor, job)
    path = f"/plants/{counts(book)[0].id}"
    page = visitor.read(path)
    assert page.fields["plants"] == TWELVE.replace(" ", ", ")
    wrong = visitor.send(path, page.fields | {"plants": "no"}, code=422)
    assert list(wrong.wrong) == ["plants"]
    # 3 plants more on 22.5 ft² are 16 plants/ft².
    visitor.send(path, page.fields | {"plants": TWELVE[:-2] + "37", "why": "misread"})
    assert "16 plants/ft²" in visitor.read(f"{job}/stand-count").text
    assert "misread" in visitor.read(path).text


def test_a_count_is_left_out(visitor, job, book):
    count(visitor, job)
    count(visitor, job, "99 99 99")
    away = counts(book)[1].id
    visitor.send(f"/plants/{away}/remove", {})
    assert "15.9 plants/ft² 14.3 to 17.5" in visitor.read(f"{job}/stand-count").text
    assert labels.LEFT_OUT_NOW in visitor.read(f"/plants/{away}").text


def test_gaps_and_sizes_come_back_into_the_form(visitor, job, book):
    count(visitor, job, "31 27 35", gaps="8; 5\n0\n-", measured="in", note="low end")
    fields = visitor.read(f"/plants/{counts(book)[0].id}").fields
    assert fields["gaps"] == "8 in; 5 in\n0\n0"
    assert (fields["note"], fields["length"]) == ("low end", "3")


def test_other_things_are_no_counts(visitor, job):
    visitor.read(f"/plants{job.removeprefix('/jobs')}", code=404)
    visitor.read("/plants/01a21037-7680-7000-8000-00000000000f", code=404)


@pytest.fixture
def mixed(visitor, job, shelf):
    """A job whose mix has rye and vetch, 20 and 10 live seeds/ft² planned."""
    rye, vetch = shelf("R-26", "cereal rye", 18_100), shelf("V-26", "hairy vetch", 16_500)
    visitor.mix(job, (rye, "20", "live seeds|seeds/ft²"), (vetch, "10", "live seeds|seeds/ft²"))
    return job


# Vetch in 10 plants of 150: 7 %, where a third of the live seed is vetch.
APART = {"species1": "cereal rye", "plants1": "28 30 27 29 26"}
APART |= {"species2": "hairy vetch", "plants2": "2 3 1 2 2"}


def test_species_are_counted_apart(visitor, mixed, november):
    page = visitor.read(f"{mixed}/stand-count?apart=yes")
    assert (page.fields["species1"], page.fields["species2"]) == ("cereal rye", "hairy vetch")
    visitor.send(f"{mixed}/stand-count", ROW | APART)
    text = visitor.read(f"{mixed}/stand-count").text
    # 140 ÷ (5 × 1.875 ft²) are 14.9 plants/ft² of 20 live seeds; vetch 1.07 of 10.
    assert "14.9" in text
    assert re.search(labels.LIVE_SEED_CAME.like(share="74.7%"), text)
    assert re.search(labels.LIVE_SEED_CAME.like(share="10.7%"), text)
    assert labels.LIVE_SEED_AS_PLANNED in text
    page = visitor.read(f"{mixed}/stand-count")
    assert page.fields["species2"] == "hairy vetch"  # the next places too


def test_all_plants_of_a_mix_together(visitor, mixed, november):
    count(visitor, mixed)
    # 15.87 of 30 live seeds.
    assert re.search(
        labels.LIVE_SEED_CAME.like(share="52.9%"), visitor.read(f"{mixed}/stand-count").text
    )


def test_species_need_as_many_places_and_the_same_names(visitor, mixed):
    page = visitor.send(f"{mixed}/stand-count", ROW | APART | {"plants2": "2 3"}, code=422)
    assert "2 of 5 spots" in page.wrong["plants2"]
    visitor.send(f"{mixed}/stand-count", ROW | APART)
    page = count(visitor, mixed, code=422)
    assert labels.EARLIER_SPOTS_APART(names="cereal rye, hairy vetch") in page.wrong["plants"]


def test_places_counted_together_do_not_mix_with_species(visitor, mixed):
    count(visitor, mixed)
    page = visitor.send(f"{mixed}/stand-count", ROW | APART, code=422)
    assert labels.EARLIER_SPOTS_TOGETHER in page.wrong["plants1"]


def test_what_is_typed_goes_before_the_plan(visitor, mixed, november):
    visitor.send(f"{mixed}/stand-count", ROW | APART)
    visitor.send(f"{mixed}/stand-count/wish", {"seeds1": "16", "seeds1_unit": "seeds/ft²"})
    text = visitor.read(f"{mixed}/stand-count").text
    assert re.search(labels.LIVE_SEED_CAME.like(share="93.3%"), text)  # 14.93 of 16
    assert labels.LIVE_SEED_AS_ENTERED in text
    assert labels.LIVE_SEED_AS_PLANNED in text  # the vetch


def test_other_jobs_of_the_book_teach(visitor, book, job):
    seeds = {"seeds1": "22 ± 1", "seeds1_unit": "seeds/ft²", "usual1": "small grain"}
    for i in range(3):
        field = book.add(Field(name=f"North {i}")).about
        wanted = (Wanted(rate=Typed(value=0.006, text="60 kg/ha"), seed="oats"),)
        other = book.add(Job(name=f"Oats {i}", field=field, wanted=wanted)).about
        count(visitor, f"/jobs/{other}", "22 20 24 21 19 22", spacing="7.5")
        visitor.send(f"/jobs/{other}/stand-count/wish", seeds)
    text = visitor.read(f"/jobs/{other}/stand-count").text
    assert labels.COUNTS_FIELDS(n=3, fields=3) in text
    # Another seed teaches nothing of this one.
    count(visitor, job)
    visitor.send(f"{job}/stand-count/wish", seeds)
    assert labels.ONE_COUNT_YOURS in visitor.read(f"{job}/stand-count").text


def test_a_mix_without_its_lots_still_has_a_stand(visitor, book, job):
    mix = book.add(
        Mix(name="Odd", members=(Member(name="moss", rate=Typed(value=1.0), basis="bulk"),))
    ).about
    thing = book.get(job.rsplit("/", 1)[1])
    book.correct(thing.id, Job(name="Odd", drill=thing.body.drill, mix=mix))
    count(visitor, job)
    assert "15.9 plants/ft²" in visitor.read(f"{job}/stand-count").text


def test_without_a_drill_the_spacing_is_asked_for(visitor, book):
    job = f"/jobs/{book.add(Job(name='Bare')).about}"
    page = count(visitor, job, code=422)
    assert list(page.wrong) == ["spacing"]
    count(visitor, job, spacing="7.5")
    assert "15.9 plants/ft²" in visitor.read(f"{job}/stand-count").text


def test_a_reader_sees_no_form(signed_in, book, visitor):
    client = signed_in("works")
    job = visitor.job()
    count(visitor, job)
    client = signed_in("reads")
    page = client.get(f"{job}/stand-count").text
    assert "15.9" in page
    assert labels.ADD_THESE_SPOTS not in page
    assert client.post(f"{job}/stand-count", data=ROW | {"plants": "3"}).status_code == 403
    assert client.get(f"/plants/{counts(book)[0].id}").status_code == 403


def test_decimal_commas_and_metric(visitor, job):
    count(visitor, job, "24 25 26", length="1,5", length_unit="m", spacing="20", spacing_unit="cm")
    visitor.send("/settings/reading", {"units": "metric", "language": "es", "decimal": "comma"})
    text = visitor.read(f"{job}/stand-count").text
    assert "83,3 plantas/m²" in text  # 25 ÷ 0.3 m²
