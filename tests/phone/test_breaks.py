"""What breaks in the middle on a phone: a save, a fetch, a tab; each ends in a sentence."""

import json
import re
import runpy
from pathlib import Path
from urllib.parse import urlencode
from urllib.request import urlopen
from zipfile import ZipFile

import pytest

HERE = Path(__file__).parent
STEPS = runpy.run_path(str(HERE / "steps.py"))
new_drill, saved = STEPS["new_drill"], STEPS["saved"]
DRILL = {"name": "Plover", "rows": "24", "spacing": "5"}
FAILS_TWICE = """() => {
    let bad = 0;
    const add = IDBObjectStore.prototype.add, begin = IDBDatabase.prototype.transaction;
    IDBObjectStore.prototype.add = function (...given) {
        if (self.failed) return add.apply(this, given);
        self.failed = true;
        bad = 1;
        throw new DOMException("the disk", "UnknownError");
    };
    IDBDatabase.prototype.transaction = function (...given) {
        if (self.failed && bad-- > 0) throw new DOMException("the disk", "UnknownError");
        return begin.apply(this, given);
    };
}"""
SAME_ID = """entry => {
    const send = (name) => {
        const form = { entry, name, rows: "20", spacing: "5", spacing_unit: "in" };
        const body = new URLSearchParams(form);
        return fetch("/drills/new", { method: "POST", body, redirect: "manual" });
    };
    return Promise.all(["Teal", "Heron"].map(send)).then((all) => all.map((each) => each.status));
}"""
PHOTO = """async (lot) => {
    const drawn = new OffscreenCanvas(300, 300);
    const pen = drawn.getContext("2d");
    const noise = pen.createImageData(300, 300);
    crypto.getRandomValues(noise.data.subarray(0, 65536));
    pen.putImageData(noise, 0, 0);
    const form = new FormData();
    form.append("photo", await drawn.convertToBlob({ type: "image/jpeg" }), "p.jpg");
    form.append("caption", "tag");
    return (await fetch(`/seed/${lot}/photos/new`, { method: "POST", body: form })).status;
}"""
PLACES = """async (names) => {
    const listed = await (await fetch("/phone/assets.js")).text();
    const { assets } = JSON.parse(listed.slice(listed.indexOf("{"), listed.lastIndexOf("}") + 1));
    const found = names.map((name) => assets.find((each) => each.address === name));
    return found.map(({ sha256 }) => `/phone/file/${sha256}`);
}"""
SWALLOWS = """Worker.prototype.postMessage = (asked) => {
    self.asked ||= asked.url.endsWith("/drills"); // not by the browser itself, for an icon
}; 0"""
SPOIL = """(place) => caches.open("evenstand-files")
    .then((files) => files.put(place, new Response("spoilt")))"""

FORGET = "caches.delete('evenstand-memory')"
# It is kept after the first answer.
REMEMBERED = """async () => (await (await caches.open("evenstand-memory")).keys()).length > 0"""
SCRAMBLE = """async (layout) => {
    const memory = await caches.open("evenstand-memory");
    const [place] = await memory.keys();
    const found = await memory.match(place);
    const told = JSON.parse(found.headers.get("Memory"));
    const content = new Uint8Array(await found.arrayBuffer()).fill(255, 1_000_000);
    const headers = {Memory: JSON.stringify(layout ? {...told, layout} : told)};
    await memory.put(place, new Response(content, {headers}));
}"""


def names(page):
    """Names of the drills in the log."""
    texts = page.evaluate(
        "import('/phone/log.js').then(log => log.since(0)).then(all => all.map(each => each.text))"
    )
    return sorted(json.loads(text)["body"]["name"] for text in texts)


def test_what_was_not_kept_is_kept_when_it_is_saved_again(carried, paired):
    """The storage fails, and once more while the book is put together anew; then a double tap."""
    page = paired
    carried.cut()
    page.goto("/drills/new")
    STEPS["answering"](page)
    page.workers[0].evaluate(FAILS_TWICE)
    STEPS["fill"](page, **DRILL)
    STEPS["save"](page, "Save drill")
    page.locator("#told").get_by_text("Not saved").wait_for()
    assert names(page) == []
    STEPS["save"](page, "Save drill")
    page.locator("#told").get_by_text("something went wrong in this phone").wait_for()
    page.get_by_role("button", name="Save drill", exact=True).dblclick()
    saved(page)
    assert names(page) == ["Plover"]
    page.reload()
    saved(page)


def test_two_tabs_never_keep_two_contents_under_one_id(carried, paired):
    one, other = paired, carried.context.new_page()
    carried.cut()
    other.goto("/drills")
    STEPS["ready"](other)
    from_both = [
        page.evaluate(SAME_ID, "01a21037-7680-7000-8000-000000000001") for page in (one, other)
    ]
    assert sorted(from_both[0]) == sorted(from_both[1]) == [0, 422]  # 0: led on, as after a save
    assert len(names(one)) == 1
    for page in (one, other):
        assert page.evaluate("fetch('/drills').then(found => found.status)") == 200


def test_the_file_of_a_phone_is_that_of_the_phone(paired, office):
    page = paired
    office.stop()
    new_drill(page)
    saved(page)
    page.goto("/this-phone")
    STEPS["answering"](page)
    with page.expect_download() as told:
        page.get_by_role("link", name="Export to a file").click()
    with ZipFile(told.value.path()) as packed:
        assert json.loads(packed.read("manifest.json"))["entries"] == 1


