"""Records of jobs: what was planned and achieved by hand arithmetic, and what nobody wrote down."""

import pytest
from msgspec.structs import replace

import labels
from evenstand.book.kinds import machine, seed, sown, work
from evenstand.book.kinds.bodies import Photo
from evenstand.book.kinds.shape import Typed
from evenstand.book.opening import open_book
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, BUSHEL, INCH, POUND, POUND_PER_ACRE, SQUARE_FOOT
from evenstand.engine.seed.tag import Month
from evenstand.report.document import Facts, Picture, Signatures, Table, Words
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.record.drill_card import drill_card
from evenstand.tasks.record.form import read_record, record_texts
from evenstand.tasks.record.frame import Reader
from evenstand.tasks.record.frozen import freeze
from evenstand.tasks.record.record import record
from evenstand.tasks.record.season import pages, season, seasons
from evenstand.tasks.record.worksheet import worksheet
from evenstand.tasks.whole_job.achieved import achieved
from evenstand.tasks.whole_job.gather import boxes_to_fill, gather

TODAY, READER = Month(2026, 11), Reader(style=Style())
PNG = b"\x89PNG\r\n\x1a\n"


def typed(value, unit, text, *, limits=0.0):
    return Typed(value=value * unit, give_or_take=limits * unit, text=text)


@pytest.fixture
def book():
    with open_book(":memory:", device="shed", who="Ada") as opened:
        yield opened


@pytest.fixture
def job(book):
    """40 lb/ac of rye and 10 lb/ac of vetch from one box; each tag says 98% × 90% = 88.2%."""
    drill = book.add(
        machine.Drill(
            name="Heron",
            rows=20,
            spacing=typed(7.5, INCH, "7.5 in"),
            rolled=typed(95, INCH, "95 in"),
            scale=machine.Scale(low=0, high=60),
            boxes=(machine.Box(name="grain", volume=typed(48, BUSHEL, "48 bu")),),
        )
    ).about
    tag = seed.Tag(purity=0.98, germination=0.90, tested="2026-08")
    lots = {
        name: book.add(
            seed.Lot(name=lot, species=name, tag=tag, seeds_per_kg=typed(n, 1 / POUND, f"{n}"))
        ).about
        for name, lot, n in (("Cereal rye", "R-26", 18_000), ("Hairy vetch", "V-26", 16_500))
    }
    mix = book.add(
        seed.Mix(
            name="Fall cover",
            members=tuple(
                seed.Member(
                    name=name,
                    basis="bulk",
                    lot=lots[name],
                    rate=typed(rate, POUND_PER_ACRE, f"{rate} lb/ac"),
                )
                for name, rate in (("Cereal rye", 40), ("Hairy vetch", 10))
            ),
        )
    ).about
    field = book.add(work.Field(name="Alder Bench", area=typed(38.5, ACRE, "38.5 ac"))).about
    job = book.add(
        work.Job(
            name="Alder Bench, fall",
            season="fall 2026",
            field=field,
            drill=drill,
            mix=mix,
            wanted=(
                work.Wanted(
                    box="grain", rate=typed(50, POUND_PER_ACRE, "50 lb/ac"), seed="rye, vetch"
                ),
            ),
        )
    ).about
    split = work.InBox(box="grain", members=("Cereal rye", "Hairy vetch"))
    book.add(work.Split(job=job, boxes=(split,)))
    return job


def said(job, **more):
    """2,200 lb filled in and 100 lb left on 40 ac: 2,100 lb ÷ 40 ac = 52.5 lb/ac."""
    known = {
        "producer": "Ada",
        "first": "2026-10-02",
        "area": typed(40, ACRE, "40 ac"),
        "used": (
            work.Used(
                box="grain", loaded=typed(2200, POUND, "2,200 lb"), left=typed(100, POUND, "100 lb")
            ),
        ),
    }
    return work.Record(job=job, **{**known, **more})


def plain(text):
    return text.replace("\u00a0", " ")


def part(document, title):
    return next(each for each in document.sections if each.title == title).blocks


def rows(document, title):
    table = next(each for each in part(document, title) if isinstance(each, Table))
    return {plain(row[0].text): [plain(cell.text) for cell in row[1:]] for row in table.rows}


def fact(document, name):
    return next(each for each in document.facts if each.name == name)


