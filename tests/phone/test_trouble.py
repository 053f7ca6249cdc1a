"""What goes wrong on a phone: each time a sentence, and nothing lost."""

import re
import runpy
from pathlib import Path

import pytest

STEPS = runpy.run_path(str(Path(__file__).parent / "steps.py"))
new_drill, saved = STEPS["new_drill"], STEPS["saved"]
DRILL = {"name": "Plover", "rows": "24", "spacing": "5"}
A_YEAR = 365 * 24 * 3600 * 1000  # ms


def line(page, text):
    page.locator("hand-over").get_by_text(text).wait_for()


def still_typed(page):
    assert page.input_value("#f-name") == "Plover"
    assert page.input_value("#f-rows") == "24"


@pytest.mark.usefixtures("paired")
def test_storage_full(carried, office):
    carried.close()
    page = carried.open()
    session = carried.context.new_cdp_session(page)
    quota = {"origin": office.address, "quotaSize": 1000}
    session.send("Storage.overrideQuotaForOrigin", quota)
    new_drill(page)
    page.get_by_text("This phone's storage is full.").wait_for()
    still_typed(page)
    assert STEPS["entries"](page) == {}
    session.send("Storage.overrideQuotaForOrigin", {"origin": office.address})
    STEPS["save"](page, "Save drill")
    saved(page)
    STEPS["handed_over"](page)
    assert [entry.kind for entry in office.entries().values()] == ["drill"]


def test_storage_cleared_in_mid_use(carried, paired, office):
    """The log is begun anew: what is said to be saved afterwards is in it."""
    page = paired
    session = carried.context.new_cdp_session(page)
    storage = {"origin": office.address, "storageTypes": "indexeddb"}
    session.send("Storage.clearDataForOrigin", storage)
    new_drill(page)
    saved(page)
    assert list(STEPS["entries"](page).values()) == [True]
    line(page, "1 entry is only on this phone")


def test_storage_refused_from_the_start(carried, office):
    page = carried.open()
    page.add_init_script(
        "IDBFactory.prototype.open = () => { throw new DOMException('x', 'UnknownError') }"
    )
    page.goto(f"/phone/#{office.code()}")
    page.get_by_role("button", name="Put the book on this phone").click()
    page.get_by_text("That didn't work.").wait_for()


def test_a_private_window(private, carried, office):
    """It takes entries for as long as it is open, hands them over, and promises nothing."""
    page = private.new_page()
    carried.install(page, office.code())
    private.set_offline(True)
    new_drill(page)
    saved(page)
    page.goto("/this-phone")
    page.get_by_text("not promised").wait_for()
    private.set_offline(False)
    STEPS["handed_over"](page)
    assert [entry.kind for entry in office.entries().values()] == ["drill"]


def test_the_clock_set_back_a_year(carried, paired, office):
    """What is written afterwards still comes after what was written before."""
    page = paired
    new_drill(page)
    saved(page)
    STEPS["handed_over"](page)
    [first] = office.entries()
    page.goto(page.url + "/edit")
    STEPS["answering"](page)
    carried.set_clock(page, -A_YEAR)
    form = page.evaluate("fetch('/drills/new').then(found => found.text())")
    minted = re.search(r'name="entry" value="([0-9a-f-]+)"', form)[1]
    assert minted < first[:9], "an id begins with its time: it must be that of last year"
    STEPS["fill"](page, name="Plover again")
    STEPS["save"](page, "Save drill")
    saved(page, "Plover again")
    STEPS["handed_over"](page)
    made = sorted(office.entries().values(), key=lambda entry: entry.made)
    assert [entry.id == first for entry in made] == [True, False]


def test_two_tabs(carried, paired):
    one, other = paired, carried.context.new_page()
    carried.cut()
    other.goto("/drills")
    STEPS["ready"](other)
    new_drill(one, "Plover")
    new_drill(other, "Teal")
    saved(one, "Plover")
    saved(other, "Teal")
    for page in (one, other):
        page.goto("/drills")
        for name in ("Plover", "Teal"):
            page.get_by_role("link", name=name).first.wait_for()
        line(page, "2 entries waiting to sync.")
    other.close()
    new_drill(one, "Heron")
    saved(one, "Heron")


