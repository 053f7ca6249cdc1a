"""Forms: what was typed stays, and each refusal stands at its field."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from flask import request

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, System, say
from evenstand.tasks.parsing.given import Given, is_bare, lent
from evenstand.tasks.parsing.writing import RefusalsError

from . import here

ENTRY = "entry"  # the hidden field that makes a form sent twice be kept once
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


@dataclass(frozen=True)
class Form:
    """Texts by field, and what was refused about them.

    What was typed stays as it was typed; what was ``kept`` is written with the
    reader's own decimal sign.
    """

    texts: Mapping[str, str]
    errors: Mapping[str, Phrase] = field(default_factory=dict)
    kept: bool = False

    @property
    def entry(self) -> str:
        """The id under which this form is kept."""
        return self.texts[ENTRY]

    def text(self, name: str) -> str:
        """Return what stands in a field."""
        return self.texts.get(name, "")

    def figures(self, name: str) -> str:
        """Return what stands in a field of numbers."""
        return here.in_hand(self.text(name)) if self.kept else self.text(name)

    def number(self, name: str, choices: tuple[str, ...]) -> str:
        """Return what stands in a field without the unit that is chosen beside it."""
        return _apart(self.figures(name), choices)[0]

    def unit(self, name: str, choices: tuple[str, ...]) -> str:
        """Return the unit to show as chosen beside a field."""
        found = _apart(self.text(name), choices)[1]
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
        return replace(self, errors={refused.field: refused.need for refused in each})

    def _kept_already(self) -> "Form":
        """An id stands for something else: a form that was saved was changed and sent again."""
        text = say(
            "This was already saved with other values. To change it, correct the "
            "saved entry. To add this as another entry, save again."
        )
        texts = dict(self.texts) | {ENTRY: here.book().new_id()}
        return Form(texts, {ENTRY: text})


def _apart(text: str, choices: tuple[str, ...]) -> tuple[str, str]:
    """Take a text apart into number and unit, where the unit is among the choices."""
    for unit in choices:
        number = text.removesuffix(unit)
        if number != text and is_bare(number):
            return number.strip(), unit
    return text, ""


def blank(texts: Mapping[str, str] | None = None) -> Form:
    """Return a form with a new id, filled in with texts."""
    return Form({ENTRY: here.book().new_id()} | dict(texts or {}), kept=True)


def sent() -> Form:
    """Return the form that was sent."""
    texts = {name: text.replace("\r\n", "\n") for name, text in request.form.items()}
    return Form({ENTRY: here.book().new_id()} | texts)
