"""A lot as its tag is typed: into what is kept, and back into the fields of its form."""

from collections.abc import Iterator

from evenstand.book.seed import BagSize, Lot, Noxious, Tag
from evenstand.book.shape import Typed
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import (
    LOAD,
    MONEY,
    NUMBER,
    PRICE,
    SEED_COUNT,
    SEEDS,
    TEST_WEIGHT,
    Kind,
)
from evenstand.engine.seed.germination import TEST_SEEDS
from evenstand.engine.seed.tag import Month

from ..parsing.dates import month
from ..parsing.given import Given
from ..parsing.writing import Writing
from ..parsing.written import as_written, percent
from .kept import COUNTS, THOUSAND, read_kept
from .tag import read_weeds, share_of

MOST_WEEDS, MOST_BAGS = 8, 6
PARTS = ("hard", "dormant", "coating", "inert", "other_crop", "weed")
# Where the form has lines for what is one input of a job file.
LINES = {"noxious": "noxious1_name", "bags": "bag1_weight"}


def read_lot_form(given: Given, *, today: Month) -> Lot:
    """Read a lot from the fields of its form.

    Parameters
    ----------
    today : Month
        No test can be younger.

    Raises
    ------
    RefusalsError or MeasurementError
        Each under the field it was typed in.
    """
    form = Writing(given)
    lot = Lot(
        species=form.name("species"),
        own_name=form.text("own_name") == "yes",
        name=form.text("name"),
        tag=_tag(form),
        **_count(form),
        price=_bare(form, "price", PRICE),
        bags=tuple(_bags(form)),
        on_hand=_bare(form, "on_hand", LOAD),
        buy=form.text("sold_out") != "yes",
        count_hard=_yes_or_no(form, "count_hard"),
        age_limit=form.count("age_limit", NUMBER, otherwise=0, least=1) or None,
        test_weight=form.amount("test_weight", TEST_WEIGHT),
        fluffy=_yes_or_no(form, "fluffy"),
        treated_with=form.text("treated_with"),
        note=form.text("note"),
    )
    form.done()
    try:
        read_kept(lot, today=today)
    except MeasurementError as refused:
        field = LINES.get(refused.field, refused.field)
        raise MeasurementError(field, given.texts.get(field), refused.need) from None
    return lot


def _tag(form: Writing) -> Tag:
    given = form.given
    shares = {key: _share(form, key) for key in PARTS if key in given}
    treated = form.text("treated") == "yes" or bool(form.text("treated_with"))
    return Tag(
        purity=_share(form, "purity"),
        germination=_share(form, "germination"),
        **shares,
        noxious=tuple(_weeds(form)),
        total_viable=form.text("total_viable") == "yes",
        tested=form.attempt(lambda: str(month(given, "tested")), otherwise="2000-01")
        if "tested" in given
        else None,
        seeds_tested=form.count("seeds_tested", SEEDS, otherwise=TEST_SEEDS, least=1),
        hermetic=form.text("hermetic") == "yes",
        treated=treated,
    )


def _share(form: Writing, key: str) -> float:
    """Read a share; it is looked at closer with the others of its tag."""

    def read() -> float:
        share = share_of(form.given, key)
        if not 0 <= share <= 1:
            raise form.given.refuse(key, say("give what the tag says, 0 % to 100 %"))
        return share

    return form.attempt(read, otherwise=0.5)


def _weeds(form: Writing) -> Iterator[Noxious]:
    for i in range(1, MOST_WEEDS + 1):
        name, per = f"noxious{i}_name", f"noxious{i}_count"
        if not form.text(name):
            if form.text(per):
                form.name(name)
            continue
        count = form.zero_or_more(per, SEED_COUNT)
        if count is None:
            form.name(per)
            continue
        weed = Noxious(name=form.text(name), per_kg=count)
        if not _in_one_line(weed):
            need = say("write its name in letters, without commas or numbers")
            form.refuse(form.given.refuse(name, need))
        yield weed


def _in_one_line(weed: Noxious) -> bool:
    """Whether a weed can be written as in a job file and read again."""
    line = f"{weed.name} {as_written(weed.per_kg, SEED_COUNT)}"
    try:
        return [found.name for found in read_weeds(Given({}, str), line)] == [weed.name]
    except MeasurementError:
        return False


def _bags(form: Writing) -> Iterator[BagSize]:
    for i in range(1, MOST_BAGS + 1):
        weight, price = f"bag{i}_weight", f"bag{i}_price"
        if form.text(weight) or form.text(price):
            form.name(weight)
            size = _bare(form, weight, LOAD, zero=False) or Typed(value=1.0)
            yield BagSize(weight=size, price=_bare(form, price, MONEY))


def _count(form: Writing) -> dict[str, Typed]:
    """Read how many seeds are in a weight, told in one way."""
    found: dict[str, Typed] = {}
    for key, name, kind in COUNTS:
        typed = form.amount(key, kind)
        if typed is None:
            continue
        if found:
            form.refuse(form.given.refuse(key, say("give it in one way only")))
        times = THOUSAND if key == "tsw" else 1
        found[name] = Typed(
            value=times * typed.value, give_or_take=times * typed.give_or_take, text=typed.text
        )
    return found


def _bare(form: Writing, key: str, kind: Kind, *, zero: bool = True) -> Typed | None:
    """Read an amount that is taken as it stands."""
    found = form.zero_or_more(key, kind) if zero else form.amount(key, kind)
    if found and found.give_or_take:
        need = say("write it without ±: it is taken as it stands")
        form.refuse(form.given.refuse(key, need))
    return found


def _yes_or_no(form: Writing, key: str) -> bool | None:
    return form.attempt(lambda: form.given.yes(key) if key in form.given else None, otherwise=None)


def lot_texts(lot: Lot) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    texts = {"species": lot.species, "name": lot.name, "note": lot.note}
    texts |= {"treated_with": lot.treated_with, **_tag_texts(lot.tag)}
    ticks = {"own_name": lot.own_name, "sold_out": not lot.buy}
    texts |= {key: "yes" for key, ticked in ticks.items() if ticked}
    chosen = {"count_hard": lot.count_hard, "fluffy": lot.fluffy}
    texts |= {key: "yes" if yes else "no" for key, yes in chosen.items() if yes is not None}
    amounts: dict[str, Typed | None] = {key: getattr(lot, name) for key, name, _ in COUNTS}
    amounts |= {key: getattr(lot, key) for key in ("price", "on_hand", "test_weight")}
    for i, bag in enumerate(lot.bags, 1):
        amounts |= {f"bag{i}_weight": bag.weight, f"bag{i}_price": bag.price}
    texts |= {key: kept.text for key, kept in amounts.items() if kept}
    return texts | ({"age_limit": str(lot.age_limit)} if lot.age_limit else {})


def _tag_texts(tag: Tag) -> dict[str, str]:
    texts = {"purity": percent(tag.purity), "germination": percent(tag.germination)}
    for key in PARTS:
        share = getattr(tag, key)
        if share or (share == 0 and key in ("inert", "other_crop", "weed")):
            texts[key] = percent(share)
    texts |= {key: "yes" for key in ("total_viable", "hermetic", "treated") if getattr(tag, key)}
    texts |= {"tested": tag.tested} if tag.tested else {}
    if tag.seeds_tested != TEST_SEEDS:
        texts["seeds_tested"] = str(tag.seeds_tested)
    for i, weed in enumerate(tag.noxious, 1):
        texts |= {f"noxious{i}_name": weed.name, f"noxious{i}_count": weed.per_kg.text}
    return texts
