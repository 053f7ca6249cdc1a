"""Fields of entries in words."""

import msgspec
import pytest

from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.seed import Lot, Tag
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


def told(body, field, names=lambda id: ""):
    json = msgspec.json.decode(msgspec.json.encode(body))
    return STYLE.write(value(type(body).kind, field, json, names=names))


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
