"""A mix as it is typed: into what is kept, and back into the fields of its form."""

import re
from collections.abc import Iterable, Sequence
from typing import Literal, TypeVar, get_args

from msgspec.structs import replace

from evenstand.book.book import Book
from evenstand.book.kinds.details import BASES, detail
from evenstand.book.kinds.seed import BagSize, Lot, Member, Mix
from evenstand.book.kinds.shape import Typed
from evenstand.engine.mix.advice import DENSITIES
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

from ..job.kept import named
from ..parsing.given import Given, lent, unlent
from ..parsing.structs import amount, keys, read, texts
from ..parsing.writing import Writing, as_typed
from ..seed.bags import MOST_BAGS, bag_texts, bags_typed

MOST_LINES = 40
OF_CARRIER = ("test_weight", "price", "on_hand")  # seed has its own with its lot
RATED = ("basis", "rate", "full_basis", "full")
NAMED, CARRIER = "named", "carrier"  # what a line can be besides a lot
GROUPS, SEASONS = (
    tuple(filter(None, get_args(detail(Member, name).type))) for name in ("group", "season")
)
STANDS = tuple(dict.fromkeys(density.stand for density in DENSITIES))

_LINE = re.compile(r"line(\d{1,3})_(?!\w+_(?:basis|unit)$)\w+")
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
    lines = lines_of(given)
    with Writing(given) as form:
        if not lines:
            form.refuse(given.refuse("line1_seed", say("choose the first seed of the mix")))
        whole_basis, whole = _rated(form, "whole", otherwise="of full rate")
        return read(
            form,
            Mix,
            members=lambda: tuple(_member(form, book, f"line{number}_") for number in lines),
            whole=whole,
            whole_basis=whole_basis if whole else "of full rate",
            stand=lambda: _one_of(form, "stand", STANDS),
        )


def _member(form: Writing, book: Book, line: str) -> Member:
    """Read a line: a lot of the shelf, a species by its name, or a carrier."""
    chosen, typed = form.text(f"{line}seed"), form.text(f"{line}name")
    if chosen == CARRIER:
        return _carrier(form, line)
    _refuse_carriers(form, line)
    lot_id = chosen if chosen not in ("", NAMED) else None
    lot = named(book, lot_id, Lot)
    if lot_id and lot is None:
        need = say("choose one from the list: this lot is no longer listed")
        form.refuse(form.given.refuse(f"{line}seed", need))
    if not lot_id and not typed:
        need = say("choose its seed; to delete the line, clear everything in it")
        form.refuse(form.given.refuse(f"{line}name" if chosen == NAMED else f"{line}seed", need))
    weight = lot.test_weight.value if lot and lot.test_weight else None
    basis, rate = _rated(form, f"{line}rate", otherwise="bulk", test_weight=weight)
    full_basis, full = _rated(form, f"{line}full", otherwise="pls", test_weight=weight)
    return read(
        form,
        Member,
        line=line,
        name=lot.species if lot else typed or "?",
        lot=lot_id if lot else None,
        basis=basis,
        rate=rate,
        full=full,
        full_basis=full_basis if full else "pls",
        carrier=False,
        **dict.fromkeys(OF_CARRIER),
    )


def _refuse_carriers(form: Writing, line: str) -> None:
    """Refuse what only a carrier has on a line of seed."""
    own = (
        *OF_CARRIER,
        *(f"bag{i}_{key}" for i in range(1, MOST_BAGS + 1) for key in keys(BagSize)),
    )
    need = say("leave it blank: only a carrier has it here; seed has its own with its lot")
    for key in own:
        if line + key in form.given:
            form.refuse(form.given.refuse(line + key, need))


def _carrier(form: Writing, line: str) -> Member:
    own = {key: amount(form, line + key, detail(Member, key)) for key in OF_CARRIER}
    weight = own["test_weight"]
    given = weight.value if weight else None
    basis, rate = _rated(form, f"{line}rate", otherwise="bulk", test_weight=given)
    if basis != "bulk":
        need = say("enter the carrier's bulk weight: it has no live seed")
        form.refuse(form.given.refuse(f"{line}rate", need))
    bags = tuple(bags_typed(form, line))
    carrier = Member(name=form.name(f"{line}name"), carrier=True, basis="bulk", rate=rate)
    return replace(carrier, bags=bags, **own)


def _rated(
    form: Writing, key: str, *, otherwise: str, test_weight: float | None = None
) -> tuple[str, Typed | None]:
    """Read an amount with the basis and the unit that were chosen beside it."""
    basis, _, unit = form.text(f"{key}_basis").partition("|")
    basis = basis if basis in BASES or basis == "rest" else otherwise
    if key not in form.given:
        return basis, None
    if basis == "rest":
        need = say("leave it blank: this line makes up the rest of the mix")
        form.refuse(form.given.refuse(key, need))
        return basis, None
    given = form.given.piece(key, lent(form.text(key), unit))

    def read() -> Typed:
        found = given.reading(key, BASES[basis], test_weight=test_weight)
        if not found.value > 0:
            raise given.refuse(key, say("enter a value above 0"))
        return as_typed(found)

    return basis, form.attempt(read, otherwise=None)


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
    written = texts(mix, but=("whole", "whole_basis"))
    written |= _rated_texts("whole", mix.whole_basis, mix.whole, units=offered)
    for number, member in enumerate(mix.members, 1):
        written |= _member_texts(member, f"line{number}_", offered)
    return written


def _member_texts(member: Member, line: str, units: tuple[str, ...]) -> dict[str, str]:
    seed = CARRIER if member.carrier else member.lot or NAMED
    written = texts(member, line=line, but=("lot", "carrier", *RATED))
    written |= bag_texts(member.bags, line)
    written |= {f"{line}seed": seed, f"{line}name": "" if member.lot else member.name}
    written |= _rated_texts(f"{line}rate", member.basis, member.rate, units=units)
    return written | _rated_texts(f"{line}full", member.full_basis, member.full, units=units)


def _rated_texts(
    key: str, basis: str, kept: Typed | None, *, units: tuple[str, ...]
) -> dict[str, str]:
    """Take an amount apart into its number and the unit chosen beside it."""
    number, unit = unlent(kept.text if kept else "", units)
    return {key: number, f"{key}_basis": f"{basis}|{unit}"}


_WHERE = {
    **dict.fromkeys(("share", "seeds", "pls", "bulk", "rest"), "rate"),
    **dict.fromkeys(("full_rate", "full_seeds", "full_basis"), "full"),
    **dict.fromkeys(("lot", "species", "purity", "germination", "own_name"), "seed"),
    "important": "may_fail",
    "bags": "bag1_weight",
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