def test_seed_weighed_over_the_ground_is_what_each_species_got(book, job):
    book.add(said(job))
    rye, vetch = achieved(gather(book, job, today=TODAY))
    # 40/50 of 52.5 lb/ac is 42 lb/ac of rye, × .882 = 37.044 lb/ac pure live seed;
    # 42 × 18,000 × .882 ÷ 43,560 = 15.307 live seeds/ft². Purity × germination of a tag is
    # live seed of the bulk.
    assert rye.bulk / POUND_PER_ACRE == pytest.approx(42)
    assert rye.pls.nominal_value / POUND_PER_ACRE == pytest.approx(37.044)
    assert rye.live.nominal_value * SQUARE_FOOT == pytest.approx(42 * 18_000 * 0.882 / 43_560)
    assert vetch.bulk / POUND_PER_ACRE == pytest.approx(10.5)
    assert rye.part == vetch.part == pytest.approx(1.05)
    assert rye.weighed
    found = rows(record(book, job, READER, today=TODAY), "The mix as seeded")
    assert found["Cereal rye"][2].startswith("37 (")
    assert (found["Cereal rye"][3], found["Cereal rye"][4]) == ("105", "42")
    assert found["total"][4] == "52.5"


def test_limits_of_ground_and_of_what_was_left_make_the_range(book, job):
    left = typed(100, POUND, "100 ± 30 lb", limits=30)
    used = (work.Used(box="grain", loaded=typed(2200, POUND, "2,200 lb"), left=left),)
    book.add(said(job, used=used, area=typed(40, ACRE, "40 ± 1 ac", limits=1)))
    far = gather(book, job, today=TODAY)
    rate, weighed = far.achieved("grain")
    assert weighed
    # Limits are taken as a rectangle: u = limit ÷ √3. (30/2,100)² and (1/40)² add up: 2.879 %.
    assert rate.std_dev / rate.nominal_value == pytest.approx(
        ((30 / 2100) ** 2 + (1 / 40) ** 2) ** 0.5 / 3**0.5, rel=1e-6
    )


def test_without_weights_the_setting_that_was_taken_stands_for_them(book, job):
    assert achieved(gather(book, job, today=TODAY)) == ()
    drill = book.things("drill")[0].id
    points = tuple(
        machine.ChartPoint(setting=at, rate=typed(rate, POUND_PER_ACRE, f"{rate} lb/ac"))
        for at, rate in ((20, 36), (30, 54), (40, 72))
    )
    book.add(machine.Chart(drill=drill, points=points, box="grain"))
    book.add(work.Chosen(job=job, drill=drill, box="grain", setting=28, odds=0.6))
    far = gather(book, job, today=TODAY)
    rye = achieved(far)[0]
    assert not rye.weighed
    # 1.8 lb/ac a notch: 28 gives 50.4, of it 40/50.
    assert rye.bulk.nominal_value / POUND_PER_ACRE == pytest.approx(40.32, rel=0.01)
    assert rye.bulk.std_dev > 0
    document = record(book, job, READER, today=TODAY)
    words = [each.text for each in part(document, "The mix as seeded") if isinstance(each, Words)]
    assert words[0].startswith(labels.SETTING_EACH_BOX)
    book.add(said(job))
    document = record(book, job, READER, today=TODAY)
    assert part(document, labels.MIX_ACHIEVED)[0].text.startswith(labels.WEIGHT_SEED_WENT)


def test_what_nobody_wrote_down_says_so(book, job):
    document = record(book, job, READER, today=TODAY)
    missing = {each.name for each in document.facts if each.missing}
    assert {
        "Producer",
        labels.GROUND_SOWN,
        labels.FIRST_DAY,
        "Depth",
        "Inoculant",
        "Tract",
    } <= missing
    assert fact(document, labels.GROUND_PLANNED).cell.text == "38.5\u00a0ac"
    assert document.lead == labels.NOT_SOWN_YET(where="Alder Bench")
    for title in ("Seeding", "Seed used", "The mix as seeded", "Stand count", "Notes"):
        assert part(document, title)[0].text == labels.NOT_WRITTEN_DOWN
    lines = next(each for each in part(document, "Signatures") if isinstance(each, Signatures))
    assert lines.lines == ("Producer", labels.CHECKED_BY)


