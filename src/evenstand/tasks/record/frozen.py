"""Finished records and locked-in settings: frozen as they stood, told what has changed since."""

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import partial

from evenstand.book.book import Book
from evenstand.book.freezing import as_it_stood, fingerprint, rested_on
from evenstand.book.kinds import sown, work
from evenstand.book.kinds.frozen import Frozen
from evenstand.book.kinds.shape import Body
from evenstand.book.log.entries import Entry
from evenstand.book.log.merging import changes
from evenstand.book.storage.thing import Thing, things_made
from evenstand.engine import FORMULAS
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, Style, Value, say
from evenstand.engine.seed.tag import Month
from evenstand.report.document import Printed
from evenstand.report.pen import Pen

from ..calibration.setting import where_next
from ..job.kept import Kept, chosen_of, find
from ..parsing.told import NOTHING, as_json, label, value
from ..whole_job.calibration import set_job
from ..whole_job.made_at import moment, told_of
from .frame import Reader
from .record import Named, record

OLD = say("as it stood when this version of Evenstand first opened the book")
_READER = Reader(style=Style(), language="en", invented=False)


@dataclass(frozen=True, kw_only=True)
class Version:
    """A record as it was frozen: which one, by whom, when, and why where it amends another."""

    number: int
    thing: Thing
    body: Frozen

    @property
    def made(self) -> datetime:
        """When it was frozen."""
        return moment(self.thing.entry.made.ms)

    @property
    def month(self) -> Month:
        """The month in which the age of its tests was told."""
        return Month(self.made.year, self.made.month)


@dataclass(frozen=True, kw_only=True)
class Change:
    """What has changed since a record was frozen; ``field`` is None for what is new or gone."""

    kind: str
    name: str
    entry: Entry
    field: Phrase | None
    before: Value
    now: Value


def versions(book: Book, job: str) -> tuple[Version, ...]:
    """Return the versions of a job's record, oldest first; none while it is not finished.

    The same record frozen on two devices is one version.
    """
    things = sorted(book.things(Frozen.kind, of=job), key=lambda each: str(each.born))
    found: dict[str, Version] = {}
    for thing in things:
        body = thing.body
        if isinstance(body, Frozen) and body.setting is None and body.sha256 not in found:
            found[body.sha256] = Version(number=len(found) + 1, thing=thing, body=body)
    return tuple(found.values())


def freeze(book: Book, job: str, *, today: Month, by: str | None = None, why: str = "") -> Version:
    """Keep what the record of a job rests on as it stands now.

    Parameters
    ----------
    job : str
        Id of the job.
    today : Month
        For the age of tests.
    by : str, optional
        Who finishes or amends it.
    why : str
        Reason; needed for every version but the first.

    Raises
    ------
    MeasurementError
        Under ``why`` where it is missing, under ``record`` where nothing has changed.
    """
    known = versions(book, job)
    if known and not why.strip():
        raise MeasurementError("why", why, say("enter why the record is amended"))
    entries = _resting(book, job, today=today)
    sha256 = fingerprint(entries)
    if any(each.body.sha256 == sha256 for each in known):
        raise MeasurementError("record", None, say("change something first: nothing has changed"))
    body = Frozen(
        job=job,
        entries=tuple(each.id for each in entries),
        sha256=sha256,
        formulas=FORMULAS,
        amends=known[-1].thing.id if known else None,
        why=why.strip(),
    )
    book.add(body, by=by)
    return versions(book, job)[-1]


def freeze_what_ends(book: Book, body: Body, *, today: Month, by: str | None = None) -> None:
    """Freeze what an entry ends that was just written down: a job, or the calibration of a box."""
    if isinstance(body, sown.Finished):
        freeze_if_finished(book, body.job, today=today, by=by)
    elif isinstance(body, work.Chosen):
        lock_in(book, body.job, box=body.box, by=by)


