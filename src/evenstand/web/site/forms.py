"""Forms: what was typed stays, and each refusal stands at its field."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from flask import request

from evenstand.book.log.edit import Answered
from evenstand.book.log.editing import NOBODY_ASKED, Meanwhile, MeanwhileError
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, System, say
from evenstand.tasks.parsing.given import Given, lent, unlent
from evenstand.tasks.parsing.writing import RefusalsError

from . import here

ENTRY = "entry"  # the hidden field that makes a form sent twice be kept once
BASE = "base"  # the hidden field with the newest entries that its writer has seen
ASKED = "asked"  # the hidden field with those that its writer was asked about
HIDDEN = (ENTRY, BASE, ASKED)
WHOSE = "whose:"  # before a field that somebody else has changed: the key that was chosen
THEIRS, YOURS = "theirs", "yours"
CONFLICT, UNUSABLE = 409, 422
UNIT = "_unit"  # behind the name of a field: the unit chosen beside it

# Units offered beside a field, by what it measures: those of the reader's system come first.
UNITS: dict[str, dict[System, tuple[str, ...]]] = {
    "spacing": {"us": ("in", "ft"), "metric": ("cm", "mm")},
    "travel": {"us": ("in", "ft"), "metric": ("m", "cm")},
    "length": {"us": ("ft", "yd"), "metric": ("m",)},
    "area": {"us": ("ac",), "metric": ("ha", "m²")},
    "rate": {"us": ("lb/ac", "bu/ac", "oz/ac"), "metric": ("kg/ha",)},
    "catch": {"us": ("oz", "lb"), "metric": ("g", "kg")},
    "step": {"us": ("oz", "lb"), "metric": ("g", "kg")},
    "share": {"us": ("%",), "metric": ("%",)},
    "speed": {"us": ("mph",), "metric": ("km/h",)},
    "volume": {"us": ("bu", "ft³", "gal"), "metric": ("L",)},
    "test weight": {"us": ("lb/bu",), "metric": ("kg/hL",)},
    "seed count": {"us": ("seeds/lb",), "metric": ("seeds/kg",)},
    "seed weight": {"us": ("g per 1,000",), "metric": ("g per 1,000",)},
    "pail": {"us": ("gal", "bu"), "metric": ("L",)},
    "minutes": {"us": ("min", "h"), "metric": ("min", "h")},
    "hours": {"us": ("h",), "metric": ("h",)},
    "load": {"us": ("lb", "oz"), "metric": ("kg", "g")},
    "plants": {"us": ("plants/ft²",), "metric": ("plants/m²",)},
    "density": {"us": ("seeds/ft²",), "metric": ("seeds/m²",)},
    "ground": {"us": ("ft²",), "metric": ("m²",)},
    "money": {"us": ("$",), "metric": ("$",)},
    "price": {"us": ("$/lb",), "metric": ("$/kg",)},
}


def units(measure: str) -> tuple[str, ...]:
    """Return the units to choose from, the reader's own first."""
    known = UNITS[measure]
    mine = here.style().system
    other: System = "metric" if mine == "us" else "us"
    return tuple(dict.fromkeys(known[mine] + known[other]))


class TwinError(MeasurementError):
    """Another thing of the kind has the same names already."""

    def __init__(self, twin: Thing) -> None:
        super().__init__("name", twin.id, say("Not saved yet."))
        self.twin = twin


