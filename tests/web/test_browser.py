"""A real browser: from an empty book to an accepted notch, on a phone, without JavaScript too."""

import re
import threading
from pathlib import Path

import pytest

from evenstand.book.seed import BagSize, Lot, Tag
from evenstand.book.shape import Typed

ROOT = Path(__file__).parents[2]
CHROMIUM = Path("/usr/bin/chromium")
AXE = ROOT / "node_modules/axe-core/axe.min.js"
SHOTS = ROOT / "build/pages"
QUIET = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
)
PHONE, DESK = {"width": 390, "height": 844}, {"width": 1280, "height": 800}
pytestmark = pytest.mark.skipif(
    not CHROMIUM.exists(), reason="needs Chromium: install the package chromium"
)


@pytest.fixture(scope="module")
def chromium():
    api = pytest.importorskip("playwright.sync_api", reason="needs playwright")
    with api.sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        yield browser
        browser.close()


@pytest.fixture
def address(client):
    """The app behind a real server."""
    server = pytest.importorskip("waitress.server").create_server(
        client.application, host="127.0.0.1", port=0
    )
    running = threading.Thread(target=server.run, daemon=True)
    running.start()
    yield f"http://127.0.0.1:{server.effective_port}"
    server.close()
    running.join(timeout=5)


@pytest.fixture
def opened(chromium, address):
    """Open a page, as ``opened(size, javascript=…)``; what goes wrong in it fails the test."""
    contexts, faults = [], []

    def page(size=PHONE, **options):
        context = chromium.new_context(viewport=size, base_url=address, **options)
        contexts.append(context)
        found = context.new_page()
        found.on("pageerror", lambda error: faults.append(str(error)))
        found.on("console", lambda said: faults.append(said.text) if _is_fault(said) else None)
        return found

    yield page
    for context in contexts:
        context.close()
    assert faults == []


def _is_fault(said):
    """A refused form is told by its code, which is no fault."""
    return said.type == "error" and "422" not in said.text


def fill(page, **texts):
    for name, text in texts.items():
        page.fill(f"#f-{name}", text)


def save(page, name):
    page.get_by_role("button", name=name, exact=True).click()


def catch(page, setting, ounces):
    fill(page, setting=setting, turns="20", rows_caught="20", net=ounces)
    save(page, "Save catch")


def set_up(page):
    """Type in a drill, its chart and a job, from an empty book."""
    page.goto("/")
    page.get_by_role("link", name="New drill").click()
    fill(page, name="Heron", rows="20", spacing="7.5", rolled="95", scale_low="0", scale_high="60")
    save(page, "Save drill")
    page.get_by_role("link", name="New chart").first.click()
    fill(page, points="20\t36\n30\t54\n40\t72", seed="rye")
    save(page, "Save chart")
    page.get_by_role("link", name="New job with this drill").click()
    fill(page, name="Alder Bench, fall", field_name="Alder Bench", field_area="38.5")
    fill(page, wanted1_rate="54", wanted1_tolerance="5")
    save(page, "Save job")
    page.get_by_role("link", name="Set", exact=True).first.click()
    page.get_by_text("Set the lever to 30").wait_for()


@pytest.mark.parametrize("javascript", [True, False], ids=["javascript", "plain"])
def test_from_an_empty_book_to_an_accepted_notch(opened, book, javascript):
    page = opened(java_script_enabled=javascript)
    set_up(page)
    catch(page, "30", "much")
    page.get_by_text("Not saved yet.").wait_for()
    assert "write a weight" in page.inner_text("#f-net-wrong")
    assert page.input_value("#f-net") == "much"
    catch(page, "30", "35.33")
    page.get_by_text("Move the lever from 30").wait_for()
    catch(page, "33", "38.89")
    page.get_by_text("Leave the lever at 33").wait_for()
    catch(page, "33", "38.7")
    page.get_by_text("Catch 3, at 33").wait_for()
    save(page, "Take 33")
    page.get_by_text("The lever is at 33.").wait_for()
    page.go_back()
    page.go_forward()
    assert (len(book.things("catch")), len(book.things("setting"))) == (3, 1)


def shared_out(visitor):
    """A job whose mix is shared out among the boxes of its drill, with an order."""
    book, boxes = visitor.book, {"box1_name": "grain", "box1_volume": "32 bu"}
    drill = visitor.heron(**boxes, name="Teal").rsplit("/", 1)[1]
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drill})
    tag, bag = Tag(purity=0.98, germination=0.9), Typed(value=22.68, text="50 lb")
    lots = [
        Lot(name=name, species=name, tag=tag, bags=(BagSize(weight=bag),))
        for name in ("cereal rye", "hairy vetch")
    ]
    visitor.mix(job, *((book.add(lot).about, "40", "bulk|lb/ac") for lot in lots))
    visitor.send(f"{job}/boxes", {"box1_measure": "1 gal", "box1_sample": "6.1 lb"})
    visitor.send(f"{job}/order", {"batch": "600 lb", "pass_length": "1290 ft"})
    return job