def test_what_the_mix_lacks_is_said_instead(book, job):
    thing = book.things("drill")[0]
    book.correct(thing.id, replace(thing.body, boxes=(machine.Box(name="grain"),)))
    document = record(book, job, READER, today=TODAY)
    text = part(document, "The mix as seeded")[0].text
    assert text == labels.CANNOT_WORKED_OUT(need=labels.MISSING_GIVE)


def test_an_empty_job_has_its_record_too(book):
    job = book.add(work.Job(name="Later")).about
    document = record(book, job, READER, today=TODAY)
    assert all(section.blocks for section in document.sections)


def test_a_record_tells_its_days_ground_tags_and_photos(book, job):
    book.add(said(job, last="2026-10-03", signers=("Ada", "Jo"), note="Wet in the draw"))
    lot = book.things("lot")[1]
    book.add(Photo(of=lot.id, media="image/png", data=PNG, caption="Front of the tag"))
    document = record(book, job, READER, today=TODAY)
    assert plain(document.lead) == labels.OF_SOWN(
        ground="40 ac",
        where="Alder Bench",
        days=labels.FROM_TO(first="Oct 2, 2026", last="Oct 3, 2026"),
    )
    assert rows(document, labels.SEED_TAGS)[labels.LOT(species="Cereal rye", lot="R-26")][:3] == [
        "98",
        "90",
        "0",
    ]
    photo = next(each for each in part(document, "Seed and its tags") if isinstance(each, Picture))
    assert (photo.told, photo.data) == ("Front of the tag", PNG)
    assert rows(document, labels.SEED_USED)["grain"][:3] == ["2,200", "100", "2,100"]
    assert [each.text for each in part(document, "Notes")] == ["Wet in the draw"]
    assert part(document, "Signatures")[1].lines == ("Ada", "Jo")


def test_more_left_than_loaded_or_nothing_left_known_is_no_use(book, job):
    for used in (
        work.Used(box="grain", loaded=typed(100, POUND, "100 lb")),
        work.Used(
            box="grain", loaded=typed(100, POUND, "100 lb"), left=typed(100, POUND, "100 lb")
        ),
    ):
        book.add(said(job, used=(used,)))
        assert gather(book, job, today=TODAY).sets[0].seen.used is None


def test_a_field_that_was_closed_needs_no_weights_of_the_record(book, job):
    """2,200 lb at the beginning, 100 lb left after 40 ac by the map: 52.5 lb/ac again."""
    start = typed(0, ACRE, "0 ac")
    bags, bag = Typed(value=44.0, text="44"), typed(50, POUND, "50 lb")
    book.add(sown.Load(job=job, at=start, box="grain", bags=bags, bag=bag, day="2026-10-01"))
    lever = sown.Moved(job=job, at=typed(20, ACRE, "20 ac"), box="grain", setting=29)
    book.add(lever)
    left = (sown.Left(box="grain", weight=typed(100, POUND, "100 lb")),)
    area = typed(40, ACRE, "40 ac")
    book.add(sown.Finished(job=job, at=area, area=area, left=left, day="2026-10-02", soil="firm"))
    document = record(book, job, READER, today=TODAY)
    assert plain(document.lead) == labels.OF_SOWN(
        ground="40 ac",
        where="Alder Bench",
        days=labels.FROM_TO(first="Oct 1, 2026", last="Oct 2, 2026"),
    )
    assert fact(document, labels.SOIL_WEATHER).cell.text == "firm"
    table = next(each for each in part(document, "Seeding") if isinstance(each, Table))
    assert [[plain(cell.text) for cell in row] for row in table.rows] == [
        ["load", "grain", "0", "2,200", "–", "Oct 1, 2026"],
        [labels.LEVER_TO(setting=29), "grain", "20", "–", "–", "–"],
        [labels.LEFT_END, "grain", "40", "–", "100", "Oct 2, 2026"],
    ]
    assert rows(document, labels.SEED_USED)["grain"][:3] == ["2,200", "100", "2,100"]
    rye = achieved(gather(book, job, today=TODAY))[0]
    assert rye.weighed
    assert rye.bulk.nominal_value / POUND_PER_ACRE == pytest.approx(42)
    book.add(said(job, first=None, area=typed(42, ACRE, "42 ac")))
    assert achieved(gather(book, job, today=TODAY))[0].bulk / POUND_PER_ACRE == pytest.approx(40)