def test_photos_go_alone_and_a_full_phone_goes_on_giving(carried, between, office):
    page = carried.open()
    carried.install(page, office.code())
    carried.cut()
    STEPS["lot"](page, "cereal rye", "R-26")
    lot = re.search(r"/seed/([0-9a-f-]+)", page.url)[1]
    assert [page.evaluate(PHOTO, lot) for _ in range(2)] == [200, 200]
    new_drill(page)
    saved(page)
    elsewhere = urlencode(DRILL | {"spacing_unit": "in", "name": "Of the office"}).encode()
    urlopen(office.address + "/drills/new", elsewhere).close()
    carried.close()
    page = carried.open()
    session = carried.context.new_cdp_session(page)
    session.send("Storage.overrideQuotaForOrigin", {"origin": between.address, "quotaSize": 1000})
    page.goto("/drills")
    page.locator("hand-over").get_by_text("This phone's storage is full").wait_for()
    kinds = [
        [json.loads(text)["kind"] for text in json.loads(body)["entries"]] for body in between.sent
    ]
    assert ["lot", "drill"] in kinds
    assert kinds.count(["photo"]) == 2
    assert len(office.entries()) == 5


def test_a_first_visit_that_breaks_goes_on_with_the_same_code(carried, between, office):
    page, passed_on = carried.open(), between.pass_on
    bad = {"/exchange/pair", "/phone/packages.pack"}

    def breaks(asked, port):
        if asked.path not in bad:
            return passed_on(asked, port)
        bad.remove(asked.path)
        asked.rfile.read(int(asked.headers.get("Content-Length", 0)))
        return between.answer(asked, 502, b"")

    between.pass_on = breaks
    page.goto(f"/phone/#{office.code()}")
    for left in (1, 0):
        page.get_by_role("button", name="Put the book on this phone").click()
        page.wait_for_function("() => !document.querySelector('form button').disabled")
        assert len(bad) == left
        assert "That didn't work." in page.inner_text("form [role=status]")
    page.get_by_role("button", name="Put the book on this phone").click()
    page.wait_for_url(between.address + "/")
    STEPS["ready"](page)


def test_a_later_start_goes_on_from_the_memory_of_the_first(carried, paired):
    """It reads no pack, and what was entered since is there."""
    page = paired
    page.goto("/drills")
    STEPS["answering"](page)
    page.wait_for_function(REMEMBERED)
    for pack in page.evaluate(PLACES, ["phone/evenstand.pack", "phone/packages.pack"]):
        page.evaluate(SPOIL, pack)
    carried.cut()
    new_drill(page)
    saved(page)
    carried.close()
    page = carried.open()
    page.goto("/drills")
    STEPS["answering"](page)
    page.goto("/drills/new")  # never shown here: no copy of it is kept
    page.get_by_role("button", name="Save drill", exact=True).wait_for()
    assert names(page) == ["Plover"]


@pytest.mark.parametrize("layout", ["1 2", None], ids=["of another layout", "spoilt"])
def test_a_memory_that_does_not_go_on_gives_way_to_a_start_anew(carried, paired, layout):
    page = paired
    new_drill(page)
    saved(page)
    page.wait_for_function(REMEMBERED)
    page.evaluate(SCRAMBLE, layout)
    carried.close()
    page = carried.open()
    page.goto("/drills")
    STEPS["answering"](page)
    page.get_by_role("link", name="Plover").first.wait_for()
    page.wait_for_function(REMEMBERED)


def test_a_phone_whose_pages_cannot_start_says_so(carried, paired):
    page = paired
    page.goto("/drills")
    STEPS["answering"](page)
    page.wait_for_function(REMEMBERED)
    page.evaluate(FORGET)
    pack, script = page.evaluate(PLACES, ["phone/evenstand.pack", "phone/pyodide.mjs"])
    page.evaluate(SPOIL, pack)
    carried.close()
    page = carried.open()
    page.goto("/drills")
    page.locator("hand-over").get_by_text("The pages can't start on this phone.").wait_for()
    page.get_by_role("link", name="Drills").first.click()
    page.get_by_text("This page cannot be shown").or_(
        page.get_by_text("Not saved")
    ).first.wait_for()
    page.goto("/seed")  # never seen here: the shell
    page.get_by_text("close them and open them again").wait_for()
    page.evaluate(SPOIL, script)
    page.goto("/drills")
    page.locator("hand-over").get_by_text("The pages can't start on this phone.").wait_for()


def test_a_tab_that_is_closed_while_it_answers_leaves_nobody_waiting(carried, paired, office):
    other = carried.context.new_page()
    other.goto(office.address + "/static/mark.svg")  # in reach, without a Python of its own
    paired.evaluate(SWALLOWS)
    other.evaluate("fetch('/drills').then(it => it.text()).then(it => { self.found = it; }); 0")
    paired.wait_for_function("() => self.asked")
    paired.close()
    other.wait_for_function("() => self.found?.includes('This page cannot be shown')")


def test_another_tab_of_an_older_version_does_not_answer_for_the_new_one(
    carried, paired, newer_bundle
):
    page, other = paired, carried.context.new_page()
    other.goto("/drills")
    STEPS["ready"](other)
    version = newer_bundle()
    page.evaluate("navigator.serviceWorker.ready.then(found => found.update())")
    page.locator("hand-over").get_by_text("A new version is ready.").wait_for()
    page.get_by_role("button", name="Update now").click()
    page.get_by_text(version).wait_for()
    new_drill(other)
    saved(other)
    assert names(page) == ["Plover"]


def test_the_office_says_what_its_phones_may_do(paired, office):
    """The phone hears of it with its next exchange; its pages go by it when they start anew."""
    page = paired
    STEPS["handed_over"](page)
    office.may_only("reads")
    page.evaluate("import('/phone/boot.js').then(boot => boot.exchange())")
    assert page.evaluate("import('/phone/log.js').then(log => log.remembered('role'))") == "reads"
    page.reload()
    STEPS["answering"](page)
    page.goto("/drills/new")
    page.get_by_text("Your account is view only.").wait_for()
