"""Two people change one thing: what each changed stays, and one field said twice is asked about."""

import pytest
from msgspec.structs import replace

from evenstand.book.errors import BookError
from evenstand.book.kinds.machine import Box
from evenstand.book.kinds.shape import Typed
from evenstand.book.log.edit import Answered
from evenstand.book.log.editing import MeanwhileError
from evenstand.book.log.merging import changes, look, put


@pytest.fixture
def office(opened):
    return opened(device="office")


@pytest.fixture
def phone(opened):
    return opened(device="phone")


def exchange(*books):
    for _ in books:
        for one in books:
            for other in books:
                one.merge(other.entries(limit=1000).entries)


def test_two_devices_that_change_two_fields_lose_neither(office, phone, samples):
    """A wheel measured on the phone stays when the office changes the note afterwards."""
    drill = office.add(samples.heron).about
    exchange(office, phone)
    measured = Typed(value=2.51, text="98.8 in")
    phone.correct(drill, replace(samples.heron, rolled=measured))
    office.correct(drill, replace(samples.heron, note="new chain"))
    exchange(office, phone)
    for book in (office, phone):
        now = book.get(drill)
        assert (now.body.rolled, now.body.note) == (measured, "new chain")
        assert now.clashes == 0
    assert office.get(drill) == phone.get(drill)


def test_an_amount_is_one_field(office, phone, samples):
    """One says the same length in other words, the other another one: no amount of both."""
    before = Typed(value=2.54, text="100 in")
    drill = office.add(replace(samples.heron, rolled=before)).about
    exchange(office, phone)
    office.correct(drill, replace(samples.heron, rolled=Typed(value=2.4, text="2.4 m")))
    phone.correct(drill, replace(samples.heron, rolled=Typed(value=2.54, text="254 cm")))
    exchange(office, phone)
    for book in (office, phone):
        assert book.get(drill).body.rolled in (
            Typed(value=2.4, text="2.4 m"),
            Typed(value=2.54, text="254 cm"),
        )
        [clash] = book.clashes(drill)
        assert clash.field == "/rolled"


def test_items_that_have_names_are_changed_one_by_one(office, phone, samples):
    drill = office.add(samples.heron).about
    exchange(office, phone)
    grain, small = samples.heron.boxes
    full = Typed(value=0.5, text="14 bu")
    office.correct(drill, replace(samples.heron, boxes=(replace(grain, volume=full), small)))
    phone.correct(drill, replace(samples.heron, boxes=(small, grain, Box(name="native"))))
    exchange(office, phone)
    for book in (office, phone):
        boxes = {box.name: box for box in book.get(drill).body.boxes}
        assert list(boxes) == ["small seed", "grain", "native"]
        assert boxes["grain"].volume == full
        assert book.get(drill).clashes == 0


def test_one_field_changed_apart_counts_as_the_later_said_and_both_are_told(office, phone, samples):
    lot = office.add(samples.oats).about
    exchange(office, phone)
    tag = samples.oats.tag
    phone.correct(lot, replace(samples.oats, tag=replace(tag, germination=0.93)), by="Ada")
    later = office.correct(lot, replace(samples.oats, tag=replace(tag, germination=0.88)), by="Kay")
    exchange(office, phone)
    for book in (office, phone):
        assert book.get(lot).body.tag.germination == 0.88
        [clash] = book.clashes(lot)
        assert (clash.field, clash.counted) == ("/tag/germination", later.id)
        assert [thing.id for thing in book.clashing()] == [lot]


def test_it_is_settled_by_saying_the_field_again(office, phone, samples):
    lot = office.add(samples.oats).about
    exchange(office, phone)
    for book, name in ((office, "TF-1"), (phone, "TF-2")):
        book.correct(lot, replace(samples.oats, name=name))
    exchange(office, phone)
    now = office.get(lot)
    office.correct(lot, replace(now.body, note="south bay"))
    assert office.get(lot).clashes == 1, "another field settles nothing"
    office.correct(lot, office.get(lot).body, settled=["/name"])
    exchange(office, phone)
    assert office.clashing() == phone.clashing() == []
    phone.correct(lot, replace(phone.get(lot).body, name="TF-3"))
    assert phone.get(lot).clashes == 0


