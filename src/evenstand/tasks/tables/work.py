"""The tables of fields, jobs, mixes, catches, settings and counts."""

from math import fsum
from operator import attrgetter
from typing import Any

from evenstand.book.kinds import work
from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import Kind

from .columns import ID, NOTE, Get, amount, text
from .model import Column, Table, TableLine, made, yes

MADE = Column(key="made", label=say("entered (UTC)"), value=made, sort="time")

FIELDS = Table(
    name="fields",
    kind="field",
    label=say("Fields"),
    columns=(
        text("field_name", say("name"), "name", needed=True, also=("field",), called="name"),
        amount(
            "field_area",
            say("area"),
            u.FIELD,
            name="area",
            also=("acres", "hectares", "size"),
            called="area",
        ),
        text("field_state", say("state"), "state", called="state"),
        text("field_note", say("note"), "note", also=("notes",), called="note"),
        text(
            "field_outline",
            say("boundary"),
            "outline",
            also=("geometry", "geojson"),
            spare=True,
            called="outline",
        ),
        ID,
    ),
)


def _named(key: str, label: Any) -> Column:
    """Make a column of the name of what a thing names."""
    return Column(key=key, label=label, value=lambda line: line.names(getattr(line.body, key)))


def _part(key: str, label: Any, *, measure: Kind | None = None, get: Get | None = None) -> Column:
    """Make a column of something of a line's part."""
    read: Get = get or attrgetter(key)
    return Column(key=key, label=label, value=lambda line: read(line.part), measure=measure)


def _wanted(key: str, label: Any, measure: Kind | None = None) -> Column:
    """Make a column of the rate wanted from a box; a job that names none has one empty line."""
    return _part(key, label, measure=measure, get=lambda part: getattr(part, key) if part else None)


JOBS = Table(
    name="jobs",
    kind="job",
    label=say("Jobs"),
    parts=lambda job: job.wanted or (None,),
    columns=(
        text("name", say("name")),
        text("season", say("season")),
        _named("field", say("field")),
        _named("drill", say("drill")),
        _named("mix", say("mix")),
        _wanted("box", say("box")),
        _wanted("seed", say("seed")),
        _wanted("rate", say("rate"), u.RATE),
        _wanted("tolerance", say("tolerance"), u.SHARE),
        _wanted("on", say("rate applies to")),
        _wanted("gear", say("gear")),
        _wanted("test_weight", say("test weight"), u.TEST_WEIGHT),
        text("blocked", say("rows shut off")),
        amount("speed", say("speed"), u.SPEED),
        NOTE,
        ID,
    ),
)


def _member(key: str, label: Any, basis: str, *, measure: Kind) -> Column:
    """Make a column of the rate of those members that have one on this basis."""
    return _part(
        key, label, measure=measure, get=lambda part: part.rate if part.basis == basis else None
    )


MIXES = Table(
    name="mixes",
    kind="mix",
    label=say("Mixes"),
    parts=attrgetter("members"),
    columns=(
        Column(key="mix", label=say("mix"), value=lambda line: line.body.name),
        _part("name", say("mix line")),
        Column(key="lot", label=say("lot"), value=lambda line: line.names(line.part.lot)),
        _part("basis", say("rate is given as")),
        _member("of_full_rate", say("share of full rate"), "of full rate", measure=u.SHARE),
        _member("live_seeds", say("live seeds"), "live seeds", measure=u.DENSITY),
        _member("pls", say("pure live seed"), "pls", measure=u.RATE),
        _member("bulk", say("bulk seed"), "bulk", measure=u.RATE),
        _part("group", say("group")),
        _part("carrier", say("carrier"), get=lambda member: yes(member.carrier)),
        ID,
    ),
)


def _seed(line: TableLine) -> float:
    return fsum(bag.weight.value for bag in line.body.bags)


CATCHES = Table(
    name="catches",
    kind="catch",
    label=say("Catches"),
    columns=(
        MADE,
        _named("job", say("job")),
        _named("drill", say("drill")),
        text("box", say("box")),
        text("gear", say("gear")),
        text("setting", say("setting")),
        amount("turns", say("wheel turns"), u.NUMBER),
        amount("crank_turns", say("crank turns"), u.NUMBER),
        amount("distance", say("distance"), u.LENGTH),
        amount("area", say("area"), u.FIELD),
        Column(key="seed", label=say("net seed"), value=_seed, measure=u.CATCH),
        Column(
            key="rows",
            label=say("rows caught"),
            value=lambda line: sum(bag.rows for bag in line.body.bags),
        ),
        Column(key="bags", label=say("bags"), value=lambda line: len(line.body.bags)),
        amount("gross", say("gross weight"), u.CATCH),
        amount("tare", say("tare"), u.CATCH),
        amount("resolution", say("scale step"), u.SCALE_STEP),
        NOTE,
        ID,
    ),
)
BAGS = Table(
    name="bags",
    kind="catch",
    label=say("Catch bags"),
    parts=attrgetter("bags"),
    columns=(
        Column(key="catch", label=say("catch"), value=lambda line: line.thing.id),
        Column(key="number", label=say("bag"), value=lambda line: line.number),
        _part("row", say("row"), get=lambda bag: bag.row or None),
        _part("rows", say("rows")),
        _part("seed", say("net seed"), measure=u.CATCH, get=attrgetter("weight")),
    ),
)
SETTINGS = Table(
    name="settings",
    kind="setting",
    label=say("Lever settings"),
    columns=(
        MADE,
        _named("job", say("job")),
        _named("drill", say("drill")),
        text("box", say("box")),
        text("gear", say("gear")),
        text("setting", say("setting")),
        amount("odds", say("odds"), u.SHARE),
        Column(key="accepted", label=say("accepted"), value=lambda line: yes(line.body.accepted)),
        NOTE,
        ID,
    ),
)


def _plants(place: work.Place) -> int:
    return sum(seen.plants for seen in place.plants)


def _frame(place: work.Place) -> float | None:
    """Area of a frame from its sides. [m²]"""
    if len(place.sides) != 2:
        return place.area.value if place.area else None
    return place.sides[0].value * place.sides[1].value


LOADS = Table(
    name="loads",
    kind="load",
    label=say("Loads"),
    columns=(
        MADE,
        _named("job", say("job")),
        text("box", say("box")),
        amount("at", say("acre meter reading"), u.FIELD),
        amount("bags", say("bags"), u.NUMBER),
        amount("bag", say("net per bag"), u.LOAD),
        amount("weight", say("weighed"), u.LOAD),
        amount("tote", say("by weigh ticket"), u.LOAD),
        amount("mark", say("filled to"), u.SHARE),
        amount("left", say("left before loading"), u.LOAD),
        amount("level", say("level before loading"), u.SHARE),
        amount("edge", say("at the edge of the field"), u.LOAD),
        text("day", say("day")),
        NOTE,
        ID,
    ),
)
COUNTS = Table(
    name="counts",
    kind="count",
    label=say("Plant counts"),
    parts=attrgetter("places"),
    columns=(
        text("day", say("day")),
        _named("job", say("job")),
        Column(key="place", label=say("spot"), value=lambda line: line.number),
        _part("plants", say("plants"), get=_plants),
        _part("length", say("row length"), measure=u.LENGTH),
        _part("hoop", say("hoop diameter"), measure=u.SPACING),
        _part("around", say("hoop circumference"), measure=u.SPACING),
        _part("frame", say("frame"), measure=u.GROUND, get=_frame),
        amount("spacing", say("row spacing"), u.SPACING),
        ID,
    ),
)