def test_a_stand_is_judged_with_the_live_seed_that_went_down(book, job):
    book.add(said(job))
    # 15 plants on 3 ft of row at 7.5 in are 15 ÷ 1.875 ft² = 8 plants/ft².
    places = tuple(
        work.Place(
            plants=(work.Seen(plants=n, species="Cereal rye"),), length=typed(36, INCH, "3 ft")
        )
        for n in (14, 15, 16, 15, 15)
    )
    book.add(work.StandCount(job=job, places=places, day="2026-10-20"))
    document = record(book, job, READER, today=TODAY)
    facts = next(each for each in part(document, "Stand count") if isinstance(each, Facts))
    assert facts.facts[0].cell.text == "Oct 20, 2026"
    assert rows(document, "Stand count")["Cereal rye"][0].startswith("8 (")
    told = [each.text for each in part(document, "Stand count") if isinstance(each, Words)]
    assert told == [labels.LIVE_SEED_SOWN]
    # 8 ÷ 15.307 = 52.3 %
    assert rows(document, "Stand count")["Cereal rye"][1].startswith("52.3 (")


def test_a_document_is_as_old_as_its_newest_entry(book, job):
    document = record(book, job, READER, today=TODAY)
    newest = max(
        thing.entry.made.ms
        for kind in ("job", "drill", "field", "mix", "lot", "split")
        for thing in book.things(kind)
    )
    assert document.made.timestamp() == newest // 1000
    assert document == record(book, job, READER, today=Month(2027, 3))


def test_a_season_adds_up_its_jobs(book, job):
    assert seasons(book) == ("fall 2026",)
    assert season(book, "fall 2026", READER, today=TODAY).lead == (
        "1\u00a0job; no seeded area entered."
    )
    book.add(said(job))
    document = season(book, "fall 2026", READER, today=TODAY)
    assert document.lead == "1\u00a0job, 40\u00a0ac seeded."
    # 42 lb/ac on 40 ac are the 80 % of 2,100 lb.
    assert rows(document, labels.SEED_GROUND)["Cereal rye"][0] == "1,680"
    assert season(book, "1999", READER, today=TODAY).lead == labels.NO_JOB_YET


def done(job, **more):
    """2,200 lb in at 0 ac, 275 lb left where the meter shows 40 ac: 1,925 lb went out."""
    full = typed(2200, POUND, "2200 lb")
    load = sown.Load(job=job, box="grain", at=Typed(value=0.0), weight=full)
    left = sown.Left(box="grain", weight=typed(275, POUND, "275 lb"))
    return load, sown.Finished(job=job, at=typed(40, ACRE, "40 ac"), left=(left,), **more)


def test_a_field_that_is_done_was_sown_whole_where_nobody_says_less(book, job):
    for entry in done(job):
        book.add(entry)
    document = record(book, job, READER, today=TODAY)
    assert plain(fact(document, labels.GROUND_SOWN).cell.text) == "38.5 ac"
    # 1,925 lb ÷ 38.5 ac = 50 lb/ac, 80 % of it rye.
    found = {each.name: each for each in achieved(gather(book, job, today=TODAY))}
    assert found["Cereal rye"].bulk.nominal_value == pytest.approx(40 * POUND_PER_ACRE)
    assert rows(season(book, "fall 2026", READER, today=TODAY), "Jobs") == {
        "Alder Bench, fall": [
            "Alder Bench",
            "Heron",
            "38.5",
            "38.5",
            "–",
            "–",
        ]
    }


def test_ground_by_the_map_at_the_end_goes_before_the_whole_field(book, job):
    for entry in done(job, area=typed(35, ACRE, "35 ac")):
        book.add(entry)
    assert (
        plain(fact(record(book, job, READER, today=TODAY), labels.GROUND_SOWN).cell.text) == "35 ac"
    )


def test_seed_that_fell_twice_counts_in_the_season(book, job):
    """1,925 lb went out, whatever the overlap: 80% of it is rye."""
    book.add(work.Order(job=job, overlap=Typed(value=0.04, text="4%")))
    for entry in done(job):
        book.add(entry)
    seed = rows(season(book, "fall 2026", READER, today=TODAY), "Seed planted")
    assert seed["Cereal rye"][0].split(" ")[0] == "1,540"


