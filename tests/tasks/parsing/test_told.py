"""Fields of entries in words."""

import msgspec
import pytest

from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.seed import Lot, Member, Mix, Range, Tag
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Job
from evenstand.engine.quantities.phrases import Style
from evenstand.tasks.parsing.told import NOTHING, label, value

STYLE = Style()
LOT = Lot(
    species="oats",
    name="TF-26-014",
    tag=Tag(purity=0.985, germination=0.91, tested="2026-08"),
    price=Typed(value=0.88, text="$0.40/lb"),
    on_hand=Typed(value=22.6796185),
)


def told(body, field, names=lambda id: "", *, style=STYLE):
    json = msgspec.json.decode(msgspec.json.encode(body))
    return style.write(value(type(body).kind, field, json, names=names))


@pytest.mark.parametrize(
    ("field", "shown"),
    [
        ("/tag/germination", "91%"),
        ("/price", "$0.40/lb"),
        ("/on_hand", "50 lb"),
        ("/name", "TF-26-014"),
        ("/note", STYLE.write(NOTHING)),
    ],
)
def test_a_value_is_told_as_it_was_typed_or_in_the_readers_units(field, shown):
    """50 lb are 22.6796185 kg."""
    assert told(LOT, field) == shown


MIX = Mix(
    name="Cover",
    members=(
        Member(
            name="oats",
            basis="live seeds",
            rate=Typed(value=9 * 10.763910, text="9 seeds/ft2"),
            in_mix=Range(
                low=Typed(value=5 * 0.4535924 / 4046.8564, text="5 lb/ac"),
                high=Typed(value=8 * 0.4535924 / 4046.8564, text="8 lb/ac"),
            ),
        ),
    ),
)


@pytest.mark.parametrize(
    ("body", "field", "shown"),
    [
        (LOT, "/price", "$0.88/kg ($0.40/lb)"),
        (LOT, "/on_hand", "22.7 kg"),
        # 1 ft² is 0.09290304 m², 1 lb/ac 1.120851 kg/ha (NIST SP 811).
        (MIX, "/members/oats/rate", "96.9 seeds/m² (9 seeds/ft2)"),
        (MIX, "/members/oats/in_mix/low", "5.6 kg/ha (5 lb/ac)"),
        (MIX, "/members", "8.97 kg/ha (8 lb/ac)"),
        (MIX, "/members", "96.9 seeds/m² (9 seeds/ft2)"),
    ],
)
def test_what_was_typed_in_other_units_is_told_in_the_readers(body, field, shown):
    found = told(body, field, style=Style(system="metric"))
    assert shown in found if field == "/members" else found == shown


def test_a_thing_is_told_by_its_name():
    heron = "01a20f15-2c80-7000-8000-000000000000"
    job = Job(name="Alder Bench", drill=heron)
    assert told(job, "/drill", names={heron: "Heron"}.get) == "Heron"


def test_a_field_of_a_part_is_called_with_what_it_is_part_of():
    """A part that has no label of its own is called as its field is."""
    assert "germination" in STYLE.write(label("lot", "/tag/germination")).lower()
    whole = STYLE.write(label(Drill.kind, "/boxes/grain/volume"))
    assert "grain" in whole
    assert "box capacity" in whole.lower()
