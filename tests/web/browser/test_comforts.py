"""What scripts add, and what must hold without them: drawing, one save for two taps."""

from base64 import b64decode

import pytest
from msgspec.structs import replace

import labels

RYE = {"species": "cereal rye", "purity": "98%", "germination": "92%", "name": "R-26"}
DRAWN = """document.createElement("canvas").toDataURL("image/jpeg").split(",")[1]"""
PLACE = b"Exif\0\0 45.1 N 93.2 W"


def set_page(opened, visitor, **options):
    job = visitor.job()
    screen = opened(**options)
    screen.page.goto(f"{job}/calibrate")
    return screen


def test_a_chart_is_drawn_while_it_is_typed(opened, visitor):
    drill = visitor.send("/drills/new", visitor.HERON)
    page = opened("desk").page
    page.goto(f"{drill}/charts/new")
    page.fill("#f-points", "20 36\n30 54")
    page.locator("#sketch circle").first.wait_for()
    assert page.locator("#sketch circle").count() == 2
    assert not page.get_by_role("button", name="Draw it").is_visible()


def test_a_double_tap_saves_once(opened, visitor, book):
    screen = set_page(opened, visitor, java_script_enabled=False)
    screen.fill(setting="30", turns="20", rows_caught="20", net="35.33")
    screen.page.get_by_role("button", name="Save catch").dblclick(no_wait_after=True)
    screen.page.get_by_text("Catch 1, at 30").wait_for()
    assert len(book.things("catch")) == 1


def test_the_lines_of_a_job_follow_the_drill_that_is_chosen(opened, visitor):
    two = {"box1_name": "grain", "box2_name": "small seed"}
    heron = visitor.heron(**two).rsplit("/", 1)[1]
    teal = visitor.heron(**two, box3_name="fluffy", name="Teal").rsplit("/", 1)[1]
    page = opened().page
    page.goto(f"/jobs/new?drill={heron}")
    page.fill("#f-name", "Teal Draw")
    page.fill("#f-wanted1_rate", "54")
    page.select_option("#f-drill", teal)
    page.wait_for_selector("#f-wanted3_box")
    assert page.input_value("#f-wanted3_box") == "fluffy"
    assert (page.input_value("#f-name"), page.input_value("#f-wanted1_rate")) == ("Teal Draw", "54")


def test_where_a_photo_was_taken_is_not_kept(opened, visitor, book):
    page = opened().page
    page.goto(visitor.send("/seed/new", RYE) + "/photos/new")
    plain = b64decode(page.evaluate(DRAWN))
    segment = b"\xff\xe1" + (2 + len(PLACE)).to_bytes(2) + PLACE  # as a camera writes it
    taken = {"name": "tag.jpg", "mimeType": "image/jpeg", "buffer": plain[:2] + segment + plain[2:]}
    page.set_input_files("#f-photo", taken)
    page.locator("photo-picker img").wait_for()
    page.get_by_role("button", name="Save photo").click()
    page.locator(".photos img").wait_for()
    [photo] = book.things("photo")
    assert photo.body.media == "image/jpeg"
    assert PLACE not in photo.body.data


def test_whose_change_counts_is_asked_on_a_phone_without_scripts(opened, shelf, *, book):
    """Every key can be tapped, nothing is wider than the screen, and one more save decides."""
    lot = shelf()
    page = opened(java_script_enabled=False).page
    page.goto(f"/seed/{lot}/edit")
    now = book.get(lot).body
    book.correct(lot, replace(now, tag=replace(now.tag, germination=0.93)), by="Nia")
    page.fill("#f-germination", "88")
    page.get_by_role("button", name="Save lot").click()
    page.get_by_text("Germination: Nia changed 90% to 93%").wait_for()
    keys = page.locator("#meanwhile label")
    assert [keys.nth(i).bounding_box()["height"] >= 44 for i in range(keys.count())] == [True] * 2
    wide = page.locator("#meanwhile").bounding_box()
    assert wide["x"] >= 0
    assert wide["x"] + wide["width"] <= page.viewport_size["width"]
    keys.get_by_text("Use my 88%").click()
    page.get_by_role("button", name="Save lot").click()
    page.wait_for_url(f"**/seed/{lot}")
    assert book.get(lot).body.tag.germination == 0.88


def test_the_last_places_are_behind_more_on_a_phone_without_scripts_by_keyboard(opened, keyboard):
    """In the longer language the others fit beside it; on a desk all are in sight."""
    screen = opened("phone", "es", hands=keyboard, java_script_enabled=False)
    page, nav = screen.page, screen.page.locator(".top nav")
    page.goto("/")
    assert nav.evaluate("each => each.scrollWidth") <= page.viewport_size["width"]
    settings = nav.get_by_role("link", name=screen.words("Settings"), exact=True)
    assert not settings.is_visible()
    screen.tap(nav.locator("summary"))
    screen.go(settings)
    assert page.inner_text("h1") == screen.words("Settings")
    assert nav.locator("summary").get_attribute("aria-current") == "true"
    page.set_viewport_size({"width": 1280, "height": 800})
    assert settings.is_visible()
    assert not nav.locator("summary").is_visible()


SHARED = """
window.sent = [];
navigator.share = (what) => { window.sent.push(what.text); return Promise.resolve(); };
"""
COPIED = """
navigator.share = undefined;
navigator.clipboard.writeText = (text) => { window.sent = [text]; return Promise.resolve(); };
"""


@pytest.mark.parametrize("way", [SHARED, COPIED], ids=["shared", "copied"])
def test_a_result_goes_on_as_plain_text(opened, visitor, way):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    page = opened().page
    page.add_init_script(way)
    page.goto(f"{job}/calibrate")
    page.get_by_role("button", name="Share").click()
    page.wait_for_function("() => window.sent.length === 1")
    text = page.evaluate("window.sent[0]")
    # 48.6 lb/ac are what LIGHT weighs on its ground.
    assert "Alder Bench, fall · Heron" in text
    assert "48.6 lb/ac" in text
    assert labels.MOVE_FROM_TO(levers=labels.THE_LEVER, from_=30, to=33) in text
    assert "<" not in text
    if way is COPIED:
        page.get_by_text("Copied.").wait_for()
