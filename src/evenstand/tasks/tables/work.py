"""The tables of fields, jobs, mixes, catches, settings and counts."""

from math import fsum
from operator import attrgetter

from evenstand.book.kinds.seed import Member
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.sown import Load
from evenstand.book.kinds.work import (
    Bag,
    Catch,
    Chosen,
    Field,
    Job,
    Place,
    StandCount,
    Wanted,
)
from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import Phrase, say

from .columns import ID, NOTES, Fields
from .model import Column, Table, TableLine, made
from .seed import bag_columns

MADE = Column(key="made", label=say("entered (UTC)"), value=made, sort="time")
PART = attrgetter("part")
_FIELD, _JOB, _WANTED = Fields(Field, line="field_"), Fields(Job), Fields(Wanted, PART)
_MEMBER, _CATCH, _BAG = Fields(Member, PART), Fields(Catch), Fields(Bag, PART)
_COUNT, _PLACE = Fields(StandCount), Fields(Place, PART)

FIELDS = Table(
    name="fields",
    kind="field",
    label=say("Fields"),
    columns=(
        _FIELD.column("name", also=("field",), called="name"),
        _FIELD.column("area", say("area"), also=("acres", "hectares", "size"), called="area"),
        _FIELD.column("state", called="state"),
        _FIELD.column("note", also=("notes",), called="note"),
        _FIELD.column(
            "outline",
            say("boundary"),
            also=("geometry", "geojson"),
            spare=True,
            called="outline",
        ),
        ID,
    ),
)
JOBS = Table(
    name="jobs",
    kind="job",
    label=say("Jobs"),
    parts=lambda job: job.wanted or (None,),
    columns=(
        *_JOB.columns("name", "season", "field", "drill", "mix"),
        *_WANTED.columns("box", "seed", rate=say("rate"), tolerance=say("tolerance")),
        _WANTED.column("on", say("rate applies to")),
        *_WANTED.columns("gear", test_weight=say("test weight")),
        _JOB.column("blocked", say("rows shut off"), value=attrgetter("body.blocked")),
        _JOB.column("speed"),
        _JOB.column("note", also=NOTES),
        ID,
    ),
)


def _by(basis: str, label: Phrase, measure: u.Kind) -> Column:
    """Make a column of the rate of those members that have one on this basis."""

    def rate(line: TableLine) -> Typed | None:
        member: Member = line.part
        return member.rate if member.basis == basis else None

    return Column(key=basis.replace(" ", "_"), label=label, value=rate, measure=measure)


MIXES = Table(
    name="mixes",
    kind="mix",
    label=say("Mixes"),
    parts=attrgetter("members"),
    columns=(
        Column(key="mix", label=say("mix"), value=attrgetter("body.name")),
        *_MEMBER.columns(name=say("mix line"), lot=say("lot"), basis=say("rate basis")),
        _by("of full rate", say("share of full rate"), u.SHARE),
        _by("live seeds", say("live seeds"), u.DENSITY),
        _by("pls", say("pure live seed"), u.RATE),
        _by("bulk", say("bulk seed"), u.RATE),
        *_MEMBER.columns("group", carrier=say("carrier")),
        _MEMBER.column("price", say("carrier price"), spare=True),
        *bag_columns("part.bags"),
        _MEMBER.column("on_hand", say("carrier on hand"), spare=True),
        ID,
    ),
)


def _seed(line: TableLine) -> float:
    return fsum(bag.weight.value for bag in line.body.bags)


def _rows(line: TableLine) -> int:
    return sum(bag.rows for bag in line.body.bags)


CATCHES = Table(
    name="catches",
    kind="catch",
    label=say("Catches"),
    columns=(
        MADE,
        *_CATCH.columns("job", "drill", "box", "gear", setting=say("setting")),
        *_CATCH.columns("turns", "crank_turns", "distance", area=say("area")),
        Column(key="seed", label=say("net seed"), value=_seed, measure=u.CATCH),
        Column(key="rows", label=say("rows caught"), value=_rows),
        Column(key="bags", label=say("bags"), value=lambda line: len(line.body.bags)),
        *_CATCH.columns(gross=say("gross weight"), tare=say("tare")),
        *_CATCH.columns("resolution", "note"),
        ID,
    ),
)
BAGS = Table(
    name="bags",
    kind="catch",
    label=say("Catch bags"),
    parts=attrgetter("bags"),
    columns=(
        Column(key="catch", label=say("catch"), value=attrgetter("thing.id")),
        Column(key="number", label=say("bag"), value=attrgetter("number")),
        *_BAG.columns("row", "rows"),
        _BAG.column("weight", say("net seed"), key="seed"),
    ),
)
SETTINGS = Table(
    name="settings",
    kind="setting",
    label=say("Lever settings"),
    columns=(
        MADE,
        *Fields(Chosen).columns("job", "drill", "box", "gear", setting=say("setting")),
        *Fields(Chosen).columns("odds", "accepted", "note"),
        ID,
    ),
)
LOADS = Table(
    name="loads",
    kind="load",
    label=say("Loads"),
    columns=(
        MADE,
        *Fields(Load).columns("job", "box", at=say("acre meter reading")),
        *Fields(Load).columns(
            "bags",
            bag=say("net per bag"),
            weight=say("weighed"),
            tote=say("by weigh ticket"),
            mark=say("filled to"),
            left=say("left before loading"),
            level=say("level before loading"),
            edge=say("at the edge of the field"),
            day=say("day"),
        ),
        *Fields(Load).columns("note"),
        ID,
    ),
)


def _plants(line: TableLine) -> int:
    return sum(seen.plants for seen in line.part.plants)


def _frame(line: TableLine) -> float | None:
    """Area of a frame from its sides. [m²]"""
    place: Place = line.part
    if len(place.sides) != 2:
        return place.area.value if place.area else None
    return place.sides[0].value * place.sides[1].value


COUNTS = Table(
    name="counts",
    kind="count",
    label=say("Plant counts"),
    parts=attrgetter("places"),
    columns=(
        _COUNT.column("day", say("day")),
        _COUNT.column("job"),
        Column(key="place", label=say("spot"), value=attrgetter("number")),
        _PLACE.column("plants", value=_plants),
        *_PLACE.columns(length=say("row length"), hoop=say("hoop diameter")),
        _PLACE.column("around"),
        Column(key="frame", label=say("frame"), value=_frame, measure=u.GROUND),
        _COUNT.column("spacing"),
        ID,
    ),
)
