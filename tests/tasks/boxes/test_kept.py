"""Boxes and order kept in the book are read as those of a job file."""

import pytest
from msgspec.structs import replace

from evenstand.book.kinds import machine, seed, work
from evenstand.book.kinds.shape import Typed
from evenstand.book.opening import open_book
from evenstand.demo.jobs import alder_bench, native_grass
from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import (
    DENSITY,
    FIELD,
    LENGTH,
    LOAD,
    MINUTES,
    MONEY,
    PRICE,
    RATE,
    SEED_COUNT,
    SEED_WEIGHT,
    SHARE,
    SPACING,
    SPEED,
    TEST_WEIGHT,
    VOLUME,
)
from evenstand.engine.seed.tag import Month
from evenstand.report.json import as_json
from evenstand.tasks.boxes.boxes import boxed, fill
from evenstand.tasks.boxes.kept import (
    body_of,
    boxes_said,
    members,
    order_of,
    split_of,
)
from evenstand.tasks.boxes.said import boxes_in
from evenstand.tasks.job.kept import find
from evenstand.tasks.order.order import read_order
from evenstand.tasks.order.said import order_in, order_said
from evenstand.tasks.parsing.writing import as_typed

TODAY = Month(2026, 11)
ALDER, TEAL = alder_bench().job, native_grass()


def typed(text, kind, *, of=1):
    found = as_typed(read(str(text), kind, field="amount", default_unit=kind.us))
    return replace(found, value=found.value * of)


def share(text):
    return read(text, SHARE, field="share").value


def lot(table):
    """A lot as its form keeps it, from the table of a job file."""
    shares = {key: share(table[key]) for key in ("purity", "germination", "hard", "dormant")
              if key in table}  # fmt: skip
    amounts = {
        "price": ("price", PRICE),
        "on_hand": ("on_hand", LOAD),
        "test_weight": ("test_weight", TEST_WEIGHT),
        "seeds_per_kg": ("seeds_per_lb", SEED_COUNT),
    }
    known = {name: typed(table[key], kind) for name, (key, kind) in amounts.items() if key in table}
    if "tsw" in table:
        known["thousand_seed_weight"] = typed(table["tsw"], SEED_WEIGHT, of=1000)
    return seed.Lot(
        name=table.get("name", ""),
        species=table["species"],
        tag=seed.Tag(tested=table["tested"], **shares),
        bags=bags(table),
        **known,
    )


def bags(table):
    """Sizes of bags with the price of one, as a form keeps them."""
    return tuple(
        seed.BagSize(weight=typed(weight, LOAD), price=typed(price, MONEY))
        for weight, price in table.get("bags", [])
    )


def member(table, lots):
    """A line of a mix as its form keeps it."""
    key = next(key for key in ("share", "seeds", "bulk") if key in table)
    basis, kind = {
        "share": ("of full rate", SHARE),
        "seeds": ("live seeds", DENSITY),
        "bulk": ("bulk", RATE),
    }[key]
    name = table.get("lot") or table.get("species") or table["name"]
    return seed.Member(
        name=name,
        basis=basis,
        rate=typed(table[key], kind),
        lot=lots.get(name),
        carrier="carrier" in table,
        bags=bags(table),
    )


def box(table):
    return machine.Box(
        name=table["name"],
        seed=table["takes"],
        volume=typed(table["volume"], VOLUME),
        agitator=table.get("agitator", False),
        dead=share(table.get("dead", "0%")),
    )


def kept_job(book, file):
    """Keep all of a job file in the book."""
    lots = {t.get("name") or t["species"]: book.add(lot(t)).about for t in file["lots"]}
    mix = seed.Mix(name="Mix", members=tuple(member(table, lots) for table in file["mix"]))
    field = work.Field(
        name=file["field"]["name"], area=typed(file["field"]["area"], FIELD)
    )  # fmt: skip
    drill = machine.Drill(
        name=file["drill"]["name"],
        rows=int(file["drill"]["rows"]),
        spacing=typed(file["drill"]["spacing"], SPACING),
        boxes=tuple(box(table) for table in file["boxes"]),
    )
    job = work.Job(
        name="Job",
        field=book.add(field).about,
        drill=book.add(drill).about,
        mix=book.add(mix).about,
    )
    return find(book, book.add(job).about)


def split_as_written(file, kept, names):
    """The split that says what the file says of boxes."""
    places = [table.get("box") for table in file["mix"]]
    return work.Split(
        job=kept.thing.id,
        boxes=tuple(
            work.InBox(
                box=table["name"],
                members=tuple(
                    n for n, place in zip(names, places, strict=True) if place == table["name"]
                ),
                test_weight=typed(table["test_weight"], TEST_WEIGHT)
                if "test_weight" in table
                else None,
            )
            for table in file["boxes"]
        ),
    )


@pytest.fixture
def book():
    with open_book(":memory:", device="shed", who="Ada") as opened:
        yield opened


@pytest.mark.parametrize("file", [ALDER, TEAL], ids=["cover", "native"])
def test_kept_boxes_are_those_of_the_file(book, file):
    kept = kept_job(book, file)
    split = split_as_written(file, kept, members(book, kept))
    ours = boxed(fill(boxes_said(book, kept, split), today=TODAY))
    theirs = boxed(fill(boxes_in(file), today=TODAY))
    assert as_json(ours, Style()) == as_json(theirs, Style())