def test_each_acreage_is_named_and_rates_are_on_those_that_were_seeded(book, job):
    """1,925 lb on 38.5 ac by meter and map are 50 lb/ac, whatever overlap was planned."""
    book.add(work.Order(job=job, overlap=Typed(value=0.04, text="4 %")))
    load, end = done(job, area=typed(38.5, ACRE, "38.5 ac"))
    book.add(load)
    book.add(replace(end, at=typed(38.5, ACRE, "38.5 ac")))
    document = record(book, job, READER, today=TODAY)
    told = {str(each.name): plain(each.cell.text) for each in document.facts}
    assert told["Area by the meter, as read"] == told["Area by the map"] == "38.5 ac"
    assert told["Overlap planned"] == "4%"
    assert "Area the drill covered, with overlap" not in told
    words = [plain(b.text) for s in document.sections for b in s.blocks if isinstance(b, Words)]
    assert "Rates are on the 38.5 ac seeded, overlap counted once." in words
    [closed] = [text for text in words if "went out on" in text]
    assert "1,925 lb went out on 38.5 ac: 50 lb/ac" in closed


def test_the_acres_of_the_record_form_are_those_of_all_its_rates(book, job):
    """35 ac were seeded for the program: 1,925 lb ÷ 35 ac are 55 lb/ac, in each part."""
    for entry in done(job, area=typed(38.5, ACRE, "38.5 ac")):
        book.add(entry)
    book.add(work.Record(job=job, area=typed(35, ACRE, "35 ac")))
    document = record(book, job, READER, today=TODAY)
    told = {str(each.name): plain(each.cell.text) for each in document.facts}
    assert told[labels.GROUND_SOWN] == "35 ac"
    assert told["Area by the map"] == "38.5 ac"
    assert told["Area by the meter, as read"] == "40 ac"
    words = [plain(b.text) for s in document.sections for b in s.blocks if isinstance(b, Words)]
    assert any("1,925 lb went out on 35 ac: 55 lb/ac" in text for text in words)
    found = {each.name: each for each in achieved(gather(book, job, today=TODAY))}
    assert found["Cereal rye"].bulk.nominal_value == pytest.approx(44 * POUND_PER_ACRE)


def test_the_stand_of_a_season_is_that_of_its_record(book, job):
    seen = (work.Seen(plants=30, species="Cereal rye"), work.Seen(plants=4, species="Hairy vetch"))
    place = work.Place(length=typed(36, INCH, "36 in"), plants=seen)
    book.add(work.StandCount(job=job, places=(place,) * 3))
    blocks = part(record(book, job, READER, today=TODAY), "Stand count")
    told = next(each for each in blocks if isinstance(each, Facts))
    stand = next(each for each in told.facts if each.name == "All plants")
    there = rows(season(book, "fall 2026", READER, today=TODAY), "Jobs")["Alder Bench, fall"][-1]
    assert plain(stand.cell.text).startswith(there.split(" (")[0])


def test_a_long_season_counts_all_its_jobs_and_shows_them_by_pages(book):
    """62 jobs of an acre each."""
    field = book.add(work.Field(name="Field", area=typed(1, ACRE, "1 ac"))).about
    for n in range(62):
        book.add(work.Job(name=f"Field {n}", season="spring", field=field))
    document = season(book, "spring", READER, today=TODAY)
    assert len(rows(document, "Jobs")) == 62
    assert pages(book, "spring") == 2
    for number, first, shown in ((1, "Field 0", 60), (2, "Field 60", 2)):
        document = season(book, "spring", READER, today=TODAY, page=number)
        there = rows(document, "Jobs")
        assert (next(iter(there)), len(there)) == (first, shown)
        told = {each.name: plain(each.cell.text) for each in document.facts}
        assert (told["Jobs"], told[labels.GROUND_PLANNED]) == ("62", "62 ac")


def test_a_season_shows_a_finished_record_as_it_was_frozen(book, job):
    for entry in done(job, area=typed(35, ACRE, "35 ac")):
        book.add(entry)
    version = freeze(book, job, today=TODAY)
    [end] = book.things("finished")
    book.correct(end.id, replace(end.body, area=typed(30, ACRE, "30 ac")))
    drill = book.get(job).body.drill
    book.correct(drill, replace(book.get(drill).body, name="Crane"))

    def ground():
        there = rows(season(book, "fall 2026", READER, today=TODAY), "Jobs")
        return there["Alder Bench, fall"][1], there["Alder Bench, fall"][3]

    assert ground() == ("Heron", "35")
    freeze(book, job, today=TODAY, why="measured again")
    assert ground() == ("Crane", "30")
    assert version.number == 1