def test_a_form_that_was_open_meanwhile_keeps_what_others_changed(office, samples):
    lot = office.add(samples.oats).about
    opened = office.get(lot)
    office.correct(lot, replace(samples.oats, price=Typed(value=1.0, text="$0.45/lb")))
    office.correct(lot, replace(opened.body, name="TF-9"), base=opened.heads)
    now = office.get(lot).body
    assert (now.name, now.price.text) == ("TF-9", "$0.45/lb")


def test_a_form_asks_where_somebody_changed_its_field_meanwhile(office, samples):
    lot = office.add(samples.oats).about
    opened, tag = office.get(lot), samples.oats.tag
    ada = office.correct(lot, replace(samples.oats, tag=replace(tag, germination=0.93)), by="Ada")
    mine = replace(opened.body, tag=replace(tag, germination=0.88))
    with pytest.raises(MeanwhileError) as asked:
        office.correct(lot, mine, base=opened.heads)
    [meanwhile] = asked.value.fields
    assert (meanwhile.field, meanwhile.entry) == ("/tag/germination", ada.id)
    assert (meanwhile.theirs, meanwhile.yours) == (0.93, 0.88)
    assert office.get(lot).body.tag.germination == 0.93, "nothing was written"
    office.correct(lot, mine, base=office.get(lot).heads)
    assert office.get(lot).body.tag.germination == 0.88
    assert office.get(lot).clashes == 0


@pytest.fixture
def meanwhile(office, samples):
    """A lot that Ada changed in two fields while another form of it was open."""
    lot = office.add(samples.oats).about
    opened = office.get(lot)
    theirs = replace(samples.oats, name="TF-3", note="dry")
    office.correct(lot, theirs, by="Ada")
    mine = replace(samples.oats, name="TF-9", note="damp", treated_with="nothing")
    return lot, opened, mine


def asked_about(office, meanwhile, **answered):
    lot, opened, mine = meanwhile
    known = Answered(**answered) if answered else Answered(heads=())
    with pytest.raises(MeanwhileError) as asked:
        office.correct(lot, mine, base=opened.heads, answered=known)
    return {each.field: (each.before, each.theirs, each.yours) for each in asked.value.fields}


def test_an_answer_decides_field_by_field_and_leaves_nothing_open(office, meanwhile, samples):
    lot, opened, mine = meanwhile
    assert asked_about(office, meanwhile) == {
        "/name": (samples.oats.name or None, "TF-3", "TF-9"),
        "/note": (samples.oats.note or None, "dry", "damp"),
    }
    heads = office.get(lot).heads
    answered = Answered(heads=heads, theirs=("/name",), yours=("/note",))
    entry = office.correct(lot, mine, base=opened.heads, answered=answered)
    now = office.get(lot)
    assert (now.body.name, now.body.note, now.body.treated_with) == ("TF-3", "damp", "nothing")
    assert (entry.base, now.clashes) == (heads, 0)
    assert "/name" not in entry.changed


def test_a_field_that_was_not_decided_is_asked_about_again(office, meanwhile):
    heads = office.get(meanwhile[0]).heads
    assert list(asked_about(office, meanwhile, heads=heads, yours=("/name",))) == ["/note"]


def test_what_a_third_person_changes_after_the_question_is_asked_about(office, meanwhile):
    lot, opened, mine = meanwhile
    heads = office.get(lot).heads
    office.correct(lot, replace(office.get(lot).body, name="TF-4"), by="Kay")
    again = asked_about(office, meanwhile, heads=heads, yours=("/name", "/note"))
    assert {field: theirs for field, (_, theirs, _) in again.items()} == {"/name": "TF-4"}
    answered = Answered(heads=office.get(lot).heads, yours=("/name", "/note"))
    office.correct(lot, mine, base=opened.heads, answered=answered)
    assert office.get(lot).body.name == "TF-9"


