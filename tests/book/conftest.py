"""Books to test with: a clock one moves by hand, and bodies of every kind."""

import pytest

from evenstand.book.kinds.about import About
from evenstand.book.kinds.bodies import Photo
from evenstand.book.kinds.frozen import Frozen
from evenstand.book.kinds.machine import Box, Chart, ChartPoint, Drill, Gear, Scale
from evenstand.book.kinds.seed import (
    Dish,
    GerminationTest,
    Lot,
    Member,
    Mix,
    Sample,
    SeedCount,
    Tag,
)
from evenstand.book.kinds.shape import Body, Typed
from evenstand.book.kinds.sown import Check, Dug, Finished, Ground, Left, Level, Load, Moved
from evenstand.book.kinds.work import (
    Bag,
    Catch,
    Chosen,
    Field,
    InBox,
    Job,
    Live,
    Note,
    OfBox,
    Order,
    Place,
    Record,
    Seen,
    Split,
    StandCount,
    StandWish,
    Used,
    Wanted,
)
from evenstand.book.opening import open_book

THING = "01a20f15-2c80-7000-8000-000000000000"
NOON = 1_795_608_000_000  # 2026-11-25 12:00 UTC


class Clock:
    """A device's own clock, as wrong as one likes."""

    def __init__(self, ms=NOON):
        self.ms = ms

    def __call__(self):
        return self.ms


class Samples:
    """Bodies, all about one thing where they name one."""

    heron = Drill(
        name="Heron",
        rows=20,
        spacing=Typed(value=0.1905, text="7.5 in"),
        scale=Scale(low=0, high=100),
        gears=(Gear(name="full", ratio=1), Gear(name="half", ratio=0.5, driver=12, driven=24)),
        boxes=(Box(name="grain"), Box(name="small seed", seed="small seed", dead=0.02)),
        rolled=Typed(value=2.4384, give_or_take=0.0254, text="8 ft ± 1 in"),
    )
    chart = Chart(
        drill=THING,
        points=(ChartPoint(setting=30, rate=Typed(value=0.0054, text="48 lb/ac")),),
        seed="oats",
    )
    about = About(name="Tamarack Flats", units="us", language="es", decimal="comma")
    alder_bench = Field(name="Alder Bench", area=Typed(value=155_804.0, text="38.5 ac"))
    oats = Lot(
        species="oats",
        name="TF-26-014",
        tag=Tag(purity=0.985, germination=0.91, tested="2026-08"),
        price=Typed(value=0.88, text="$0.40/lb"),
    )
    seed_count = SeedCount(
        lot=THING, samples=(Sample(seeds=500, weight=Typed(value=0.0172, text="17.2 g")),)
    )
    germination = GerminationTest(
        lot=THING, dishes=(Dish(sprouted=88, seeds=100),), started="2026-09-01"
    )
    mix = Mix(
        name="Fall cover",
        members=(Member(name="oats", basis="of full rate", rate=Typed(value=0.4, text="40%")),),
    )
    job = Job(
        name="Alder Bench, fall",
        drill=THING,
        wanted=(Wanted(rate=Typed(value=0.00673, text="60 lb/ac")),),
    )
    split = Split(job=THING, boxes=(InBox(box="grain", members=("oats",)),))
    order = Order(job=THING, heels=(OfBox(box="grain", weight=Typed(value=4.5, text="10 lb")),))
    catch = Catch(
        job=THING,
        setting=14,
        turns=Typed(value=20, text="20"),
        bags=(Bag(weight=Typed(value=0.226, text="226 g"), rows=4),),
    )
    chosen = Chosen(job=THING, setting=15, odds=0.9)
    stand_count = StandCount(
        job=THING,
        places=(
            Place(
                plants=(Seen(plants=14, species="rye"), Seen(plants=2, species="vetch")),
                length=Typed(value=0.9144, text="3 ft"),
                gaps=(Typed(value=0.1016, text="4 in"),),
            ),
        ),
        day="2026-10-25",
    )
    load = Load(
        job=THING,
        at=Typed(value=89_030.8, text="22 ac"),
        box="grain",
        bags=Typed(value=9, text="9"),
        bag=Typed(value=22.6796, text="50 lb"),
        level=Typed(value=0.2, give_or_take=0.02, text="20 ± 2%"),
        edge=Typed(value=453.6, text="1,000 lb"),
        day="2026-10-02",
    )
    level = Level(job=THING, at=Typed(value=32_375.0, text="8 ac"), left=Typed(value=235.9))
    ground = Ground(
        job=THING,
        shown=Typed(value=40_468.6, text="10 ac"),
        passes=Typed(value=20, text="20"),
        length=Typed(value=400, text="400 m"),
    )
    moved = Moved(job=THING, at=Typed(value=32_375.0, text="8 ac"), setting=33, gear="full")
    check = Check(
        job=THING,
        length=Typed(value=1, text="1 m"),
        seeds=(33, 28, 35),
        dug=(Dug(depths=(Typed(value=0.0381, text="1.5 in"),)),),
    )
    finished = Finished(
        job=THING,
        at=Typed(value=155_804.0, text="38.5 ac"),
        left=(Left(box="grain", weight=Typed(value=40.8, text="90 lb")),),
        soil="firm",
    )
    frozen = Frozen(job=THING, entries=(THING,), sha256="0" * 64, formulas="1")
    stand_wish = StandWish(
        job=THING,
        wish=Typed(value=160.0, text="160 plants/m²"),
        crop="winter wheat",
        sown="2026-10-02",
        live=(Live(seeds=Typed(value=240.0, text="240 seeds/m²"), usual="small grain"),),
    )
    record = Record(
        job=THING,
        producer="Ada",
        first="2026-10-02",
        area=Typed(value=155_804.0, text="38.5 ac"),
        used=(Used(box="grain", loaded=Typed(value=907.2, text="2,000 lb")),),
        signers=("Ada",),
    )
    note = Note(of=THING, text="chain slipped")
    photo = Photo(of=THING, media="image/jpeg", data=b"\xff\xd8\xff")

    @classmethod
    def every(cls):
        """A body of each kind that can be added."""
        return [each for each in vars(cls).values() if isinstance(each, Body)]


@pytest.fixture
def clock():
    """The clock of the books that are opened here."""
    return Clock()


@pytest.fixture
def opened(clock):
    """Open books, as ``opened(where, device=…)``, and close them when the test is over."""
    books = []

    def book(where=":memory:", *, device="shed", clock=clock, **options):
        books.append(open_book(where, device=device, who="Ada", clock=clock, **options))
        return books[-1]

    yield book
    for each in books:
        each.close()


@pytest.fixture(params=["memory", "file"])
def book(request, opened, tmp_path):
    """An empty book, in memory and in a file."""
    return opened(tmp_path / "book.evenstand" if request.param == "file" else ":memory:")


@pytest.fixture
def samples():
    """A body of each kind, from the invented Tamarack Flats drill pool."""
    return Samples