def test_a_season_says_which_finished_records_are_not_all_here(book, job):
    for entry in done(job):
        book.add(entry)
    sha256 = freeze(book, job, today=TODAY).body.sha256
    [frozen] = book.things("frozen")
    book.remove(frozen.id)
    book.add(replace(frozen.body, sha256=sha256[::-1]))
    document = season(book, "fall 2026", READER, today=TODAY)
    assert plain(document.foot[-1]).endswith("Alder Bench, fall.")


def test_a_drill_card_lists_what_was_taken(book, job):
    drill = book.things("drill")[0].id
    assert drill_card(book, drill, READER, address="").lead.startswith(labels.NO_SETTING_TAKEN)
    book.add(work.Chosen(job=job, drill=drill, box="grain", setting=28, odds=0.9))
    document = drill_card(book, drill, READER, address="http://farm.example/drills/1")
    assert rows(document, labels.SETTINGS_LEARNED) == {
        "rye, vetch": ["grain", "–", "28", "50 ± 5%", "9 in 10", "Alder Bench, fall"]
    }
    # 20 rows at 7.5 in are 12.5 ft; 1/20 ac is 2,178 ft²: 174.24 ft ÷ 7.9167 ft = 22.01 turns.
    assert rows(document, labels.TURNS_WHEEL)["1/20 ac"] == ["22"]
    cranked = replace(book.get(drill).body, crank_per_wheel=Typed(value=2.5, text="2.5"))
    book.correct(drill, cranked)
    cranked_card = drill_card(book, drill, READER, address="")
    assert rows(cranked_card, labels.TURNS_CRANK)["1/20 ac"] == ["55"]
    assert fact(cranked_card, labels.CRANK_TURNS_ONE).cell.text == "2.5"
    code = part(document, "Its page")[0]
    assert code.address == "http://farm.example/drills/1"
    with pytest.raises(MeasurementError, match=labels.GIVE_ID_DRILL.like()):
        drill_card(book, job, READER, address="")


def test_a_worksheet_needs_what_set_needs(book):
    job = book.add(work.Job(name="Later")).about
    with pytest.raises(MeasurementError) as refused:
        worksheet(book, job, READER)
    assert refused.value.field == "drill"


# ---- the form

FORM = {
    "producer": "Ada",
    "first": "2026-10-02",
    "last": "2026-10-03",
    "area": "40 ± 1 ac",
    "depth": "1 in",
    "box1_loaded": "2,200 lb",
    "box1_left": "0 lb",
    "signers": "Ada\n\nJo",
    "note": "Wet",
}
JOB = "01a20f15-2c80-7000-8000-000000000000"


def read(boxes=("grain",), **changes):
    texts = {key: text for key, text in (FORM | changes).items() if text}
    return read_record(Given(texts), JOB, boxes=boxes)


def test_a_form_is_read_and_written_back():
    found = read()
    assert found.area == typed(40, ACRE, "40 ± 1 ac", limits=1)
    assert found.used[0].left.value == 0
    assert found.signers == ("Ada", "Jo")
    texts = record_texts(found, boxes=["grain"])
    assert {key: texts[key] for key in FORM} == FORM | {"signers": "Ada\nJo"}


def test_a_box_without_a_name_is_kept_too():
    assert read(boxes=("",)).used[0].box == ""


@pytest.mark.parametrize(
    ("changes", "field", "need"),
    [
        ({"first": "2 October"}, "first", "enter its year, month and day"),
        ({"last": "2026-10-01"}, "last", labels.GIVE_DAY_NOT),
        ({"area": "0 ac"}, "area", labels.GIVE_VALUE_ABOVE),
        ({"box1_left": "2,300 lb"}, "box1_left", labels.NO_MORE_CAN),
        ({"box1_loaded": ""}, "box1_loaded", labels.GIVE_WHAT_FILLED),
        ({"signers": "\n".join("abcdefg")}, "signers", labels.GIVE_MOST_NAMES(n=6)),
        ({"depth": "deep"}, "depth", ""),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(changes, field, need):
    with pytest.raises(MeasurementError) as refused:
        read(**changes)
    assert refused.value.field == field
    assert need in str(refused.value.need)


def test_boxes_of_the_form_are_those_a_rate_is_wanted_from(book, job):
    assert boxes_to_fill(gather(book, job, today=TODAY).kept) == ("grain",)