def test_where_all_is_left_to_the_other_nothing_is_written(office, samples):
    lot = office.add(samples.oats).about
    opened = office.get(lot)
    theirs = office.correct(lot, replace(samples.oats, name="TF-3"))
    answered = Answered(heads=office.get(lot).heads, theirs=("/name",))
    mine = replace(samples.oats, name="TF-9")
    assert office.correct(lot, mine, base=opened.heads, answered=answered) == theirs
    assert len(office.history(lot)) == 2


@pytest.mark.parametrize(("answer", "removed"), [("theirs", True), ("yours", False)])
def test_a_removal_is_one_question_about_all_of_it(office, meanwhile, *, answer, removed):
    lot, opened, mine = meanwhile
    office.remove(lot, by="Kay")
    assert list(asked_about(office, meanwhile)) == ["/name", "/note", ""]
    answered = Answered(heads=office.get(lot).heads, **{answer: ("", "/name", "/note")})
    office.correct(lot, mine, base=opened.heads, answered=answered)
    assert office.get(lot).removed is removed


def test_a_form_that_had_seen_nothing_yet_asks_what_was_made_meanwhile(office, samples):
    """Two people write down the one record of a job: the second had an empty form open."""
    lot = office.add(replace(samples.oats, name="TF-3")).about
    with pytest.raises(MeanwhileError) as asked:
        office.correct(lot, replace(samples.oats, name="TF-9"), base=())
    assert [(each.field, each.theirs) for each in asked.value.fields] == [("/name", "TF-3")]


def test_a_form_of_a_thing_that_was_removed_meanwhile_asks(office, samples):
    lot = office.add(samples.oats).about
    opened = office.get(lot)
    office.remove(lot)
    with pytest.raises(MeanwhileError) as asked:
        office.correct(lot, replace(opened.body, name="TF-9"), base=opened.heads)
    assert [each.removed for each in asked.value.fields] == [True]


def test_a_form_that_is_sent_twice_is_kept_once(office, samples):
    lot, again = office.add(samples.oats).about, office.new_id()
    opened = office.get(lot)
    office.correct(lot, replace(samples.oats, note="dry"))
    for _ in range(2):
        office.correct(lot, replace(opened.body, name="TF-9"), base=opened.heads, id=again)
    assert len(office.history(lot)) == 3


def test_a_state_that_is_not_here_cannot_be_changed(office, samples):
    lot = office.add(samples.oats).about
    with pytest.raises(BookError) as refused:
        office.correct(lot, samples.oats, base=[office.new_id()])
    assert refused.value.field == "base"


def test_an_older_release_changed_what_differs_from_the_entry_before(office, samples):
    """Entries of format 1 say neither base nor fields."""
    drill = office.add(samples.heron).about
    entry = office.correct(drill, replace(samples.heron, rows=24))
    assert entry.base == (drill,)
    assert entry.changed == ("/rows",)


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        ({"a": 1}, {"a": 1}, ()),
        ({"a": 1}, {"a": 2, "b": 3}, ("/a", "/b")),
        ({"a": {"b": 1, "c": 2}}, {"a": {"b": 1}}, ("/a/c",)),
        ({"a": [1, 2]}, {"a": [1, 3]}, ("/a",)),
        ({"a": [{"name": "x", "n": 1}]}, {"a": [{"name": "x", "n": 2}]}, ("/a/x/n",)),
        ({"a": [{"name": "x"}, {"name": "y"}]}, {"a": [{"name": "y"}, {"name": "x"}]}, ("/a/",)),
        ({"a": [{"name": "x"}]}, {"a": [{"name": "x"}, {"name": "y/z"}]}, ("/a/y~1z",)),
        ({"a": [{"name": "x"}, {"name": "x"}]}, {"a": [{"name": "x"}]}, ("/a",)),
    ],
)
def test_what_differs_is_told_and_put(before, after, told):
    """By hand; what is told as changed and put into the old state makes the new one."""
    assert changes(before, after) == told
    assert put(before, after, told) == after
    assert all(look(put(before, after, told), field) == look(after, field) for field in told)
