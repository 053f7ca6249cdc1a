"""What was written of samples and of rates reached: names with their amounts."""

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager

from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.boxes.sample import Sample, counted, weighed
from evenstand.engine.boxes.split import Split
from evenstand.engine.parsing.spelling import measure
from evenstand.engine.quantities.errors import MeasurementError, Of
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import CATCH, RATE, SEEDS, SHARE
from evenstand.engine.statistics.budget import Quantity, nominal

from ..parsing.given import Given, listed
from ..seed.names import named

OUT = "out"

_NAMED = re.compile(r"(.*?[^\d\s:+−-])\s*:?\s+([+−-]?\s*\d.*)")
_COUNT = re.compile(r"[\d,.\s]+(?:seeds?)?", re.IGNORECASE)


def read_sample(given: Given, split: Split) -> tuple[FilledBox, Sample]:
    """Read a separated sample: ``rye 160, vetch 41, out 50%``, or weights.

    Returns
    -------
    FilledBox, Sample
        The box is the one that has these species.

    Raises
    ------
    MeasurementError
        For names that are not in one box, counts beside weights, or no count.
    """
    pairs = _pairs(given, "sample", say("rye 160, vetch 41"))
    out = 0.0
    found: dict[str, str] = {}
    known = [each.name for filled in split.boxes for each in filled.portions]
    for name, text in pairs:
        if name.casefold() == OUT:
            out = given.part(text, "sample", SHARE).value
            continue
        species = named(given, "sample", name, names=known)
        if species in found:
            raise given.refuse("sample", say("enter {name} only once", name=species))
        found[species] = text
    filled = _box_of(given, split, list(found))
    return filled, _sample(given, filled, found, out=out)


def _sample(given: Given, filled: FilledBox, found: Mapping[str, str], *, out: float) -> Sample:
    by_count = [bool(_COUNT.fullmatch(text)) for text in found.values()]
    with in_sample(given):
        if all(by_count):
            counts = {
                name: given.piece("sample", text).count("sample", SEEDS, least=0)
                for name, text in found.items()
            }
            return counted(counts, out=out)
        if any(by_count):
            raise given.refuse("sample", say("enter all of them as counts, or all as weights"))
        weights = {name: given.part(text, "sample", CATCH).value for name, text in found.items()}
        return weighed(weights, filled.portions, out=out)


@contextmanager
def in_sample(given: Given) -> Iterator[None]:
    """Let what is refused of a sample name its flag, and the species it is about."""
    try:
        yield
    except MeasurementError as refused:
        need = refused.need
        if isinstance(species := refused.path[-1], Of):
            need = say("{species}: {need}", species=species, need=need)
        raise given.refuse("sample", need) from None


def _box_of(given: Given, split: Split, names: Sequence[str]) -> FilledBox:
    if not names:
        need = say("enter each species with its count, such as {example}", example="rye 160")
        raise given.refuse("sample", need)
    boxes = {split.box_of(name) for name in names}
    if len(boxes) > 1:
        text = "separate each box on its own: {names} are not in the same box"
        raise given.refuse("sample", say(text, names=", ".join(names)))
    return next(filled for filled in split.boxes if filled.box.name in boxes)


def read_achieved(given: Given, split: Split) -> Mapping[str, Quantity]:
    """Read the rates that boxes reach: ``grain 58 lb/ac, small seed +3%``.

    A box that is not named is at its rate.

    Returns
    -------
    mapping of str to Quantity [kg/m²]
    """
    used = {filled.box.name: filled for filled in split.boxes if filled.portions}
    rates: dict[str, Quantity] = {name: filled.rate for name, filled in used.items()}
    for name, text in _pairs(given, "achieved", say("grain 58 lb/ac, small seed +3%")):
        box = named(given, "achieved", name, names=list(used))
        rates[box] = _rate(given.piece("achieved", text), box, wanted=used[box].rate)
    return rates


def _rate(given: Given, box: str, *, wanted: float) -> Quantity:
    text = given.text("achieved")
    off = measure(text.lstrip("+−- 0123456789.,").strip())
    if off is not None and off.dimension == "share":
        share = given.reading("achieved", SHARE).value
        rate: Quantity = wanted * (1 + share)
    else:
        rate = given.reading("achieved", RATE).quantity(f"rate of {box}")
    if not nominal(rate) > 0:
        raise given.refuse("achieved", say("enter a rate above 0"))
    return rate


def _pairs(given: Given, key: str, example: Phrase) -> list[tuple[str, str]]:
    pairs = []
    for text in listed(given.text(key)):
        parts = _NAMED.fullmatch(text)
        if parts is None:
            raise given.refuse(key, say("enter names with amounts, such as {x}", x=example))
        pairs.append((parts[1].strip(), parts[2].replace("−", "-").replace("+ ", "+")))
    return pairs
