"""A field that is sown in the book: fills, what was left at each, a check behind, the end."""

from dataclasses import dataclass
from random import Random

from evenstand.book.book import Book
from evenstand.engine.quantities.units import HECTARE
from evenstand.tasks.job.kept import find
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.seeding.form import read_sown

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


@dataclass(frozen=True)
class Sower:
    """Somebody in the cab, who writes down what happens."""

    book: Book
    job: str

    def write(self, kind: str, texts: dict[str, str]) -> None:
        """Fill in a form and keep it."""
        kept = find(self.book, self.job)
        boxes = [wanted.box for wanted in kept.body.wanted]
        self.book.add(read_sown(Given(texts, str), kept, kind, boxes=boxes))


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
