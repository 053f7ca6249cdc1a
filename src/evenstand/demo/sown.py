"""A field seeded in the book, with what the drill truly lays down and errors in what is read."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import ceil
from random import Random
from typing import Any

from evenstand.book.book import Book
from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.units import FIELD, KILOGRAM, LOAD, POUND
from evenstand.tasks.job.kept import find
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.seeding.form import read_sown

WANDERS = 0.004  # how far a rate drifts from fill to fill
SPARE = 1.06  # of the seed that a stretch needs is filled in
WEIGHS_IN = {"ha": ("kg", KILOGRAM), "ac": ("lb", POUND)}


@dataclass(kw_only=True)
class BoxAtWork:
    """A box on the way: what it should lay down, what it does, and what is in it.

    ``target`` and ``rate`` are field rates [kg/m²]; ``bag`` [kg] is written ``bag_text``;
    ``inside`` is the seed in it [kg], ``spare`` the bags that wait at the edge.
    """

    name: str
    target: float
    rate: float
    bag_text: str
    bag: float
    inside: float = 0.0
    spare: int = 0


@dataclass(kw_only=True)
class Sower:
    """Somebody in the cab, who writes down what happens.

    ``plan`` is the job's ``seeding`` in ``season.toml``; ``rates`` are the stationary rates that
    the drill truly has, box by box [kg/m²]; ``ground`` gets seed, overlaps twice [m²].
    """

    book: Book
    job: str
    plan: Mapping[str, Any]
    rates: Mapping[str, float]
    ground: float
    luck: Random
    boxes: list[BoxAtWork] = field(default_factory=list)

    def __post_init__(self) -> None:
        for wanted in find(self.book, self.job).body.wanted:
            text = self.plan["bags"][wanted.box]
            bag = read(text, LOAD, field="bag").value
            most = ceil(1.08 * wanted.rate.value * self.ground / bag) + 1
            rate = self.rates[wanted.box] * self.plan["field_ratio"]
            self.boxes.append(
                BoxAtWork(
                    name=wanted.box,
                    target=wanted.rate.value,
                    rate=rate,
                    bag_text=text,
                    bag=bag,
                    spare=most,
                )
            )

    def sow(self) -> None:
        """Seed the field stop by stop, and weigh what is left unless the plan ends on the way."""
        unit = read(f"1 {self.plan['unit']}", FIELD, field="unit").value
        end = self.ground * self.plan["meter"] / unit
        stops, before = [*self.plan["stops"], end], 0.0
        done = -2 if self.plan.get("unfinished") else -1  # under way: before the last stop
        for i, stop in enumerate(stops[:done]):
            self._drive((stop - before) * unit)
            for box in self.boxes:
                self._fill(box, stop, (stops[i + 1] - stop) * unit)
            if i == 1 and "check" in self.plan:
                self._write("check", self.plan["check"], box=self.boxes[0].name)
            before = stop
        if not self.plan.get("unfinished"):
            self._drive((end - before) * unit)
            self._finish(end)

    def _drive(self, shown: float) -> None:
        """Lay down seed while the area meter shows some more. [m²]"""
        for box in self.boxes:
            laid = shown / self.plan["meter"] * box.rate * self.luck.gauss(1.0, WANDERS)
            box.inside = max(0.0, box.inside - laid)

    def _fill(self, box: BoxAtWork, stop: float, next_stretch: float) -> None:
        short = SPARE * box.target * next_stretch / self.plan["meter"] - box.inside
        bags = max(0, ceil(short / box.bag))
        if not bags:
            return
        box.spare = max(0, box.spare - bags)
        texts = {"at": self._at(stop), "bags": str(bags), "bag": box.bag_text}
        texts |= {"day": self.plan["day"], "edge": self._weight(box.spare * box.bag)}
        if stop:
            seen = max(0.0, box.inside + self.luck.gauss(0.0, self._error / 2))
            texts["left"] = f"{seen / self._unit:.0f} ± {self.plan['left']:g} {self._symbol}"
        self._write("load", texts, box=box.name)
        box.inside += bags * box.bag

    def _finish(self, end: float) -> None:
        texts = {"at": self._at(end), "soil": self.plan["soil"], "day": self.plan["day"]}
        left = {f"left{i}": self._weight(box.inside) for i, box in enumerate(self.boxes, start=1)}
        self._write("finished", texts | left, box=self.boxes[0].name)

    def _write(self, kind: str, texts: Mapping[str, str], *, box: str) -> None:
        names = [each.name for each in self.boxes]
        kept = find(self.book, self.job, box=box)
        self.book.add(read_sown(Given(texts), kept, kind, boxes=names))

    def _at(self, stop: float) -> str:
        return f"{round(stop, 1):g} {self.plan['unit']}"

    def _weight(self, kg: float) -> str:
        return f"{kg / self._unit:.0f} {self._symbol}"

    @property
    def _symbol(self) -> str:
        return WEIGHS_IN[self.plan["unit"]][0]

    @property
    def _unit(self) -> float:
        return WEIGHS_IN[self.plan["unit"]][1]

    @property
    def _error(self) -> float:
        """How far off seed weighed back may be. [kg]"""
        return float(self.plan["left"]) * self._unit
