"""From what was typed to what is kept: amounts with their text, every refusal told at once."""

from collections.abc import Callable, Iterable
from typing import Self, TypeVar

from evenstand.book.kinds.shape import MOST_NAME, MOST_TEXT, Typed
from evenstand.engine.parsing.parse import Reading
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import Kind

from .given import Given

Read = TypeVar("Read")


class RefusalsError(MeasurementError):
    """Several inputs were refused; it shows the first as its own."""

    def __init__(self, refused: Iterable[MeasurementError]) -> None:
        self.each = tuple(refused)
        super().__init__(self.each[0].path, self.each[0].given, self.each[0].need)


class Writing:
    """Reads inputs one by one and gathers what was refused; a ``with`` ends by telling it.

    Parameters
    ----------
    given : Given
        Inputs as they were written; those left empty are not in it.
    """

    def __init__(self, given: Given) -> None:
        self.given = given
        self._refused: list[MeasurementError] = []

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: object, error: object, trace: object) -> None:
        if error is None:
            self.done()

    def attempt(self, read: Callable[[], Read], *, otherwise: Read) -> Read:
        """Read something; where it is refused, remember why and go on with ``otherwise``."""
        try:
            return read()
        except MeasurementError as refused:
            self.refuse(refused)
            return otherwise

    def refuse(self, refused: MeasurementError) -> None:
        """Remember a refusal; only the first about an input is told."""
        if all(refused.path != earlier.path for earlier in self._refused):
            self._refused.append(refused)

    def done(self) -> None:
        """Raise RefusalsError if anything was refused."""
        if self._refused:
            raise RefusalsError(self._refused)

    def text(self, key: str, *, most: int = MOST_TEXT) -> str:
        """Read a text that may be left empty."""
        return self._at_most(key, self.given.texts.get(key, "").strip(), most=most)

    def name(self, key: str) -> str:
        """Read a text that must be there."""
        name = self.attempt(lambda: self.given.text(key), otherwise="?")
        return self._at_most(key, name, most=MOST_NAME)

    def _at_most(self, key: str, text: str, *, most: int) -> str:
        if len(text) > most:
            self.refuse(self.given.refuse(key, say("use no more than {n} characters", n=most)))
        return text[:most]

    def amount(
        self,
        key: str,
        kind: Kind,
        *,
        zero: bool = False,
        exact: bool = False,
        of: int = 1,
        test_weight: float | None = None,
    ) -> Typed | None:
        """Read an amount above zero, None where it was left empty.

        Parameters
        ----------
        key : str
        kind : Kind
        zero : bool
            Whether it may be 0 too.
        exact : bool
            Whether ± is refused.
        of : int
            Things that the amount is kept of, where the kind is of one.
        test_weight : float, optional
            [kg/m³]
        """
        if key not in self.given:
            return None

        def read() -> Typed:
            found = self.given.reading(key, kind, test_weight=test_weight)
            if exact:
                self.given.plain(key, found, kind, zero=zero)
            self.given.check_sign(key, found, kind, zero=zero)
            return as_typed(found, of=of)

        return self.attempt(read, otherwise=None)

    def zero_or_more(self, key: str, kind: Kind) -> Typed | None:
        """Read an amount of zero or more, None where it was left empty."""
        return self.amount(key, kind, zero=True)

    def needed(self, key: str, kind: Kind, *, test_weight: float | None = None) -> Typed:
        """Read an amount above zero that must be there."""
        self.attempt(lambda: self.given.text(key), otherwise="")
        return self.amount(key, kind, test_weight=test_weight) or Typed(value=1.0)

    def number(self, key: str, *, otherwise: float) -> float:
        """Read a plain number, ``otherwise`` where it was left empty."""
        if key not in self.given:
            return otherwise
        return self.attempt(lambda: self.given.number(key), otherwise=otherwise)

    def count(self, key: str, kind: Kind, *, otherwise: int, least: int = 0) -> int:
        """Read a whole number of things, ``otherwise`` where it was left empty."""
        if key not in self.given:
            return otherwise
        return self.attempt(lambda: self.given.count(key, kind, least=least), otherwise=otherwise)


def as_typed(found: Reading, *, of: int = 1) -> Typed:
    """Keep an amount as it was typed, with what it is in SI."""
    return Typed(
        value=of * found.value, give_or_take=of * found.give_or_take, text=found.text.strip()
    )
