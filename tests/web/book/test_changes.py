"""What was changed, in words: undone from the notice and from the history, listed, settled."""

import re

import pytest
from msgspec.structs import replace

import labels
from evenstand.book.opening import open_book


@pytest.fixture
def lot(visitor, shelf):
    return f"/seed/{shelf()}"


def id_of(path):
    return path.rsplit("/", 1)[1]


def undo_keys(page):
    """Where each key to undo goes, and the entry it undoes."""
    return re.findall(
        r'action="(/history/[^"]+/undo)"[^>]*>(?:<p>[^<]*)?<button[^>]*name="undo" value="([^"]+)"',
        page.html,
    )


def test_a_removal_is_undone_from_the_notice_right_after_it(visitor, book, lot):
    visitor.send(f"{lot}/remove", {})
    page = visitor.read("/seed")
    assert "Removed." in page.text
    [(to, entry)] = undo_keys(page)
    visitor.send(to, {"undo": entry})
    assert not book.get(id_of(lot)).removed
    assert undo_keys(visitor.read("/seed")) == []


def test_a_correction_is_undone_from_its_history(visitor, book, lot):
    """The later change of another field stays."""
    form = visitor.read(f"{lot}/edit").fields
    visitor.send(f"{lot}/edit", form | {"germination": "88"})
    visitor.send(f"{lot}/edit", visitor.read(f"{lot}/edit").fields | {"note": "north bay"})
    page = visitor.read(f"/history/{id_of(lot)}")
    assert "Germination: 90% → 88%" in page.text
    wrong = book.history(id_of(lot))[1].id
    keys = {entry: to for to, entry in undo_keys(page)}
    visitor.send(keys[wrong], {"undo": wrong})
    now = book.get(id_of(lot)).body
    assert (now.tag.germination, now.note) == (0.90, "north bay")
    assert len(book.history(id_of(lot))) == 4
    visitor.send(keys[wrong], {"undo": wrong})
    assert len(book.history(id_of(lot))) == 4, "undone twice it is undone once"


def test_the_first_entry_is_no_change(visitor, book, lot):
    page = visitor.send(f"/history/{id_of(lot)}/undo", {"undo": id_of(lot)}, code=422)
    assert labels.CHOOSE_CHANGE_OR_REMOVAL in page.text
    assert not book.get(id_of(lot)).removed


def test_the_log_says_who_changed_what_by_day(visitor, book, lot):
    now = book.get(id_of(lot)).body
    book.correct(id_of(lot), replace(now, tag=replace(now.tag, germination=0.93)), by="Nia")
    page = visitor.read("/settings/changes")
    assert re.search(r"\w{3} \d+, \d{4}, Nia", page.text)
    assert "Germination: 90% → 93%" in page.text
    assert "/settings/changes" in visitor.read("/settings").links


def test_the_log_comes_in_pages(visitor, book, monkeypatch):
    monkeypatch.setattr("evenstand.web.book.changes.MOST_SHOWN", 2)
    seen = []
    for i in range(5):
        visitor.heron(name=f"Drill {i}")
    page = visitor.read("/settings/changes")
    while True:
        seen += re.findall(r"Drill \d", page.text)
        more = [link for link in page.links if "before=" in link]
        if not more:
            break
        page = visitor.read(more[0])
    assert seen == [f"Drill {i}" for i in (4, 3, 2, 1, 0)]


@pytest.mark.parametrize("of", ["drill", "job", "catch"])
def test_every_page_of_a_job_says_what_two_changed_apart(visitor, book, of):
    """A drill that was measured on a phone and at the desk: whoever orders seed hears of it too."""
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.GOOD)
    steps = ["", "/mix", "/boxes", "/order", "/calibrate", "/seeding", "/stand-count", "/record"]
    [thing] = book.things(of)
    with open_book(":memory:", device="phone", who="Nia") as phone:
        phone.merge(book.entries().entries)
        for changed, note in ((book, "new chain"), (phone, "chain slipped")):
            changed.correct(thing.id, replace(thing.body, note=note))
        assert not any("/settings/apart" in visitor.read(job + step).links for step in steps)
        book.merge(phone.entries().entries)
    assert all("/settings/apart" in visitor.read(job + step).links for step in steps)


@pytest.mark.parametrize(("kept", "name"), [(0, "TF-2"), (1, "TF-1")])
def test_what_two_changed_apart_is_shown_and_settled(visitor, book, lot, *, kept, name):
    """Ada's phone says TF-1, then this book TF-2, before they sync: the later counts."""
    with open_book(":memory:", device="phone", who="Nia") as phone:
        phone.merge(book.entries().entries)
        opened = book.get(id_of(lot)).body
        phone.correct(id_of(lot), replace(opened, name="TF-1"))
        book.correct(id_of(lot), replace(opened, name="TF-2"), by="Kay")
        book.merge(phone.entries().entries)
    assert "/settings/apart" in visitor.read(lot).links
    page = visitor.read("/settings/apart")
    assert page.text.index("TF-2") < page.text.index(labels.COUNTS_NOW) < page.text.index("TF-1")
    assert ("Kay" in page.text, "Nia" in page.text) == (True, True)
    keep = re.findall(r'name="keep" value="([^"]+)"', page.html)[kept]
    fields = {"base": page.fields["base"], "field": page.fields["field"], "keep": keep}
    visitor.send(f"/settings/apart/{id_of(lot)}", fields)
    assert book.get(id_of(lot)).body.name == name
    assert book.clashing() == []
    assert labels.NOTHING_CHANGED_APART in visitor.read("/settings/apart").text