def paths(visitor):
    """The address of every kind of page, over a job with two catches."""
    boxed = shared_out(visitor)
    job = visitor.job()
    visitor.send(f"{job}/set", visitor.LIGHT)
    rows = {f"row{i}": "50" for i in range(1, 21)} | {"row13": "42"}
    visitor.send(f"{job}/set", {"setting": "33", "turns": "20", "unit": "g"} | rows)
    book = visitor.book
    lot = visitor.send("/seed/new", LOT)
    count = visitor.send(f"{lot}/counts/new", {"sample1_seeds": "560", "sample1_weight": "20 g"})
    sprouts = {"dish1_seeds": "100", "dish1_sprouted": "90"}
    sprouted = visitor.send(f"{lot}/tests/new", sprouts)
    drill, chart, catch = (book.things(kind)[0].id for kind in ("drill", "chart", "catch"))
    return {
        "jobs": "/",
        "job": job,
        "job-form": f"{job}/edit",
        "set": f"{job}/set",
        "set-each-row": f"{job}/set?each=yes",
        "catch": f"/catches/{catch}",
        "boxes": f"{boxed}/boxes",
        "boxes-sampled": f"{boxed}/boxes?sample=rye+160,+vetch+41",
        "order": f"{boxed}/order",
        "order-missing": f"{job}/order",
        "sow": f"{job}/sow",
        "drills": "/drills",
        "drill": f"/drills/{drill}",
        "drill-form": f"/drills/{drill}/edit",
        "label": f"/drills/{drill}/label",
        "card": f"/drills/{drill}/card",
        "worksheet": f"{job}/set/worksheet",
        "record": f"{boxed}/record",
        "record-form": f"{boxed}/record/edit",
        "season": "/season",
        "chart": f"/charts/{chart}",
        "seed": "/seed",
        "lot": lot,
        "lot-form": f"{lot}/edit",
        "count": count,
        "count-form": f"{lot}/counts/new",
        "replicates": f"{lot}/counts/new?way=replicates",
        "sprouted": sprouted,
        "sprout-form": f"{lot}/tests/new",
        "photo-form": f"{lot}/photos/new",
        "pool": "/pool",
        "book": "/book",
        "people": "/people",
        "history": f"/history/{catch}",
        "nowhere": "/nowhere",
    }


LOT = {
    "species": "oats",
    "name": "O-25",
    "purity": "98 %",
    "germination": "89 %",
    "tested": "2025-02",
    "treated": "yes",
}
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture
def inspected(chromium, address):
    """Open a page that axe may be brought into."""
    contexts = []

    def page(scheme):
        context = chromium.new_context(
            viewport=PHONE, base_url=address, color_scheme=scheme, bypass_csp=True
        )
        contexts.append(context)
        return context.new_page()

    yield page
    for context in contexts:
        context.close()


def unfold(page):
    page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.skipif(not AXE.exists(), reason="needs axe-core: npm ci")
def test_axe_finds_nothing_on_any_page(inspected, visitor, scheme):
    """WCAG 2.2 AA as far as axe can see it, every part of a page unfolded."""
    SHOTS.mkdir(parents=True, exist_ok=True)
    page, faults = inspected(scheme), {}
    for name, path in paths(visitor).items():
        page.goto(path)
        page.screenshot(path=SHOTS / f"{name}-{scheme}.png", full_page=True)
        unfold(page)
        page.add_script_tag(path=AXE)
        for each in page.evaluate("rules => axe.run({runOnly: rules})", RULES)["violations"]:
            faults[f"{name}: {each['id']}"] = [node["html"] for node in each["nodes"]]
    assert faults == {}


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_no_page_scrolls_sideways(opened, visitor, width):
    page = opened({"width": width, "height": 800})
    wide = {}
    for name, path in paths(visitor).items():
        if name == "nowhere":
            continue
        page.goto(path)
        unfold(page)
        found = page.evaluate("document.documentElement.scrollWidth")
        wide |= {name: found} if found > width else {}
    assert wide == {}


def test_what_is_tapped_is_large_enough(opened, visitor):
    """Gloves: buttons, fields and summaries are 44 px high or more (WCAG 2.5.5)."""
    page = opened()
    small = {}
    for name, path in paths(visitor).items():
        if name == "nowhere":
            continue
        page.goto(path)
        for each in page.query_selector_all("button, input, select, summary, .button, nav a"):
            box = each.bounding_box()
            kind = each.get_attribute("type")
            if box and box["height"] and box["height"] < 44 and kind not in ("radio", "checkbox"):
                small[name] = each.evaluate("each => each.outerHTML")
    assert small == {}


