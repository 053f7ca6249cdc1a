"""What wrote book-0.1.0.evenstand and book-0.1.0.zip, with Evenstand 0.1.0.

Once released, the files are never written again: every later release must read them.
The book is invented: the Tamarack Flats drill pool.
"""

from itertools import count
from pathlib import Path

from msgspec.structs import replace

from evenstand.book.exchange import export_book
from evenstand.book.kinds.about import About
from evenstand.book.kinds.bodies import Photo
from evenstand.book.kinds.machine import Box, Chart, ChartPoint, Drill, Gear, Scale
from evenstand.book.kinds.seed import (
    BagSize,
    Dish,
    GerminationTest,
    Lot,
    Member,
    Mix,
    Sample,
    SeedCount,
    Tag,
)
from evenstand.book.kinds.shape import Typed
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

HERE = Path(__file__).parent
HERON = Drill(
    name="Heron",
    rows=20,
    spacing=Typed(value=0.1905, text="7.5 in"),
    scale=Scale(low=0, high=100, slack="above"),
    gears=(Gear(name="full", ratio=1.0), Gear(name="half", ratio=0.5, driver=12, driven=24)),
    boxes=(Box(name="grain"), Box(name="small seed", seed="small seed", dead=0.02)),
    rolled=Typed(value=2.4384, give_or_take=0.0254, text="8 ft ± 1 in"),
    note="invented",
)


def typed(value, text):
    return Typed(value=value, text=text)


def machine(kept):
    heron = kept(HERON)
    points = tuple(
        ChartPoint(setting=float(s), rate=typed(r, t))
        for s, r, t in ((30, 0.00538, "48 lb/ac"), (40, 0.00717, "64 lb/ac"))
    )
    kept(Chart(drill=heron, points=points, seed="oats", gear="full"))
    return heron


def seed(kept):
    tag = Tag(purity=0.985, germination=0.91, hard=0.0, inert=0.012, tested="2026-08")
    oats = kept(
        Lot(
            species="oats", name="TF-26-014", tag=tag, bags=(BagSize(weight=typed(22.68, "50 lb")),)
        )
    )
    kept(SeedCount(lot=oats, samples=(Sample(seeds=500, weight=typed(0.0172, "17.2 g")),)))
    kept(GerminationTest(lot=oats, dishes=(Dish(sprouted=88, seeds=100),), hard=2))
    kept(Photo(of=oats, media="image/png", data=b"\x89PNG\r\n\x1a\n", caption="tag"))
    member = Member(name="oats", basis="of full rate", rate=typed(0.4, "40%"), lot=oats)
    mix = kept(Mix(name="Fall cover", members=(member,)))
    return mix


def work(kept, heron, mix):
    field = kept(Field(name="Alder Bench", area=typed(155_803.97, "38.5 ac")))
    wanted = (Wanted(rate=typed(0.006725, "60 lb/ac"), box="grain"),)
    job = kept(Job(name="Alder Bench, fall", field=field, drill=heron, mix=mix, wanted=wanted))
    kept(Split(job=job, boxes=(InBox(box="grain", members=("oats",)),)))
    kept(Order(job=job, heels=(OfBox(box="grain", weight=typed(4.536, "10 lb")),)))
    bags = tuple(
        Bag(weight=typed(w, f"{1000 * w:g} g"), row=n) for n, w in ((1, 0.0562), (2, 0.0570))
    )
    first = Catch(
        job=job, drill=heron, setting=38.0, gear="full", turns=typed(20.0, "20"), bags=bags
    )
    caught = kept(first)
    mistaken = kept(replace(first, setting=83.0))
    kept(Chosen(job=job, drill=heron, setting=39.0, gear="full", odds=0.9))
    note = kept(Note(of=job, text="wet at the gate — drove round it"))
    sown(kept, job)
    came_up(kept, job)
    return first, caught, mistaken, note


def sown(kept, job):
    """From the first load to the end of the field."""
    start, half, end = (typed(4046.8564 * ac, f"{ac} ac") for ac in (0, 19, 38.5))
    grain = {"job": job, "box": "grain"}
    full = {"bags": typed(48.0, "48"), "bag": typed(22.68, "50 lb")}
    kept(Load(**grain, at=start, day="2026-09-14", **full, edge=typed(45.36, "100 lb")))
    kept(Ground(job=job, shown=typed(4127.8, "1.02 ac"), known=typed(4046.86, "1 ac")))
    dug = (Dug(depths=(typed(0.0254, "1 in"), typed(0.0127, "1/2 in"))),)
    kept(Check(**grain, at=start, length=typed(0.9144, "3 ft"), seeds=(31, 28, 33), dug=dug))
    kept(Level(**grain, at=half, level=typed(0.5, "50%")))
    kept(Moved(**grain, at=half, setting=40.0, gear="full"))
    left = (Left(box="grain", weight=typed(13.6, "30 lb")),)
    kept(Finished(job=job, at=end, left=left, area=end, soil="firm", day="2026-09-15"))


def came_up(kept, job):
    """Counts, what they are judged by, and what the record adds."""
    places = tuple(
        Place(plants=(Seen(plants=n),), length=typed(0.9144, "3 ft")) for n in (31, 27, 35)
    )
    kept(StandCount(job=job, places=places, day="2026-10-06", spacing=typed(0.1905, "7.5 in")))
    live = (Live(species="oats", seeds=typed(236.8, "22 seeds/ft2")),)
    kept(StandWish(job=job, wish=typed(161.5, "15 seeds/ft2"), sown="2026-09-14", live=live))
    used = (Used(box="grain", loaded=typed(1088.6, "2400 lb"), left=typed(13.6, "30 lb")),)
    kept(Record(job=job, sown_by="Ben", first="2026-09-14", used=used, signers=("Ada", "Ben")))


def fill(book, clock):
    """One job on one drill, from its mix to its record, with what was put right in it."""

    def kept(body):
        clock.ms += 61_000
        return book.add(body).about

    heron, mix = machine(kept), seed(kept)
    first, caught, mistaken, note = work(kept, heron, mix)
    clock.ms += 61_000
    book.correct(caught, replace(first, note="left rows"), why="note forgotten")
    book.correct(heron, replace(HERON, note="invented; chain renewed"), by="Ben")
    book.remove(mistaken, why="setting typed wrong")
    book.remove(note)
    kept(About(name="Tamarack Flats", units="us", language="en"))


class Clock:
    """Minutes that pass."""

    ms = 1_795_608_000_000  # 2026-11-25 12:00 UTC

    def __call__(self):
        return self.ms


def main():
    numbers, clock = count(1), Clock()
    options = {"device": "shed", "who": "Ada", "clock": clock}
    options["random"] = lambda size: next(numbers).to_bytes(size, "big")
    with open_book(":memory:", **options) as book:
        fill(book, clock)
        book.backup(HERE / "book-0.1.0.evenstand")
        export_book(book, HERE / "book-0.1.0.zip")


if __name__ == "__main__":
    main()