def test_a_kept_order_is_that_of_the_file(book):
    kept = kept_job(book, ALDER)
    split = split_as_written(ALDER, kept, members(book, kept))
    said, (label,) = ALDER["order"], ALDER["inoculant"]
    order = work.Order(
        job=kept.thing.id,
        pass_length=typed(ALDER["field"]["pass_length"], LENGTH),
        overlap=typed(said["overlap"], SHARE),
        sure=share(said["sure"]),
        batch=typed(said["batch"], LOAD),
        speed=typed(said["speed"], SPEED),
        refill=typed(said["refill"], MINUTES),
        catches=(work.OfBox(box="grain", weight=typed("6 lb", LOAD)),),
        inoculants=(
            work.Inoculant(
                species=label["species"],
                name=label["name"],
                amount=typed(label["amount"], LOAD),
                seed=typed(label["seed"], LOAD),
                pack=typed(label["pack"], LOAD),
            ),
        ),
    )
    ours = read_order(order_said(book, kept, split, order=order), today=TODAY)
    theirs = read_order(order_in(ALDER), today=TODAY)
    assert as_json(ours, Style()) == as_json(theirs, Style())


def test_an_order_of_which_nothing_is_said_is_of_the_field_alone(book):
    kept = kept_job(book, ALDER)
    said = order_said(book, kept, None, order=None)
    assert said.order == work.Order(job=kept.thing.id, area=kept.field.area)
    assert {(each.heel, each.catches) for each in said.boxes.boxes} == {(None, None)}


def test_all_that_a_drill_says_of_a_box_is_read(book):
    kept = kept_job(book, ALDER)
    grain = replace(
        kept.drill.boxes[0],
        least=typed("5 lb/ac", RATE),
        most=typed("150 lb/ac", RATE),
        own_depth=False,
    )
    drill = replace(kept.drill, boxes=(grain, *kept.drill.boxes[1:]))
    book.correct(kept.drill_id, drill)
    again = find(book, kept.thing.id)
    read_ = fill(boxes_said(book, again, None), today=TODAY).read[0].box
    assert (read_.own_depth, read_.dead) == (False, pytest.approx(0.03))
    assert (read_.least, read_.most) == (grain.least.value, grain.most.value)


def test_rows_shut_off_narrow_the_drill_of_the_order(book):
    kept = kept_job(book, ALDER)
    book.correct(kept.thing.id, replace(kept.body, blocked=2, blocked_end=4))
    drill = order_said(book, find(book, kept.thing.id), None, order=None).drill
    assert (drill.blocked, drill.blocked_end) == (2, 4)


def test_the_newest_split_and_order_count_and_removed_ones_do_not(book):
    kept = kept_job(book, ALDER)
    assert split_of(book, kept) is None
    assert body_of(order_of(book, kept), work.Order) is None
    first = book.add(work.Split(job=kept.thing.id, boxes=()))
    second = book.add(work.Split(job=kept.thing.id, boxes=(), note="later"))
    assert body_of(split_of(book, kept), work.Split).note == "later"
    book.remove(second.about)
    assert split_of(book, kept).id == first.about


@pytest.mark.parametrize(
    ("without", "field"), [("mix", "mix"), ("drill", "drill"), ("boxes", "boxes")]
)
def test_what_a_job_lacks_is_named(book, without, field):
    kept = kept_job(book, ALDER)
    if without == "boxes":
        book.correct(kept.drill_id, replace(kept.drill, boxes=()))
    else:
        book.correct(kept.thing.id, replace(kept.body, **{without: None}))
    with pytest.raises(MeasurementError) as refused:
        boxes_said(book, find(book, kept.thing.id), None)
    assert refused.value.field == field
    assert "first" in str(refused.value.need)


def test_a_species_of_two_lots_goes_by_both_names(book):
    kept = kept_job(book, ALDER)
    mix = book.get(kept.body.mix).body
    rye = mix.members[0]
    nameless = book.add(replace(book.get(rye.lot).body, name="")).about
    both = (replace(rye, name="rye"), replace(rye, name="rye", lot=nameless))
    book.correct(kept.body.mix, replace(mix, members=(*both, mix.members[1])))
    assert members(book, kept) == ("rye (R-26)", "rye (2)", "V-26")


def test_a_carrier_of_the_boxes_stands_behind_the_mix(book):
    kept = kept_job(book, ALDER)
    said = work.InBox(
        box="small seed",
        members=(),
        carrier="sand",
        carrier_rate=Typed(value=0.001, text=""),
    )
    found = boxes_said(book, kept, work.Split(job=kept.thing.id, boxes=(said,)))
    assert len(found.mix.members) == len(ALDER["mix"]) + 1
    last = found.mix.members[-1]
    assert (last.member.carrier, last.member.name, last.box) == (True, "sand", "small seed")
    assert last.member.rate.value == 0.001
    assert str(last.given.path("bulk")) == f"[[mix]] {len(found.mix.members)} bulk"
