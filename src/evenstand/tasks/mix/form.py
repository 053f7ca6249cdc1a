"""A mix as it is typed: into what is kept, and back into the fields of its form."""

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Literal, TypeVar, cast

from evenstand.book.book import Book
from evenstand.book.seed import Lot, Member, Mix, Range
from evenstand.book.shape import Typed
from evenstand.engine.mix.advice import DENSITIES
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import (
    DENSITY,
    NUMBER,
    PRICE,
    RATE,
    SHARE,
    SPACING,
    TEST_WEIGHT,
    Kind,
)

from ..job.kept import named
from ..parsing.given import Given, listed
from ..parsing.writing import Writing, as_typed
from .members import GROUPS, SEASONS

MOST_LINES = 40
NAMED, CARRIER = "named", "carrier"  # what a line can be besides a lot
STANDS = tuple(dict.fromkeys(density.stand for density in DENSITIES))

Basis = Literal["of full rate", "live seeds", "pls", "bulk", "rest"]
OfRate = Literal["of full rate", "live seeds", "pls", "bulk"]
Full = Literal["live seeds", "pls", "bulk"]
MEASURES: Mapping[str, Kind] = {
    "of full rate": SHARE,
    "live seeds": DENSITY,
    "pls": RATE,
    "bulk": RATE,
}

_LINE = re.compile(r"line(\d{1,3})_(?!\w+_(?:basis|unit)$)\w+")
_BARE = re.compile(r"[\s\d.,/±+\-⅛¼⅓⅜½⅝⅔¾⅞]+")
Word = TypeVar("Word", bound=str)


def lines_of(given: Given) -> tuple[int, ...]:
    """Return the numbers of the lines that have something in them, in their order."""
    found = {int(line[1]) for key in given.texts if (line := _LINE.fullmatch(key))}
    return tuple(sorted(number for number in found if 1 <= number <= MOST_LINES))


