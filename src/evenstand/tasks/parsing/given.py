"""What a person wrote, by the name of each input, read where it is needed.

Flags, the keys of a file and the fields of a form are the same inputs under
other names: whatever is refused is named as its writer knows it.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import TYPE_CHECKING

from evenstand.engine.parsing.parse import Reading, read
from evenstand.engine.parsing.spelling import USUAL
from evenstand.engine.quantities.errors import MeasurementError, Of, Path
from evenstand.engine.quantities.phrases import Decimal, Phrase, say
from evenstand.engine.quantities.units import NUMBER, SHARE, Kind
from evenstand.engine.statistics.budget import Quantity, nominal

if TYPE_CHECKING:  # its library takes a command that keeps nothing a tenth of a second
    from evenstand.book.kinds.shape import Typed

_APART = re.compile(r"\s*(?:;|\n|,(?=\s)|,(?!\d)|(?<!\d),)\s*")
_BARE = re.compile(r"[\s\d.,;/±+\-–−—⅛¼⅓⅜½⅝⅔¾⅞]+")
_ZERO = re.compile(r"\s*0+(?:\.0*)?\s*")
_YES, _NO = ("yes", "y", "true", "si", "sí"), ("no", "n", "false")


class Written(Path):
    """Where an input stands for the one who wrote it, such as in a form."""

    __slots__ = ()


@dataclass(frozen=True)
class Given:
    """Inputs as they were written, and where their writer finds them.

    Parameters
    ----------
    texts : mapping of str to str
        What was written, by input; what was not written is not in it.
    path : callable
        Where an input stands, written as its writer calls it: ``--rows-caught``
        or ``[target] rate``.
    decimal : str
        The writer's decimal sign.
    """

    texts: Mapping[str, str]
    path: Callable[[str], Path] = Written
    decimal: Decimal = "."

    def __contains__(self, key: str) -> bool:
        return key in self.texts

    def name(self, key: str) -> str:
        """Return what its writer calls an input."""
        return str(self.path(key))

    def refuse(self, key: str, need: Phrase) -> MeasurementError:
        """Return the refusal of an input, as its writer wrote it."""
        return MeasurementError(self.path(key), self.texts.get(key), need)

    def text(self, key: str) -> str:
        """Return an input that must be there."""
        if key not in self.texts:
            raise self.refuse(key, say("this is missing; enter it"))
        if not self.texts[key].strip():
            raise self.refuse(key, say("it is empty: fill it in or remove it"))
        return self.texts[key].strip()

    def reading(self, key: str, kind: Kind, *, test_weight: float | None = None) -> Reading:
        """Read an amount that may carry its limits after ±."""
        text = self.text(key)
        if kind is SHARE and _ZERO.fullmatch(text):
            text = "0%"
        return self.part(text, key, kind, test_weight=test_weight)

    def part(self, text: str, key: str, kind: Kind, *, test_weight: float | None = None) -> Reading:
        """Read one amount of several that stand in an input."""
        field = self.path(key)
        return read(text, kind, field=field, test_weight=test_weight, decimal=self.decimal)

    def piece(self, key: str, text: str) -> "Given":
        """Return what stands in an input, or a part of it, as an input of its own."""
        return replace(self, texts={key: text})

    def quantity(self, key: str, kind: Kind, *, tag: str) -> Quantity:
        """Read an amount above zero, uncertain where limits were written."""
        found = self.reading(key, kind)
        self.check_sign(key, found, kind, zero=False)
        return found.quantity(tag)

    def exact(
        self, key: str, kind: Kind, *, zero: bool = False, test_weight: float | None = None
    ) -> float:
        """Read an amount above zero, or ``zero`` too, that cannot carry limits."""
        return self.plain(key, self.reading(key, kind, test_weight=test_weight), kind, zero=zero)

    def plain(self, key: str, found: "Reading | Typed", kind: Kind, *, zero: bool = False) -> float:
        """Return an amount that was read, above zero or ``zero`` too, and without limits."""
        self.check_sign(key, found, kind, zero=zero)
        if found.give_or_take:
            raise self.refuse(key, say("enter it without ±: it is used as is"))
        return found.value

    def check_sign(self, key: str, found: "Reading | Typed", kind: Kind, *, zero: bool) -> None:
        """Refuse an amount that is not above zero, or below it where it may be ``zero``."""
        if zero and not found.value >= 0:
            raise self.refuse(key, say("enter 0 or more"))
        if not (zero or found.value > 0):
            usual = kind(USUAL.get(kind.name, 10.0) * kind.us.size, 2)
            need = say("enter a value above 0, such as {example}", example=usual)
            raise self.refuse(key, need)

    def share(self, key: str, *, tag: str) -> Quantity:
        """Read a share, from 0 to below 100%."""
        quantity = self.reading(key, SHARE).quantity(tag)
        if not 0 <= nominal(quantity) < 1:
            raise self.refuse(key, say("enter a share from 0% to less than 100%"))
        return quantity

    def ratio(self, key: str, *, tag: str) -> Quantity:
        """Read a ratio above zero, as a plain number or in per cent."""
        kind = SHARE if "%" in self.text(key) else NUMBER
        return self.quantity(key, kind, tag=tag)

    def number(self, key: str) -> float:
        """Read a plain number of any sign, such as a setting."""
        found = self.reading(key, NUMBER)
        if found.give_or_take:
            raise self.refuse(key, say("enter just a number"))
        return found.value

    def count(self, key: str, kind: Kind, *, least: int = 1) -> int:
        """Read a whole number of things."""
        found = self.reading(key, kind)
        if found.give_or_take or found.value != int(found.value) or found.value < least:
            raise self.refuse(key, say("enter a whole number of {least} or more", least=least))
        return int(found.value)

    def yes(self, key: str) -> bool:
        """Read yes or no, no where nothing was written."""
        if key not in self:
            return False
        text = self.text(key).casefold()
        if text not in _YES + _NO:
            raise self.refuse(key, say("answer yes or no"))
        return text in _YES

    def one_of(self, key: str, choices: tuple[str, ...]) -> str:
        """Read one of some words; its beginning is enough where it is clear."""
        text = " ".join(self.text(key).casefold().replace("-", " ").split())
        fitting = [word for word in choices if word.startswith(text)]
        if text in choices or len(fitting) == 1:
            return text if text in choices else fitting[0]
        near = get_close_matches(text, choices, n=1)
        if near:
            raise self.refuse(key, say("did you mean {near}?", near=near[0]))
        raise self.refuse(key, say("choose one of {choices}", choices=", ".join(choices)))

    def pointing(self, **names: str) -> AbstractContextManager[None]:
        """Let what the engine refuses be named as its writer wrote it.

        Parameters
        ----------
        **names : str
            Input by the engine's own path, its parts joined by underscores,
            where the two differ.
        """

        def placed(refused: MeasurementError) -> MeasurementError:
            engine = "_".join(str(part) for part in refused.path if not isinstance(part, Of))
            key = names.get(engine, engine)
            given = self.texts.get(key, refused.given)
            return MeasurementError(self.path(key), given, refused.need)

        return placing(placed)


@contextmanager
def placing(place: Callable[[MeasurementError], MeasurementError]) -> Iterator[None]:
    """Let what is refused inside be named where it stands, unless it is already."""
    try:
        yield
    except MeasurementError as refused:
        if isinstance(refused.path, Written):
            raise
        raise place(refused) from None


def listed(text: str) -> list[str]:
    """Take a list apart, at semicolons or at commas with a space behind them.

    A comma between two digits may be a decimal comma; it separates only where
    the list has decimal points. A unit behind the last amount counts for all.

    Examples
    --------
    >>> listed("22.6 g, 22.4 g"), listed("22,6; 22,4 g"), listed("front,rear")
    (['22.6 g', '22.4 g'], ['22,6 g', '22,4 g'], ['front', 'rear'])
    """
    pieces = [piece for piece in _APART.split(text.strip()) if piece]
    if len(pieces) == 1 and "." in text and "," in text:
        pieces = [piece.strip() for piece in text.split(",") if piece.strip()]
    if len(pieces) > 1 and (unit := re.search(r"\d\s*([^\d\s.,;]+)$", pieces[-1])):
        pieces = [p if re.search(r"[^\d\s.,/]", p) else f"{p} {unit[1]}" for p in pieces]
    return pieces


def is_bare(text: str) -> bool:
    """Whether a text is numbers without a unit, such as ``2 1/2`` or ``20 ± 1``."""
    return _BARE.fullmatch(text) is not None


def unlent(text: str, units: Iterable[str]) -> tuple[str, str]:
    """Take a text apart into its number and its unit, where that is one of some.

    Examples
    --------
    >>> unlent("20 ± 1 lb", ("kg", "lb")), unlent("20 lb", ("kg",))
    (('20 ± 1', 'lb'), ('20 lb', ''))
    """
    for unit in units:
        number = text.removesuffix(unit)
        if number != text and is_bare(number):
            return number.strip(), unit
    return text, ""


def lent(text: str, unit: str) -> str:
    """Give a bare number the unit that was chosen beside it.

    Examples
    --------
    >>> lent("20 ± 1", "lb"), lent("20 kg", "lb"), lent("5", "%"), lent("20", "")
    ('20 ± 1 lb', '20 kg', '5%', '20')
    """
    if not (unit and is_bare(text)):
        return text
    return f"{text}%" if unit == "%" else f"{text} {unit}"