def lock_in(book: Book, job: str, *, box: str, by: str | None = None, why: str = "") -> None:
    """Freeze what the setting rests on that was last taken for a box, once."""
    chosen = chosen_of(book, find(book, job, box=box))
    if chosen is None or locked(book, chosen):
        return
    with things_made() as made:
        kept = find(book, job, box=box)
        list(_told_of_setting(book, kept))
        with suppress(MeasurementError):  # taken without what an advice needs
            where_next(set_job(book, kept))
    entries = rested_on(book, made)
    body = Frozen(
        job=job,
        setting=chosen.id,
        entries=tuple(each.id for each in entries),
        sha256=fingerprint(entries),
        formulas=FORMULAS,
        why=why,
    )
    book.add(body, by=by)


def locked(book: Book, chosen: Thing) -> Version | None:
    """Return what a setting rests on that was taken, None where it was not frozen."""
    job = chosen.body.job if isinstance(chosen.body, work.Chosen) else None
    for thing in book.things(Frozen.kind, of=job) if job else ():
        if isinstance(thing.body, Frozen) and thing.body.setting == chosen.id:
            return Version(number=1, thing=thing, body=thing.body)
    return None


def _told_of_setting(book: Book, kept: Kept) -> Iterator[Thing]:
    """Yield what the setting of a box rests on, beside what the drill has learned elsewhere."""
    yield kept.thing
    yield from kept.catches
    yield from book.many.things([kept.body.field, kept.drill_id]).values()
    if kept.drill_id:
        yield from book.things("chart", of=kept.drill_id)
    if chosen := chosen_of(book, kept):
        yield chosen


def freeze_if_finished(book: Book, job: str, *, today: Month, by: str | None = None) -> None:
    """Freeze the record of a job whose end was just written down, the first time."""
    if book.things(sown.Finished.kind, of=job, limit=1) and not versions(book, job):
        freeze(book, job, today=today, by=by)


def freeze_old(book: Book, *, today: Month, why: str = OLD.template) -> None:
    """Freeze the records of finished jobs and the settings locked in that were not frozen yet.

    What cannot be worked out here, as its job is not here yet, is left for the next time.
    """
    for job in sorted(not_frozen(book)):
        with suppress(MeasurementError):
            freeze(book, job, today=today, why=why)
    for job, box in sorted(not_locked(book)):
        with suppress(MeasurementError):
            lock_in(book, job, box=box, why=why)


def not_frozen(book: Book) -> set[str]:
    """Return the jobs that were finished and whose record is not frozen yet."""
    ends = [thing.body for thing in book.things(sown.Finished.kind)]
    bodies = [thing.body for thing in book.things(Frozen.kind)]
    frozen = {each.job for each in bodies if isinstance(each, Frozen) and each.setting is None}
    return {each.job for each in ends if isinstance(each, sown.Finished)} - frozen


def not_locked(book: Book) -> set[tuple[str, str]]:
    """Return the jobs and boxes whose setting was locked in and is not frozen yet."""
    bodies = [thing.body for thing in book.things(Frozen.kind)]
    frozen = {each.setting for each in bodies if isinstance(each, Frozen)}
    newest: dict[tuple[str, str], Thing] = {}
    for thing in book.things(work.Chosen.kind):
        if isinstance(thing.body, work.Chosen):
            newest.setdefault((thing.body.job, thing.body.box), thing)
    return {
        of
        for of, thing in newest.items()
        if isinstance(thing.body, work.Chosen) and thing.body.accepted and thing.id not in frozen
    }


def opened(book: Book, version: Version) -> Book:
    """Open the book as it stood when a version was frozen.

    Raises
    ------
    MeasurementError
        Where not all that it rests on is here.
    """
    return as_it_stood(book, version.body.entries, sha256=version.body.sha256)


@contextmanager
def standing(book: Book, job: str, *, today: Month) -> Iterator[tuple[Book, Month]]:
    """Open what a job's record is made of, and its month: as frozen where it is finished."""
    if known := versions(book, job):
        with opened(book, known[-1]) as before:
            yield before, known[-1].month
    else:
        yield book, today


def as_frozen(book: Book, job: str, reader: Reader, *, today: Month) -> Printed:
    """Write the newest version of a job's record; as far as it is where none is frozen."""
    known = versions(book, job)
    if known:
        return frozen_record(book, known[-1], reader)
    return record(book, job, reader, today=today)