def read_mix_form(given: Given, book: Book) -> Mix:
    """Read a mix from the fields of its form.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    form, lines = Writing(given), lines_of(given)
    if not lines:
        form.refuse(given.refuse("line1_seed", say("choose the first seed of the mix")))
    whole_basis, whole = _rated(form, "whole", otherwise="of full rate")
    mix = Mix(
        name=form.name("name"),
        members=tuple(_member(form, book, f"line{number}_") for number in lines),
        whole=whole,
        whole_basis=cast(OfRate, whole_basis if whole else "of full rate"),
        uplift=form.zero_or_more("uplift", SHARE),
        stand=_one_of(form, "stand", STANDS),
        note=form.text("note"),
    )
    form.done()
    return mix


def _member(form: Writing, book: Book, line: str) -> Member:
    """Read a line: a lot of the shelf, a species by its name, or a carrier."""
    chosen, typed = form.text(f"{line}seed"), form.text(f"{line}name")
    if chosen == CARRIER:
        return _carrier(form, line)
    lot_id = chosen if chosen not in ("", NAMED) else None
    lot = named(book, lot_id, Lot)
    if lot_id and lot is None:
        need = say("choose one from the list: this lot is no longer on the shelf")
        form.refuse(form.given.refuse(f"{line}seed", need))
    if not lot_id and not typed:
        need = say("choose its seed; to take the line out, empty all of it")
        form.refuse(form.given.refuse(f"{line}name" if chosen == NAMED else f"{line}seed", need))
    weight = lot.test_weight.value if lot and lot.test_weight else None
    basis, rate = _rated(form, f"{line}rate", otherwise="bulk", test_weight=weight)
    full_basis, full = _rated(form, f"{line}full", otherwise="pls", test_weight=weight)
    return Member(
        name=lot.species if lot else typed or "?",
        lot=lot_id if lot else None,
        basis=cast(Basis, basis),
        rate=rate,
        full=full,
        full_basis=cast(Full, full_basis if full else "pls"),
        in_mix=_range(form, f"{line}in_mix", RATE),
        depth=_range(form, f"{line}depth", SPACING),
        group=_one_of(form, f"{line}group", GROUPS),
        season=_one_of(form, f"{line}season", SEASONS),
        important=form.text(f"{line}may_fail") != "yes",
        cn=form.amount(f"{line}cn", NUMBER),
        biomass=form.amount(f"{line}biomass", RATE),
    )


def _carrier(form: Writing, line: str) -> Member:
    weight = form.amount(f"{line}test_weight", TEST_WEIGHT)
    given = weight.value if weight else None
    basis, rate = _rated(form, f"{line}rate", otherwise="bulk", test_weight=given)
    if basis != "bulk":
        need = say("give the bulk weight of a carrier: it has no live seed")
        form.refuse(form.given.refuse(f"{line}rate", need))
    return Member(
        name=form.name(f"{line}name"),
        carrier=True,
        basis="bulk",
        rate=rate,
        price=form.zero_or_more(f"{line}price", PRICE),
        test_weight=weight,
    )


def _rated(
    form: Writing, key: str, *, otherwise: str, test_weight: float | None = None
) -> tuple[str, Typed | None]:
    """Read an amount with the basis and the unit that were chosen beside it."""
    basis, _, unit = form.text(f"{key}_basis").partition("|")
    basis = basis if basis in MEASURES or basis == "rest" else otherwise
    if key not in form.given:
        return basis, None
    if basis == "rest":
        need = say("leave it empty: this line fills up what the others leave")
        form.refuse(form.given.refuse(key, need))
        return basis, None
    text = form.text(key)
    given = form.given.piece(key, f"{text} {unit}" if unit and _BARE.fullmatch(text) else text)

    def read() -> Typed:
        found = given.reading(key, MEASURES[basis], test_weight=test_weight)
        if not found.value > 0:
            raise given.refuse(key, say("give a value above 0"))
        return as_typed(found)

    return basis, form.attempt(read, otherwise=None)


def _range(form: Writing, key: str, kind: Kind) -> Range | None:
    """Read a range: two amounts, the lower first, or one that is both."""
    if key not in form.given:
        return None

    def read() -> Range:
        texts = listed(form.text(key).replace("–", ";").replace(" to ", ";"))
        if not 1 <= len(texts) <= 2:
            raise form.given.refuse(key, say("give two amounts, the lower first"))
        low, high = (_end(form, key, text, kind=kind) for text in (texts * 2)[:2])
        if low.value > high.value:
            raise form.given.refuse(key, say("give two amounts, the lower first"))
        return Range(low=low, high=high)

    return form.attempt(read, otherwise=None)


def _end(form: Writing, key: str, text: str, *, kind: Kind) -> Typed:
    found = form.given.piece(key, text).reading(key, kind)
    if not found.value >= 0:
        raise form.given.refuse(key, say("give 0 or more"))
    return as_typed(found)


def _one_of(form: Writing, key: str, words: Sequence[Word]) -> Word | Literal[""]:
    """Read a word that was chosen from a list; one that is not in it counts as not chosen."""
    text = form.text(key)
    return next((word for word in words if word == text), "")


def mix_texts(mix: Mix, units: Iterable[str]) -> dict[str, str]:
    """Return the fields of the form as they were filled in.

    Parameters
    ----------
    units : iterable of str
        Units that the form offers beside an amount.
    """
    offered = tuple(units)
    texts = {"name": mix.name, "stand": mix.stand, "note": mix.note}
    texts |= {"uplift": mix.uplift.text} if mix.uplift else {}
    texts |= _rated_texts("whole", mix.whole_basis, mix.whole, units=offered)
    for number, member in enumerate(mix.members, 1):
        texts |= _member_texts(member, f"line{number}_", offered)
    return texts


def _member_texts(member: Member, line: str, units: tuple[str, ...]) -> dict[str, str]:
    seed = CARRIER if member.carrier else member.lot or NAMED
    texts = {f"{line}seed": seed, f"{line}name": "" if member.lot else member.name}
    texts |= _rated_texts(f"{line}rate", member.basis, member.rate, units=units)
    texts |= _rated_texts(f"{line}full", member.full_basis, member.full, units=units)
    texts |= {f"{line}group": member.group, f"{line}season": member.season}
    texts |= {} if member.important else {f"{line}may_fail": "yes"}
    for key in ("cn", "biomass", "price", "test_weight"):
        kept: Typed | None = getattr(member, key)
        texts |= {f"{line}{key}": kept.text} if kept else {}
    for key in ("in_mix", "depth"):
        ends: Range | None = getattr(member, key)
        texts |= {f"{line}{key}": f"{ends.low.text}; {ends.high.text}"} if ends else {}
    return texts


def _rated_texts(
    key: str, basis: str, kept: Typed | None, *, units: tuple[str, ...]
) -> dict[str, str]:
    """Take an amount apart into its number and the unit chosen beside it."""
    text = kept.text if kept else ""
    for unit in units:
        number = text.removesuffix(unit)
        if number != text and _BARE.fullmatch(number):
            return {key: number.strip(), f"{key}_basis": f"{basis}|{unit}"}
    return {key: text, f"{key}_basis": f"{basis}|"}


_WHERE = {
    **dict.fromkeys(("share", "seeds", "pls", "bulk", "rest"), "rate"),
    **dict.fromkeys(("full_rate", "full_seeds", "full_basis"), "full"),
    **dict.fromkeys(("lot", "species", "purity", "germination", "own_name"), "seed"),
    "important": "may_fail",
}


def form_field(refused: MeasurementError, lines: Sequence[int]) -> str | None:
    """Return the field of the form that holds what was refused of a mix; None where none does.

    Parameters
    ----------
    refused : MeasurementError
        Named as in a job file, ``[[mix]] 2 share``.
    lines : sequence of int
        The line of the form that each member stands in.
    """
    match refused.path:
        case ("mix", int(number), *inside):
            key = str(inside[0]) if inside else "seed"
            return f"line{lines[number - 1]}_{_WHERE.get(key, key)}"
        case ("mix_whole", str(key)):
            return key if key in ("uplift", "stand") else "whole"
        case _:
            return None
