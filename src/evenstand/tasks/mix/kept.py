"""A kept mix with its lots, as a job file would write them."""

from collections import Counter
from collections.abc import Mapping
from typing import Any

from evenstand.book.book import Book
from evenstand.book.errors import BookError
from evenstand.book.kinds import seed, work
from evenstand.book.kinds.shape import Typed
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.units import (
    DENSITY,
    FIELD,
    NUMBER,
    PRICE,
    RATE,
    SHARE,
    SPACING,
    TEST_WEIGHT,
    Kind,
)

from ..job.kept import Kept, named
from ..parsing.written import as_written
from ..seed.kept import lot_tables

KEYS = {
    "of full rate": "share",
    "live seeds": "seeds",
    "pls": "pls",
    "bulk": "bulk",
    "rest": "rest",
}
KINDS: Mapping[str, Kind] = {
    "share": SHARE,
    "seeds": DENSITY,
    "pls": RATE,
    "bulk": RATE,
    "full_seeds": DENSITY,
    "full_rate": RATE,
    "in_mix": RATE,
    "depth": SPACING,
    "cn": NUMBER,
    "biomass": RATE,
    "price": PRICE,
    "test_weight": TEST_WEIGHT,
    "uplift": SHARE,
    "area": FIELD,
}


def mix_tables(book: Book, kept: Kept) -> dict[str, Any]:
    """Return a job's field, lots and mix as its job file would have them.

    Parameters
    ----------
    kept : Kept
        A job; without a mix its tables are empty.
    """
    body = named(book, kept.body.mix, seed.Mix)
    return {"field": field_table(kept), **(tables_of(book, body) if body else {})}


def field_table(kept: Kept) -> dict[str, Any]:
    """Return the ``[field]`` of a job."""
    field = kept.field or work.Field(name=kept.body.name)
    table = {"name": field.name, "state": field.state} | _amounts(area=field.area)
    return {key: text for key, text in table.items() if text}


def tables_of(book: Book, mix: seed.Mix) -> dict[str, Any]:
    """Return ``[[lots]]``, ``[[mix]]`` and ``[mix_whole]`` of a mix.

    A lot stands once, under a name of its own. A member whose lot is not in
    the book stands by its name alone.
    """
    lots = _lots(book, mix)
    return {
        "lots": list(lots.values()),
        "mix": [_member(each, lots.get(each.lot or "")) for each in mix.members],
        "mix_whole": _whole(mix),
    }


def lots_of(book: Book, mix: seed.Mix) -> list[Thing]:
    """Return the lots of a mix in the order of their tables, each once."""
    ids = dict.fromkeys(each.lot for each in mix.members if each.lot)
    return [thing for id in ids if (thing := _lot(book, id))]


def _lots(book: Book, mix: seed.Mix) -> dict[str, dict[str, Any]]:
    """Return the tables of the lots of a mix by their ids.

    A lot without a name gets one only beside another of its species.
    """
    things = lots_of(book, mix)
    tables = lot_tables(book, things)
    of_species = Counter(table["species"] for table in tables)
    for thing, table in zip(things, tables, strict=True):
        if not getattr(thing.body, "name", "") and of_species[table["species"]] == 1:
            del table["name"]
    return {thing.id: table for thing, table in zip(things, tables, strict=True)}


def _lot(book: Book, id: str) -> Thing | None:
    try:
        thing = book.get(id)
    except BookError:
        return None
    return thing if isinstance(thing.body, seed.Lot) else None


def _member(member: seed.Member, lot: Mapping[str, Any] | None) -> dict[str, Any]:
    if member.carrier:
        of: dict[str, Any] = {"carrier": True, "name": member.name}
    else:
        of = _seed(member, lot)
    rest = {"rest": True} if member.basis == "rest" else {}
    known: dict[str, str] = {"group": member.group, "season": member.season}
    known |= {"important": "" if member.important else "no"}
    amounts = _amounts(**{KEYS[member.basis]: member.rate}) if not rest else {}
    return (
        of
        | rest
        | amounts
        | _full(member)
        | {key: word for key, word in known.items() if word}
        | _ranges(in_mix=member.in_mix, depth=member.depth)
        | _amounts(
            cn=member.cn,
            biomass=member.biomass,
            price=member.price,
            test_weight=member.test_weight,
        )
    )


def _seed(member: seed.Member, lot: Mapping[str, Any] | None) -> dict[str, Any]:
    if lot is None:
        return {"species": member.name}
    names = ("lot", "name") if lot.get("name") else ("species", "species")
    own = {"own_name": lot["own_name"]} if "own_name" in lot and names[0] == "species" else {}
    return {names[0]: lot[names[1]]} | own


def _full(member: seed.Member) -> dict[str, Any]:
    if member.full is None:
        return {}
    if member.full_basis == "live seeds":
        return _amounts(full_seeds=member.full)
    return _amounts(full_rate=member.full) | {"full_basis": member.full_basis}


def _whole(mix: seed.Mix) -> dict[str, Any]:
    whole = _amounts(**{KEYS[mix.whole_basis]: mix.whole}, uplift=mix.uplift)
    return whole | ({"stand": mix.stand} if mix.stand else {})


def _amounts(**kept: Typed | None) -> dict[str, str]:
    return {key: as_written(each, KINDS[key]) for key, each in kept.items() if each is not None}


def _ranges(**kept: seed.Range | None) -> dict[str, list[str]]:
    return {
        key: [as_written(each.low, KINDS[key]), as_written(each.high, KINDS[key])]
        for key, each in kept.items()
        if each is not None
    }
