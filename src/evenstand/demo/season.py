"""A job of the made-up season, each step through the same tasks as a real one."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from random import Random
from typing import Any

from msgspec.structs import replace

from evenstand.book.book import Book
from evenstand.book.kinds.work import Catch, Chosen, Field, Order
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import nominal
from evenstand.tasks.boxes.boxes import fill as boxes_of
from evenstand.tasks.boxes.form import read_split
from evenstand.tasks.boxes.handed_over import handed_over
from evenstand.tasks.boxes.kept import body_of, boxes_said, members, order_of
from evenstand.tasks.calibration.form import read_catch
from evenstand.tasks.calibration.setting import Setting, where_next
from evenstand.tasks.job.form import read_job
from evenstand.tasks.job.kept import Kept, chosen_of, find, job_drill, named
from evenstand.tasks.order.form import read_order_form
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.record.form import read_record
from evenstand.tasks.record.frozen import freeze, freeze_if_finished, lock_in
from evenstand.tasks.stand.form import read_places_form
from evenstand.tasks.stand.seed_down import species_of
from evenstand.tasks.stand.wish_form import read_wish_form
from evenstand.tasks.whole_job.calibration import set_job

from .play import MOST, TURNS
from .pool import TRUTHS
from .simulator import come_up, drop, weigh
from .sown import Sower

SOIL_CV = 0.12  # how much plants differ with the soil
SOME_ROWS = 4  # in one bag, from across the drill
LIGHT, LIGHT_TURNS = ("small seed", "fluffy"), 60  # too light to weigh row by row
PLACE = "1 m"  # of row, in which plants are counted


@dataclass(kw_only=True)
class PlayedJob:
    """A job of ``season.toml``, step by step.

    ``ids`` are those of drills, fields and mixes, by name. Each job has luck of its own, so that a
    change to one leaves the others as they are.
    """

    book: Book
    typed: Mapping[str, Any]
    ids: Mapping[str, str]
    id: str = ""
    luck: Random = field(init=False)

    def __post_init__(self) -> None:
        self.luck = Random(self.typed["start"]["form"]["name"])

    def start(self, said: Mapping[str, Any], today: Month) -> None:
        """Write down the job."""
        texts = {key: self.ids[self.typed[key]] for key in ("drill", "field")}
        job = read_job(Given(said["form"] | texts))
        self.id = self.book.add(replace(job, mix=self.ids[self.typed["mix"]])).about

    def boxes(self, said: Mapping[str, Any], today: Month) -> None:
        """Save which seed goes in which box, and calibrate for the rates that follow."""
        kept = self._kept()
        given = Given(said["form"])
        species = members(self.book, kept)
        split = read_split(given, self.id, members=species, boxes=_boxes(kept))
        self.book.add(split)
        filled = boxes_of(boxes_said(self.book, kept, split), today=today)
        self.book.correct(self.id, handed_over(kept.body, filled, system="us"))

    def order(self, said: Mapping[str, Any], today: Month) -> None:
        """Save what the order needs to know."""
        self.book.add(read_order_form(Given(said["form"]), self.id, boxes=_boxes(self._kept())))

    def calibrate(self, said: Mapping[str, Any], today: Month) -> None:
        """Turn the wheel where each box is told to, until its notch is accepted."""
        for wanted in self._kept().body.wanted:
            for number in range(said.get("most", MOST)):
                setting = self._next(wanted.box)
                if setting.stop:
                    self._choose(wanted.box, setting)
                    break
                self._catch(wanted.box, setting, misread=said.get("misread") if number == 1 else 0)
            if "most" in said:
                return

    def _next(self, box: str) -> Setting:
        return where_next(set_job(self.book, self._kept(box)))

    def _catch(self, box: str, setting: Setting, *, misread: int | None) -> None:
        """Catch at the notch advised: some rows, then each row apart; light seed in one bag."""
        best, light = setting.choice.best, box in LIGHT
        turns = LIGHT_TURNS if light else TURNS
        seed = drop(
            TRUTHS[self.typed["drill"], box],
            setting.job,
            setting=best.setting,
            gear=best.gear,
            turns=turns,
            luck=self.luck,
        )
        seed = [kg * self._flows(box) for kg in seed]
        texts = {"setting": f"{best.setting:g}", "turns": str(turns)}
        texts |= {"gear": best.gear.name} if best.gear.name != "only" else {}
        if light:
            texts |= {"rows_caught": str(len(seed)), "net": weigh([sum(seed)])[0]}
        elif setting.caught:
            texts |= {f"row{i}": weight for i, weight in enumerate(weigh(seed), 1)}
        else:
            some = seed[1 :: len(seed) // SOME_ROWS][:SOME_ROWS]
            texts |= {"rows_caught": str(SOME_ROWS), "net": weigh([sum(some)])[0]}
        if misread:
            self._misread(texts, row=f"row{misread}", box=box)
        else:
            self.book.add(self._read(texts, box))

    def _misread(self, texts: dict[str, str], *, row: str, box: str) -> None:
        """Write a row down with two digits swapped, and correct it."""
        number = texts[row].removesuffix(" g")
        wrong = texts | {row: f"{number[:-2]}{number[-1]}{number[-2]} g"}
        catch = self.book.add(self._read(wrong, box)).about
        why = "Two digits of row {n} were swapped.".format(n=row.removeprefix("row"))
        self.book.correct(catch, self._read(texts, box), why=why)

    def _read(self, texts: Mapping[str, str], box: str) -> Catch:
        return read_catch(Given(texts), self._kept(box))

    def _choose(self, box: str, setting: Setting) -> None:
        """Accept the notch that was advised, and lock it in."""
        best = setting.choice.best
        body = Chosen(
            job=self.id,
            drill=self.ids[self.typed["drill"]],
            box=box,
            setting=best.setting,
            gear="" if best.gear.name == "only" else best.gear.name,
            odds=best.odds,
        )
        self.book.add(body)
        lock_in(self.book, self.id, box=box)

    def record(self, said: Mapping[str, Any], today: Month) -> None:
        """Save what the record says beyond the steps."""
        boxes = [wanted.box for wanted in self._kept().body.wanted]
        self.book.add(read_record(Given(said["form"]), self.id, boxes=boxes))

    def seeding(self, said: Mapping[str, Any], today: Month) -> None:
        """Seed the field at the settings chosen, and freeze the record when it is done."""
        kept = self._kept()
        where = named(self.book, kept.body.field, Field)
        if where is None or where.area is None:
            raise ValueError("a field that is seeded needs its area")
        rates = {wanted.box: self._truly(wanted.box) for wanted in kept.body.wanted}
        sower = Sower(
            book=self.book,
            job=self.id,
            plan=said,
            rates=rates,
            ground=where.area.value * (1 + self._overlap()),
            luck=self.luck,
        )
        sower.sow()
        freeze_if_finished(self.book, self.id, today=today, by=said["by"])

    def _overlap(self) -> float:
        """Part of the field that is seeded twice, as the order has it. [-]"""
        order = body_of(order_of(self.book, self._kept()), Order)
        return order.overlap.value if order and order.overlap else 0.0

    def _truly(self, box: str) -> float:
        """Stationary rate of a box at the setting that was chosen. [kg/m²]"""
        kept = self._kept(box)
        chosen = body_of(chosen_of(self.book, kept), Chosen)
        if chosen is None:
            raise ValueError("a field is seeded at a setting that was chosen")
        ratio = job_drill(kept).gear(chosen.gear or None).ratio
        truth = TRUTHS[self.typed["drill"], box]
        return ratio * (chosen.setting - truth.closed) * truth.per_notch * self._flows(box)

    def _flows(self, box: str) -> float:
        """How well this job's seed flows, of what the truth of the box says. [-]"""
        return float(self.typed["calibrate"].get("flows", {}).get(box, 1.0))

    def stand(self, said: Mapping[str, Any], today: Month) -> None:
        """Save what came up, some places at a time."""
        kept = self._kept()
        species = species_of(self.book, kept.body)
        wish = read_wish_form(Given(said["form"]), self.id, species=species, counts=())
        self.book.add(wish)
        spacing = job_drill(kept).spacing
        texts = {"way": "row", "length": PLACE, "day": said["day"]}
        for places in said["places"]:
            for i, (name, plants) in enumerate(said["plants"].items(), start=1):
                ground = nominal(spacing)  # of 1 m of row
                seen = come_up(plants, ground=ground, cv=SOIL_CV, places=places, luck=self.luck)
                texts |= {f"species{i}": name, f"plants{i}": " ".join(map(str, seen))}
            count = read_places_form(Given(texts), self.id, spacing=spacing, sown=wish.sown)
            self.book.add(count)

    def amend(self, said: Mapping[str, Any], today: Month) -> None:
        """Freeze the record anew, and say why."""
        freeze(self.book, self.id, today=today, by=said["by"], why=said["why"])

    def _kept(self, box: str | None = None) -> Kept:
        return find(self.book, self.id, box=box)


def _boxes(kept: Kept) -> list[str]:
    return [box.name for box in kept.drill.boxes] if kept.drill else []
