"""A kept lot as its page shows it: live seed, price, age, and the one next thing."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from evenstand.book.book import Book
from evenstand.book.kinds.seed import GerminationTest, Lot, SeedCount
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.working import Line
from evenstand.engine.seed.age import age
from evenstand.engine.seed.pls import price_per_pls
from evenstand.engine.seed.retest import Together
from evenstand.engine.seed.tag import Month
from evenstand.engine.seed.working import price_line
from evenstand.engine.statistics.budget import Estimate, Quantity, nominal, ranged

from .kept import count_of, laid_out, lot_body, read_kept, test_of, which_count
from .lots import LotRead
from .words import advise

# After which seeds at home are counted: common practice, no source.
FIRST_COUNT, LAST_COUNT = timedelta(days=7), timedelta(days=14)
Act = Literal["test", "look", "count", "write", ""]


@dataclass(frozen=True, kw_only=True)
class Age:
    """How old a test is, and how old it may be. [month]"""

    tested: str
    months: int
    allowed: int
    place: str
    source: str

    @property
    def old(self) -> bool:
        """Whether it is older than it may be."""
        return self.months > self.allowed


@dataclass(frozen=True, kw_only=True)
class LotSheet:
    """What is known of a lot.

    ``price`` is that of a weight of pure live seed [$/kg]; ``seeds`` are those
    in a weight of pure seed, ``live`` the live ones in a weight of bulk [1/kg].
    ``advice`` begins with the one next thing, which ``act`` does; ``waits`` is
    the home test that was laid out and is not counted yet.
    """

    body: Lot
    read: LotRead
    count: SeedCount | None
    test: GerminationTest | None
    waits: Thing | None
    together: Together | None
    price: Estimate | None
    seeds: Estimate | None
    live: Estimate | None
    age: Age | None
    act: Act
    advice: tuple[Phrase, ...]
    working: tuple[Line, ...]


def lot_sheet(book: Book, thing: Thing, *, today: Month, state: str = "") -> LotSheet:
    """Work out what a kept lot comes to.

    Parameters
    ----------
    state : str
        Whose limit of a test's age holds; empty for that of interstate trade.

    Raises
    ------
    MeasurementError
        As `read_kept` does, and for a thing that is no lot.
    """
    body = lot_body(thing)
    count, test = count_of(book, thing.id), test_of(book, thing.id)
    read = read_kept(body, today=today, state=state, count=count, test=test)
    waits = laid_out(book, thing.id)
    act, lead = _next(read, count, today)
    if waits and isinstance(waits.body, GerminationTest) and act in ("", "test"):
        act, lead = "look", look_at(waits.body)
    held = which_count(body, count)
    said = advise(read.result, None)
    return LotSheet(
        body=body,
        read=read,
        count=count,
        test=test,
        waits=waits,
        together=read.tag.compared(hard_too=read.result.count_hard),
        price=_ranged(_live_price(read), read),
        seeds=_ranged(read.count.seeds_per_kg, read) if read.count else None,
        live=_ranged(read.pls * read.count.seeds_per_kg, read) if read.count else None,
        age=_age(read, today),
        act=act,
        advice=(*((lead,) if lead else ()), *said, *((held,) if held else ())),
        working=(*read.result.working, *_price_lines(read)),
    )


def _next(read: LotRead, count: SeedCount | None, today: Month) -> tuple[Act, Phrase | None]:
    """Return what is to be done about a lot before it is leaned on."""
    found = _age(read, today)
    if found and found.old and read.tag.home_test is None:
        return "test", say(
            "Test this lot at home: its tag is {months} months old; the limit is {allowed}.",
            months=found.months,
            allowed=found.allowed,
        )
    if read.count is None:
        return "count", say("Count this lot: no seed count is entered for it yet.")
    unsure = read.species is not None and read.species.count_your_lot
    if count is None and unsure and read.said.count_key is None:
        return "count", say("Count this lot: published counts for its species vary too much.")
    if found is None:
        return "write", say("Enter the test month shown on the tag.")
    return "", None


def look_at(test: GerminationTest) -> Phrase:
    """Say when the seeds of a home test that was laid out are to be counted."""
    try:
        laid = date.fromisoformat(test.started or "")
        first, last = laid + FIRST_COUNT, laid + LAST_COUNT
    except (ValueError, OverflowError):  # no day, or one that the calendar does not have
        return say("Count the home test you laid out.")
    return say(
        "Count the home test between {first} and {last}, as the species calls for.",
        first=first,
        last=last,
    )


def _age(read: LotRead, today: Month) -> Age | None:
    if read.tag.tested is None:
        return None
    cool = read.species is not None and read.species.cool_season_grass
    return Age(
        tested=str(read.tag.tested),
        months=age(read.tag.tested, today=today),
        allowed=read.limit.allowed(hermetic=read.tag.hermetic, cool_season_grass=cool),
        place=read.limit.place,
        source=read.limit.source,
    )


def _live_price(read: LotRead) -> Quantity | None:
    return None if read.price is None else price_per_pls(read.price, pls=read.pls)


def _price_lines(read: LotRead) -> tuple[Line, ...]:
    return () if read.price is None else (price_line(read.price, pls=nominal(read.pls)),)


def _ranged(found: Quantity | None, read: LotRead) -> Estimate | None:
    causes = read.count.causes if read.count else {}
    return None if found is None else ranged(found, causes)
