"""A book of the invented Tamarack Flats drill pool: three drills and a job at each stage.

What its people typed stands in ``book.toml``; all of it is made up.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from random import Random
from typing import Any

from msgspec.structs import replace

from evenstand.book.book import Book
from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.seed import Lot
from evenstand.book.kinds.work import Chosen
from evenstand.engine.quantities.units import HECTARE
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import nominal
from evenstand.tasks.boxes.boxes import fill as boxes_of
from evenstand.tasks.boxes.form import read_split
from evenstand.tasks.boxes.handed_over import handed_over
from evenstand.tasks.boxes.kept import body_of, box_tables, members
from evenstand.tasks.calibration.form import read_catch
from evenstand.tasks.calibration.setting import Setting, where_next
from evenstand.tasks.drill.chart_form import read_chart
from evenstand.tasks.drill.form import read_drill
from evenstand.tasks.job.form import read_field, read_job
from evenstand.tasks.job.kept import chosen_of, find, job_drill, named
from evenstand.tasks.mix.form import read_mix_form
from evenstand.tasks.order.form import read_order_form
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.seed.count_form import read_count_form
from evenstand.tasks.seed.form import read_lot_form
from evenstand.tasks.seed.photo import read_photo
from evenstand.tasks.seed.sprout_form import read_sprout_form
from evenstand.tasks.seeding.form import read_sown
from evenstand.tasks.stand.form import read_places_form
from evenstand.tasks.stand.wish_form import read_wish_form
from evenstand.tasks.whole_job.calibration import set_job

from .play import SOME_ROWS, TURNS
from .pool import HERON, Truth
from .simulator import come_up, drop, weigh

NOTE = "Invented: no such drill exists."
SEED = 1889
CAME_UP, SOIL_CV = 188.0, 0.12  # plants/m² of the oats, and how much they differ with the soil
BATCHES = (1, 5, 6)  # places that were counted in one go
MONTH = Month(2026, 11)  # in which the forms are filled in
PLOVER = Truth(
    closed=4.0,
    per_notch=1.93e-4,
    rows=(1.0, 0.99, 1.02, 1.01, 0.98, 1.0) * 4,
    flow_cv=0.012,
)
FIELD_RATIO = 0.95  # what the field truly gets of what the stand promises
WANDERS = 0.004  # from fill to fill
METER_SHOWS = 1.02  # the area meter, of the true ground
STOPS = (0.0, 4.0, 8.1, 12.2)  # ha, as the meter shows them
BAG, BAGS = 25.0, (18, 14, 15, 14)  # kg in each, at each stop
READ = 1.5  # kg, of seed weighed back
TRUE_GROUND = 15.58  # ha, of Alder Bench
DAY = "2026-04-14"
CHECK = {
    "at": "4.2 ha",
    "seeds": "37 33 41 36 35 39",
    "length": "1 m",
    "seeds_per_kg": "31000 seeds/kg",
    "dug": "3.5 4 4.2\n3.8 4.1 3.6\n4.4 3.9 4",
    "dug_in": "cm",
    "wanted": "4 cm",
}


def fill(book: Book) -> None:
    """Write the invented pool into an empty book."""
    typed = tomllib.loads((files(__package__) / "book.toml").read_text(encoding="utf-8"))
    luck = Random(SEED)
    drills = {name: _drill(book, name, typed) for name in typed["drill"]}
    lots = {
        lot["name"]: book.add(read_lot_form(_given(lot), today=MONTH)).about for lot in typed["lot"]
    }
    _at_home(book, typed, lots)
    mixes = {job: _mix(book, mix, lots) for job, mix in typed["mix"].items()}
    field = read_field(_given(typed["field"]))
    names = drills | {"field": book.add(field).about if field else ""}
    done = Play(book, _job(book, typed["done"], names), PLOVER, luck)
    while not done.next.stop:
        done.catch(apart=bool(done.next.caught))
    done.take()
    native = typed["native"]
    draw = read_field(_given(native))
    there = names | {"field": book.add(draw).about if draw else "", "mix": mixes["native"]}
    _share_out(book, _job(book, native, there), typed["boxes"]["native"])
    with_mix = names | {"mix": mixes["under_way"]}
    under_way = Play(book, _job(book, typed["under_way"], with_mix), HERON.truth, luck)
    _share_out(book, under_way.job, typed["boxes"]["under_way"])
    _order(book, under_way.job, typed["order"])
    under_way.catch(apart=True)
    _count_plants(done, typed["stand"])
    _sow(done)


@dataclass(frozen=True)
class Play:
    """A job played in the book: the wheel is turned where the Set step says."""

    book: Book
    job: str
    truth: Truth
    luck: Random

    @property
    def next(self) -> Setting:
        """What the Set step says now."""
        return where_next(set_job(self.book, find(self.book, self.job)))

    def catch(self, *, apart: bool) -> None:
        """Catch at the notch advised, each row apart or some rows in one bag."""
        found = self.next
        best = found.choice.best
        seed = drop(
            self.truth,
            found.job,
            setting=best.setting,
            gear=best.gear,
            turns=TURNS,
            luck=self.luck,
        )
        texts = {"setting": f"{best.setting:g}", "turns": str(TURNS)}
        texts |= {"gear": best.gear.name} if best.gear.name != "only" else {}
        if apart:
            texts |= {f"row{i}": weight for i, weight in enumerate(weigh(seed), 1)}
        else:
            bag = weigh([sum(seed[row - 1] for row in SOME_ROWS)])[0]
            texts |= {"rows_caught": str(len(SOME_ROWS)), "net": bag}
        self.book.add(read_catch(_given(texts), find(self.book, self.job)))

    def take(self) -> None:
        """Take the notch that was advised."""
        best, kept = self.next.choice.best, find(self.book, self.job)
        body = Chosen(
            job=self.job,
            drill=kept.drill_id,
            box=kept.box,
            setting=best.setting,
            gear="" if best.gear.name == "only" else best.gear.name,
            odds=best.odds,
        )
        self.book.add(body)


def _at_home(book: Book, typed: Mapping[str, Any], lots: Mapping[str, str]) -> None:
    """Count, test and photograph a lot at home."""
    for name, texts in typed["count"].items():
        lot = named(book, lots[name], Lot)
        if lot is not None:
            count = read_count_form(_given(texts), lot_id=lots[name], lot=lot, today=MONTH)
            book.add(count)
    for name, texts in typed["sprouts"].items():
        lot = named(book, lots[name], Lot)
        if lot is not None:
            test = read_sprout_form(_given(texts), lot_id=lots[name], lot=lot, today=MONTH)
            book.add(test)
    picture = (files(__package__) / "tag_o25.jpg").read_bytes()
    book.add(
        read_photo(picture, of=lots["O-25"], caption="The tag of O-25, drawn up for this demo")
    )


def _given(texts: Mapping[str, str]) -> Given:
    return Given(texts)


def _drill(book: Book, name: str, typed: Mapping[str, Any]) -> str:
    texts = typed["drill"][name] | {"name": name, "note": NOTE}
    drill = book.add(read_drill(_given(texts))).about
    body = named(book, drill, Drill)
    if body is not None:
        book.add(read_chart(_given(typed["chart"][name]), drill_id=drill, drill=body))
    return drill


def _share_out(book: Book, job: str, typed: Mapping[str, str]) -> None:
    """Keep which seed goes in which box, and let Set aim at the rates that follow."""
    kept = find(book, job)
    boxes = [box.name for box in kept.drill.boxes] if kept.drill else []
    split = read_split(_given(typed), job, members=members(book, kept), boxes=boxes)
    book.add(split)
    filled = boxes_of(box_tables(book, kept, split), today=MONTH)
    book.correct(job, handed_over(kept.body, filled, system="us"))


def _sow(done: Play) -> None:
    """Sow the field at the notch that was taken, with luck of its own."""
    chosen = body_of(chosen_of(done.book, find(done.book, done.job)), Chosen)
    if chosen is not None:
        at_stand = (chosen.setting - done.truth.closed) * done.truth.per_notch
        sow(done.book, done.job, at_stand=at_stand, luck=Random(SEED + 1))


def _count_plants(done: Play, typed: Mapping[str, Any]) -> None:
    """Keep what came up, a few places at a time."""
    wish = read_wish_form(_given(typed["wish"]), done.job, species=("",), counts=())
    done.book.add(wish)
    spacing = job_drill(find(done.book, done.job)).spacing
    for places in BATCHES:
        ground = nominal(spacing)  # of 1 m of row
        seen = come_up(CAME_UP, ground=ground, cv=SOIL_CV, places=places, luck=done.luck)
        texts = _given(typed["places"] | {"plants": " ".join(map(str, seen))})
        done.book.add(read_places_form(texts, done.job, spacing=spacing, sown=wish.sown))


def _order(book: Book, job: str, typed: Mapping[str, str]) -> None:
    drill = find(book, job).drill
    boxes = [box.name for box in drill.boxes] if drill else []
    book.add(read_order_form(_given(typed), job, boxes=boxes))


def _mix(book: Book, typed: Mapping[str, str], lots: Mapping[str, str]) -> str:
    """Write a mix whose lines name their lots."""
    seeds = {key: lots.get(text, text) for key, text in typed.items() if key.endswith("_seed")}
    return book.add(read_mix_form(_given({**typed, **seeds}), book)).about


def _job(book: Book, texts: Mapping[str, str], names: Mapping[str, str]) -> str:
    known = {"drill": names[texts["drill"]], "field": names["field"]}
    job = read_job(_given({**texts, **known}))
    return book.add(replace(job, mix=names.get("mix"))).about


@dataclass(frozen=True)
class Sower:
    """Somebody in the cab, who writes down what happens."""

    book: Book
    job: str

    def write(self, kind: str, texts: dict[str, str]) -> None:
        """Fill in a form and keep it."""
        kept = find(self.book, self.job)
        boxes = [wanted.box for wanted in kept.body.wanted]
        self.book.add(read_sown(Given(texts), kept, kind, boxes=boxes))


def sow(book: Book, job: str, *, at_stand: float, luck: Random) -> None:
    """Sow Alder Bench, four fills, and weigh what is left.

    Parameters
    ----------
    job : str
        Its setting is taken.
    at_stand : float
        Rate that the drill truly drops at the stand. [kg/m²]
    """
    sower, box, before = Sower(book, job), 0.0, 0.0
    for i, (stop, bags) in enumerate(zip(STOPS, BAGS, strict=True)):
        box -= _laid(stop - before, at_stand, luck)
        texts = {"at": f"{stop:g} ha", "bags": str(bags), "bag": f"{BAG:g} kg", "day": DAY}
        if i:
            read = box + luck.gauss(0.0, READ / 2)
            texts |= {"left": f"{max(0.0, read):.0f} ± {READ:g} kg"}
        texts |= {"edge": f"{BAG * (sum(BAGS[i + 1 :]) + 2):.0f} kg"}
        sower.write("load", texts)
        if i == 1:
            sower.write("check", CHECK)
        box, before = box + bags * BAG, stop
    end = TRUE_GROUND * METER_SHOWS
    box -= _laid(end - before, at_stand, luck)
    texts = {"at": f"{end:.1f} ha", "left1": f"{box:.0f} kg", "soil": "firm", "day": DAY}
    sower.write("finished", texts)


def _laid(shown: float, at_stand: float, luck: Random) -> float:
    """Seed that goes down while the meter shows some hectares more. [kg]"""
    rate = at_stand * FIELD_RATIO * luck.gauss(1.0, WANDERS)
    return shown / METER_SHOWS * HECTARE * rate