def test_turns_are_counted_and_never_lost(opened, visitor):
    job = visitor.job()
    page = opened()
    page.goto(f"{job}/set")
    save(page, "Count turns")
    for _ in range(3):
        page.click(".tap")
    page.reload()
    assert page.inner_text(".tap output") == "3"
    page.click(".tap")
    save(page, "One back")
    assert page.inner_text(".tap output") == "3"
    save(page, "Beep at field speed")
    assert page.get_by_role("button", name="Stop the beep").get_attribute("aria-pressed") == "true"
    save(page, "Use this count")
    assert page.input_value("#f-turns") == "3"
    page.reload()
    assert page.get_by_role("button", name="Count turns").is_visible()


def test_a_chart_is_drawn_while_it_is_typed(opened, visitor):
    drill = visitor.send("/drills/new", visitor.HERON)
    page = opened(DESK)
    page.goto(f"{drill}/charts/new")
    page.fill("#f-points", "20 36\n30 54")
    page.locator("#sketch circle").first.wait_for()
    assert page.locator("#sketch circle").count() == 2
    assert not page.get_by_role("button", name="Draw it").is_visible()


def test_a_double_tap_saves_once(opened, visitor, book):
    job = visitor.job()
    page = opened(java_script_enabled=False)
    page.goto(f"{job}/set")
    fill(page, setting="30", turns="20", rows_caught="20", net="35.33")
    page.get_by_role("button", name="Save catch").dblclick(no_wait_after=True)
    page.get_by_text("Catch 1, at 30").wait_for()
    assert len(book.things("catch")) == 1


def test_with_the_keyboard_alone(opened, visitor):
    page = opened(DESK)
    page.goto("/drills/new")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "To the page"
    page.focus("#f-name")
    page.keyboard.type("Egret")
    page.keyboard.press("Tab")
    page.keyboard.type("16")
    page.keyboard.press("Tab")
    page.keyboard.type("7.5")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Egret").wait_for()
    assert re.search(r"/drills/[0-9a-f-]{36}$", page.url)


SIGNED_OUT = ("/sign-in", "/drills/new")
SIGNED_IN = ("/people", "/password", "/book", "/drills")


@pytest.mark.usefixtures("cheap_passwords")
@pytest.mark.parametrize("javascript", [True, False], ids=["javascript", "plain"])
def test_from_the_first_account_to_a_second_person_s_entry(opened, book, javascript):
    page = opened(java_script_enabled=javascript)
    page.goto("/people")
    fill(page, name="Ada", password="rain on dry clods", again="rain on dry clods")
    save(page, "Make the account")
    page.get_by_role("heading", name="One more person").wait_for()
    fill(page, name="Ben", password="frost on wet clods")
    save(page, "Make the account")
    page.get_by_role("heading", name="Ben").wait_for()
    page.goto("/book")
    save(page, "Sign out")
    page.get_by_role("heading", name="Sign in").wait_for()
    page.goto("/drills/new")
    fill(page, name="ben", password="frost on wet clods")
    save(page, "Sign in")
    page.get_by_role("heading", name="New drill").wait_for()
    fill(page, name="Heron", rows="20", spacing="7.5")
    save(page, "Save drill")
    page.get_by_role("heading", name="Heron").wait_for()
    assert book.things("drill")[0].entry.by == "Ben"
    assert page.get_by_text("Take this drill off the list").count() == 0


@pytest.mark.usefixtures("cheap_passwords")
@pytest.mark.skipif(not AXE.exists(), reason="needs axe-core: npm ci")
def test_axe_finds_nothing_where_people_sign_in(inspected, book, address):
    page, faults = inspected("light"), {}
    ada = book.people.add("Ada", "rain on dry clods", role="keeps")
    for token, paths in ((None, SIGNED_OUT), (book.people.begin(ada.id), SIGNED_IN)):
        if token:
            page.context.add_cookies([{"name": "session", "value": token, "url": address}])
        for path in paths:
            page.goto(path)
            unfold(page)
            page.add_script_tag(path=AXE)
            found = page.evaluate("rules => axe.run({runOnly: rules})", RULES)["violations"]
            faults |= {f"{path}: {each['id']}": each["nodes"][0]["html"] for each in found}
            assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert faults == {}


def test_the_lines_of_a_job_follow_the_drill_that_is_chosen(opened, visitor):
    two = {"box1_name": "grain", "box2_name": "small seed"}
    heron = visitor.heron(**two).rsplit("/", 1)[1]
    teal = visitor.heron(**two, box3_name="fluffy", name="Teal").rsplit("/", 1)[1]
    page = opened()
    page.goto(f"/jobs/new?drill={heron}")
    page.fill("#f-name", "Teal Draw")
    page.fill("#f-wanted1_rate", "54")
    page.select_option("#f-drill", teal)
    page.wait_for_selector("#f-wanted3_box")
    assert page.input_value("#f-wanted3_box") == "fluffy"
    assert (page.input_value("#f-name"), page.input_value("#f-wanted1_rate")) == ("Teal Draw", "54")
