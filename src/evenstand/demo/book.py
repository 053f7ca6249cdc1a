"""A book of the made-up Tamarack Flats drill pool: three drills, a season, a job at each stage.

What its people typed stands in ``book.toml`` and ``season.toml``; all of it is made up.
"""

import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time
from functools import cache, partial
from importlib.resources import files
from random import Random
from typing import Any

from evenstand.book.book import Book
from evenstand.book.kinds.seed import Lot
from evenstand.book.log.entries import Entry
from evenstand.book.opening import open_book
from evenstand.book.storage.store import MEMORY
from evenstand.engine.seed.tag import Month
from evenstand.tasks.drill.chart_form import read_chart
from evenstand.tasks.drill.form import read_drill
from evenstand.tasks.job.form import read_field
from evenstand.tasks.job.kept import named
from evenstand.tasks.mix.form import read_mix_form
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.seed.count_form import read_count_form
from evenstand.tasks.seed.form import read_lot_form
from evenstand.tasks.seed.photo import read_photo
from evenstand.tasks.seed.sprout_form import read_sprout_form

from .season import PlayedJob

NOTE = "Made up: no such drill exists."
SEED = 1889
BEGINS = "2026-01-12"  # when drills and fields are written down
BY = "Fern Example"
PHOTOS = ("O-25", "Y-25", "K-25")  # lots whose tags were drawn: make tags
MORNING = time(13)  # UTC
MINUTES = 150_000  # ms from one entry to the next
STEPS = ("start", "boxes", "order", "calibrate", "record", "seeding", "stand", "amend")
TRIALS = {"count": read_count_form, "sprouts": read_sprout_form}
Event = tuple[str, str, Callable[[], object]]  # day, who, what they write down


def fill(book: Book) -> None:
    """Put the made-up season into a book."""
    book.merge(entries())


@cache
def entries() -> tuple[Entry, ...]:
    """Play the season in a book of its own: the same entries whenever and wherever it is."""
    calendar = Calendar()
    luck = Random(SEED)
    with open_book(MEMORY, device="shed", clock=calendar, random=luck.randbytes) as book:
        Season(book=book, calendar=calendar).play()
        with book.all_entries() as found:
            return tuple(found)


@dataclass
class Calendar:
    """A clock that is turned to a morning, and moves on as things are written down."""

    ms: int = 0

    def __call__(self) -> int:
        """Return milliseconds since 1970, UTC, a little later every time."""
        self.ms += MINUTES
        return self.ms

    def turn(self, day: str) -> None:
        """Turn to the morning of a day, unless it is later already."""
        morning = datetime.combine(date.fromisoformat(day), MORNING, UTC)
        self.ms = max(self.ms, int(morning.timestamp()) * 1000)

    @property
    def month(self) -> Month:
        """The month that it is."""
        now = datetime.fromtimestamp(self.ms / 1000, UTC)
        return Month(now.year, now.month)


@dataclass(kw_only=True)
class Season:
    """A book that is filled in over a year."""

    book: Book
    calendar: Calendar
    ids: dict[str, str] = field(default_factory=dict)  # of drills, fields, lots and mixes, by name

    def play(self) -> None:
        """Write everything down, day by day."""
        shelf, jobs = _typed("book"), _typed("season")["job"]
        events = [*self._shelf(shelf), *self._at_home(shelf), *self._jobs(jobs, shelf)]
        for day, by, write in sorted(events, key=lambda event: event[0]):
            self.calendar.turn(day)
            self.book.who = by
            write()

    def _shelf(self, typed: Mapping[str, Any]) -> Iterator[Event]:
        for name, texts in typed["drill"].items():
            yield BEGINS, BY, partial(self._drill, name, texts, charts=typed["chart"][name])
        for texts in typed["field"]:
            yield BEGINS, BY, partial(self._field, texts)
        for texts in typed["lot"]:
            yield f"{texts['tested']}-25", BY, partial(self._lot, texts)

    def _drill(self, name: str, texts: Mapping[str, str], *, charts: list[dict[str, str]]) -> None:
        drill = read_drill(Given({**texts, "name": name, "note": NOTE}))
        self.ids[name] = self.book.add(drill).about
        for chart in charts:
            self.book.add(read_chart(Given(chart), drill_id=self.ids[name], drill=drill))

    def _field(self, texts: Mapping[str, str]) -> None:
        if found := read_field(Given(texts)):
            self.ids[found.name] = self.book.add(found).about

    def _lot(self, texts: Mapping[str, str]) -> None:
        lot = read_lot_form(Given(texts), today=self.calendar.month)
        self.ids[lot.name] = self.book.add(lot).about
        if lot.name in PHOTOS:
            picture = (files(__package__) / f"tag_{lot.name}.jpg").read_bytes()
            caption = f"The tag of {lot.name}, drawn for this demo"
            self.book.add(read_photo(picture, of=self.ids[lot.name], caption=caption))

    def _at_home(self, typed: Mapping[str, Any]) -> Iterator[Event]:
        """Count, test and correct lots at home."""
        for kind in TRIALS:
            for name, said in typed[kind].items():
                yield said["day"], said["by"], partial(self._try, kind, name, said["form"])
        for name, said in typed["later"].items():
            texts = next(lot for lot in typed["lot"] if lot["name"] == name)
            write = partial(self._correct, name, texts | said["form"], why=said["why"])
            yield said["day"], said["by"], write

    def _try(self, kind: str, name: str, texts: Mapping[str, str]) -> None:
        lot = named(self.book, self.ids[name], Lot)
        if lot is not None:
            today = self.calendar.month
            found = TRIALS[kind](Given(texts), lot_id=self.ids[name], lot=lot, today=today)
            self.book.add(found)

    def _correct(self, name: str, texts: Mapping[str, str], *, why: str) -> None:
        lot = read_lot_form(Given(texts), today=self.calendar.month)
        self.book.correct(self.ids[name], lot, why=why)

    def _jobs(self, jobs: list[dict[str, Any]], typed: Mapping[str, Any]) -> Iterator[Event]:
        for job in jobs:
            said = job["start"]
            yield said["day"], said["by"], partial(self._mix, job["mix"], typed["mix"])
            played = PlayedJob(book=self.book, typed=job, ids=self.ids)
            for step in STEPS:
                if said := job.get(step):
                    yield said["day"], said["by"], partial(self._step, played, step, said)

    def _mix(self, name: str, typed: Mapping[str, Any]) -> None:
        """Write a mix whose lines name their lots, once for all its jobs."""
        if name not in self.ids:
            texts = typed[name]
            seeds = {k: self.ids.get(v, v) for k, v in texts.items() if k.endswith("_seed")}
            self.ids[name] = self.book.add(read_mix_form(Given(texts | seeds), self.book)).about

    def _step(self, job: PlayedJob, step: str, said: Mapping[str, Any]) -> None:
        getattr(job, step)(said, self.calendar.month)


def _typed(name: str) -> dict[str, Any]:
    return tomllib.loads((files(__package__) / f"{name}.toml").read_text(encoding="utf-8"))