def test_a_key_taken_away(carried, paired, office):
    office.revoke()
    new_drill(paired)
    saved(paired)
    line(paired, "pair it again")
    line(paired, "1 entry waiting to sync.")
    carried.install(paired, office.code())
    STEPS["handed_over"](paired)
    assert len(office.entries()) == 1


def test_an_office_that_has_gone_back_to_a_backup_gets_all_again(paired, office):
    page, copy = paired, office.book.with_name("copy.evenstand")
    new_drill(page)
    saved(page)
    STEPS["handed_over"](page)
    office.back_up(copy)
    new_drill(page, "Teal")
    saved(page, "Teal")
    STEPS["handed_over"](page)
    before = office.entries()
    office.stop()
    office.book = copy
    assert office.entries().keys() < before.keys()
    office.start()
    new_drill(page, "Heron")
    saved(page, "Heron")
    STEPS["handed_over"](page)
    after = office.entries()
    assert before.keys() < after.keys()
    assert after.keys() == STEPS["entries"](page).keys()


def test_what_another_site_sends_is_refused(paired, office, elsewhere):
    """A form of another site, sent to the address that the phone itself answers."""
    page = paired.context.new_page()
    page.goto(elsewhere(f"{office.address}/drills/new"))
    office.stop()
    page.get_by_role("button").click()
    page.get_by_text("from another site").wait_for()
    assert STEPS["entries"](paired) == {}
    paired.goto("/drills")
    STEPS["answering"](paired)
    assert "Plover" not in paired.inner_text("main")


BAD_WAYS = {
    "error": "The office couldn't sync just now",
    "half": "No network right now",
    "lost": "No network right now",
    "garbage": "No network right now",
    "slow": "Syncing",
}


def test_a_bad_way_to_the_office(carried, between, office):
    """Entries wait, and arrive once when the way is good again."""
    page = carried.open()
    carried.install(page, office.code())
    for n, (how, said) in enumerate(BAD_WAYS.items()):
        between.how = how
        new_drill(page, how)
        saved(page, how)
        line(page, said)
        line(page, "1 entry waiting to sync.")
        between.how = "good"
        page.evaluate("document.dispatchEvent(new Event('phone:exchange'))")
        STEPS["handed_over"](page)
        assert len(office.entries()) == n + 1


def test_what_the_office_will_not_have_waits_alone(paired, office):
    """A removal by somebody who may not remove: what was written beside it is handed over."""
    page = paired
    new_drill(page, "Plover")
    saved(page, "Plover")
    STEPS["handed_over"](page)
    page.context.set_offline(True)
    page.locator("details.remove summary").click()
    page.get_by_role("button", name="Remove this drill from the list").click()
    page.get_by_role("heading", name="Drills").wait_for()
    new_drill(page, "Teal")
    saved(page, "Teal")
    office.may_only("works")
    page.context.set_offline(False)
    line(page, "The office can't accept these entries")
    line(page, "1 entry waiting to sync.")
    assert sorted(entry.kind for entry in office.entries().values()) == ["drill", "drill"]


def test_a_new_version_waits_until_it_is_asked_for(carried, paired, newer_bundle):
    """In the middle of a job nothing changes; without a network the old version is whole."""
    page = paired
    page.goto("/drills/new")
    STEPS["answering"](page)
    STEPS["fill"](page, **DRILL)
    version = newer_bundle()
    page.evaluate("navigator.serviceWorker.ready.then(found => found.update())")
    line(page, "A new version is ready.")
    still_typed(page)
    STEPS["save"](page, "Save drill")
    saved(page)
    STEPS["handed_over"](page)
    carried.cut()
    page.reload()
    STEPS["answering"](page)
    assert version not in page.content()
    saved(page)
    line(page, "A new version is ready.")
    page.get_by_role("button", name="Update now").click()
    page.get_by_text(version).wait_for(state="attached")  # a phone shows its name at home alone
    STEPS["answering"](page)
    assert len(STEPS["entries"](page)) == 1