def version_of(book: Book, job: str, number: int) -> Version:
    """Return a version by its number.

    Raises
    ------
    MeasurementError
        For one that there is not.
    """
    known = versions(book, job)
    if not 0 < number <= len(known):
        need = say("enter the number of a version: this record has {n}", n=len(known))
        raise MeasurementError("version", number, need)
    return known[number - 1]


def frozen_record(book: Book, version: Version, reader: Reader) -> Printed:
    """Write a version of a record, with what tells it from the others on its first page."""
    with opened(book, version) as before:
        made = record(before, version.body.job, reader, today=version.month)
    pen, known = reader.pen, versions(book, version.body.job)
    facts = [pen.fact(name, value) for name, value in _facts(version, known, pen)]
    return replace(made, facts=(*made.facts, *facts), sha256=version.body.sha256)


def _facts(version: Version, known: tuple[Version, ...], pen: Pen) -> Iterator[Named]:
    number, last = version.number, known[-1]
    yield say("Version"), say("{n} of {all}", n=number, all=len(known))
    if number != last.number:
        newest = say("version {n} of {day}", n=last.number, day=_day(last))
        yield say("Amended since"), say("yes: {newest} is the newest", newest=newest)
    day, by = _day(version), version.thing.entry.by
    yield _when(version), say("{day}, by {who}", day=day, who=by) if by else day
    if version.body.why:
        yield say("Why"), reason(version)
    if version.body.formulas != FORMULAS:
        both = say("{then}; computed here with {now}", then=version.body.formulas, now=FORMULAS)
        yield say("Formulas"), both
    groups = (version.body.sha256[i : i + 16] for i in range(0, 64, 16))
    entries = say("{n} entries, SHA-256 {hash}", n=len(version.body.entries), hash=" ".join(groups))
    yield say("Made of"), entries


def _when(version: Version) -> Phrase:
    if version.number > 1:
        return say("Amended")
    return say("Frozen") if version.body.why == OLD.template else say("Finished")


def reason(version: Version) -> Value:
    """Say why a version was made, in the reader's language where Evenstand itself says it."""
    return OLD if version.body.why == OLD.template else version.body.why


def _day(version: Version) -> date:
    return version.made.date()


def changed_since(book: Book, version: Version) -> tuple[Change, ...]:
    """Return what has changed of what a version rests on, thing by thing and field by field."""
    with opened(book, version) as before:
        then = {each.id: each for each in _told(before, version)}
        now = {each.id: each for each in _told(book, version)}
        every = book.many.things([*then, *now])
        names = {id: _name(each) for id, each in every.items()}
        return tuple(
            change
            for id, thing in every.items()
            for change in _changes(then.get(id), thing, standing=id in now, names=names)
        )


def _told(book: Book, version: Version) -> Iterator[Thing]:
    job, setting = version.body.job, version.body.setting
    if setting is None:
        return told_of(book, find(book, job))
    chosen = book.get(setting).body
    box = chosen.box if isinstance(chosen, work.Chosen) else None
    return _told_of_setting(book, find(book, job, box=box))


def _resting(book: Book, job: str, *, today: Month) -> list[Entry]:
    with things_made() as made:
        record(book, job, _READER, today=today)
        list(told_of(book, find(book, job)))
    frozen = {each.id for each in book.things(Frozen.kind, of=job)}
    return rested_on(book, made - frozen)


def _changes(
    then: Thing | None, now: Thing, *, standing: bool, names: dict[str, str]
) -> Iterator[Change]:
    def change(field: Phrase | None, before: Value, after: Value) -> Change:
        name = names.get(now.id, "")
        return Change(
            kind=now.kind, name=name, entry=now.entry, field=field, before=before, now=after
        )

    if then is None:
        yield change(None, NOTHING, say("added"))
    elif now.removed or not standing:
        yield from () if then.removed else [change(None, say("there"), say("removed"))]
    else:
        before, after = as_json(then.body), as_json(now.body)
        for field in changes(before, after):
            tell = partial(value, now.kind, field, names=lambda id: names.get(id, ""))
            yield change(label(now.kind, field), tell(before), tell(after))


def _name(thing: Thing) -> str:
    return str(getattr(thing.body, "name", "") or getattr(thing.body, "species", ""))
