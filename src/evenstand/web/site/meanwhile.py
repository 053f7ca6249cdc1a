"""The question of a form whose fields somebody else has changed while it was open."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from functools import partial

from evenstand.book.log.editing import Meanwhile
from evenstand.book.log.entries import Entry
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.phrases import Phrase, Value, say
from evenstand.tasks.job.kept import Kept
from evenstand.tasks.parsing.told import label, written
from evenstand.tasks.whole_job.made_at import told_of

from . import here
from .forms import WHOSE, Form


@dataclass(frozen=True)
class Question:
    """What somebody else changed, and the two keys: theirs or yours."""

    name: str
    said: Phrase
    theirs: Phrase
    yours: Phrase


def questions(form: Form) -> Iterator[Question]:
    """Yield a question for each field that both have changed."""
    if form.meanwhile:
        book = here.book()
        thing = book.get(form.thing)
        entries = {each.id: each for each in book.many.entries(m.entry for m in form.meanwhile)}
        for each in form.meanwhile:
            yield _question(thing, each, entries[each.entry])


def _question(thing: Thing, asked: Meanwhile, entry: Entry) -> Question:
    name = WHOSE + asked.field
    known: dict[str, Value] = {"who": who(entry), "at": at(entry)}
    if asked.removed:
        said = say("{who} removed this {at} while you had it open.", **known)
        return Question(name, said, say("Leave it removed"), say("Put it back with my changes"))
    tell = partial(written, thing.kind, asked.field, names=called)
    said = say(
        "{field}: {who} changed {before} to {theirs} {at} while you had this open.",
        field=label(thing.kind, asked.field),
        before=tell(asked.before),
        theirs=tell(asked.theirs),
        **known,
    )
    theirs = say("Use {value} from {who}", value=tell(asked.theirs), who=who(entry))
    return Question(name, said, theirs, say("Use my {value}", value=tell(asked.yours)))


def apart_in(kept: Kept) -> bool:
    """Whether two people changed something apart of what a job is made of."""
    clashing = {thing.id for thing in here.book().clashing()}
    return bool(clashing) and any(each.id in clashing for each in told_of(here.book(), kept))


def who(entry: Entry) -> str:
    """Return who wrote an entry, the device where it has no name."""
    return entry.by or entry.made.device


def at(entry: Entry) -> Phrase:
    """Say when an entry was made, by the clock of where it is read."""
    when = local(entry)
    if when.date() == datetime.now().astimezone().date():
        return say("at {time}", time=f"{when:%H:%M}")
    return say("on {day} at {time}", day=when.date(), time=f"{when:%H:%M}")


def local(entry: Entry) -> datetime:
    """Return when an entry was made, by the clock of where it is read."""
    return datetime.fromtimestamp(entry.made.ms / 1000).astimezone()


def called(id: str) -> str:
    """Return the name of a thing, empty for what is none or has none."""
    things = here.book().many.things([id]).values()
    names = (getattr(each.body, key, "") for each in things for key in ("name", "species"))
    return next((name for name in names if isinstance(name, str) and name), "")