@dataclass(frozen=True)
class Form:
    """Texts by field, and what was refused about them.

    What was typed stays as it was typed; what was ``kept`` is written with the
    reader's own decimal sign. ``meanwhile`` is
    what somebody else has changed of ``thing`` since it was opened, ``twin``
    what has the same names already.
    """

    texts: Mapping[str, str]
    errors: Mapping[str, Phrase] = field(default_factory=dict)
    kept: bool = False
    meanwhile: tuple[Meanwhile, ...] = ()
    thing: str = ""
    twin: Thing | None = None

    @property
    def entry(self) -> str:
        """The id under which this form is kept."""
        return self.texts[ENTRY]

    def under(self, name: str) -> "Form":
        """Return the form of what is kept beside it, under the id in another field."""
        return Form({ENTRY: self.texts[name]})

    @property
    def base(self) -> tuple[str, ...] | None:
        """The newest entries that its writer has seen, none where there was nothing yet."""
        return tuple(self.texts[BASE].split()) if BASE in self.texts else None

    @property
    def answered(self) -> Answered:
        """What its writer answered about changes of others."""
        if ASKED not in self.texts:
            return NOBODY_ASKED
        heads = tuple(self.texts[ASKED].split())
        return Answered(heads=heads, theirs=self._chosen(THEIRS), yours=self._chosen(YOURS))

    def _chosen(self, whose: str) -> tuple[str, ...]:
        names = (name for name, text in self.texts.items() if text == whose)
        return tuple(name.removeprefix(WHOSE) for name in names if name.startswith(WHOSE))

    @property
    def hidden(self) -> dict[str, str]:
        """What goes along with the fields that are shown."""
        return {name: self.texts[name] for name in HIDDEN if name in self.texts}

    @property
    def rest(self) -> dict[str, str]:
        """What was sent beside that and beside the answers, for a page without its fields."""
        texts = self.texts.items()
        return {name: t for name, t in texts if not (name in HIDDEN or name.startswith(WHOSE))}

    def text(self, name: str) -> str:
        """Return what stands in a field."""
        return self.texts.get(name, "")

    def last(self, name: str, most: int) -> int:
        """Return the last of some lines that has an input, ``gear{}_name``; 0 where none has."""
        return max((i for i in range(1, most + 1) if self.text(name.format(i))), default=0)

    def figures(self, name: str) -> str:
        """Return what stands in a field of numbers."""
        return here.in_hand(self.text(name)) if self.kept else self.text(name)

    def number(self, name: str, choices: tuple[str, ...]) -> str:
        """Return what stands in a field without the unit that is chosen beside it."""
        return unlent(self.figures(name), choices)[0]

    def unit(self, name: str, choices: tuple[str, ...]) -> str:
        """Return the unit to show as chosen beside a field."""
        found = unlent(self.text(name), choices)[1]
        return found or self.text(name + UNIT) or choices[0]

    @property
    def given(self) -> Given:
        """Inputs as the tasks read them: a bare number takes the unit chosen beside it."""
        texts = {}
        for name, text in self.texts.items():
            unit = self.texts.get(name + UNIT, "")
            if text.strip() and not name.endswith(UNIT):
                texts[name] = lent(text, unit)
        return Given(texts, decimal=here.style().decimal)

    def refused(self, error: MeasurementError) -> "Form":
        """Return the form with what was refused about it."""
        each = error.each if isinstance(error, RefusalsError) else (error,)
        if error.field == ENTRY:
            return self._kept_already()
        if isinstance(error, MeanwhileError):
            return self._asking(error)
        if isinstance(error, TwinError):
            return replace(self, twin=error.twin)
        return replace(self, errors={refused.field: refused.need for refused in each})

    def _asking(self, error: MeanwhileError) -> "Form":
        """Ask about what somebody else changed, as it is now; what was decided before stays."""
        now = here.book().get(error.thing)
        texts = dict(self.texts) | {ASKED: " ".join(now.heads)}
        return replace(self, texts=texts, meanwhile=error.fields, thing=now.id)

    @property
    def code(self) -> int:
        """Status of a page that shows what was refused."""
        return CONFLICT if self.meanwhile or self.twin else UNUSABLE

    def _kept_already(self) -> "Form":
        """An id stands for something else: a form that was saved was changed and sent again."""
        text = say(
            "This was already saved with other values. To change it, correct the "
            "saved entry. To add this as another entry, save again."
        )
        texts = dict(self.texts) | {ENTRY: here.book().new_id()}
        return Form(texts, {ENTRY: text})


def blank(texts: Mapping[str, str] | None = None) -> Form:
    """Return a form of something new, with an id, filled in with texts."""
    return Form({ENTRY: here.book().new_id()} | dict(texts or {}), kept=True)


def opened(of: Thing | None, texts: Mapping[str, str] | None = None) -> Form:
    """Return a form that changes a thing as it is now, or one that is not there yet."""
    return blank({BASE: " ".join(of.heads) if of else ""} | dict(texts or {}))


def asked() -> Form:
    """Return the form that stands in the address."""
    return Form({ENTRY: here.book().new_id()} | request.args.to_dict())


def sent() -> Form:
    """Return the form that was sent."""
    texts = {name: text.replace("\r\n", "\n") for name, text in request.form.items()}
    return Form({ENTRY: here.book().new_id()} | texts)
