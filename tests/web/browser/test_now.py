"""A rate in a minute: fields and taps counted, and what is typed stays."""

import labels

SAID = {"rows": "24", "spacing": "7.5", "rolled": "95", "turns": "18⅓", "net": "48"}


def taps_to_a_rate(screen, fields):
    """Go there and fill in; each field is one tap, the way there another."""
    taps = 0
    screen.page.goto("/")
    screen.follow("Calibrate now")
    taps += 1
    for name, text in fields.items():
        screen.tap(screen.page.locator(f"#f-{name}"))
        screen.page.keyboard.type(text)
        taps += 1
    screen.page.locator("#found .notch").wait_for()
    return taps


def test_an_empty_book_tells_a_rate_after_five_fields_and_eight_taps(opened, visitor):
    assert visitor.book.things("drill") == []
    screen = opened("phone")
    assert len(SAID) <= 5
    assert taps_to_a_rate(screen, SAID) <= 8
    assert screen.page.locator("#found .notch").inner_text() == "60"
    box = screen.page.locator("#found .notch").bounding_box()
    assert box["y"] + box["height"] < screen.page.viewport_size["height"] - 56  # over the places


def test_a_kept_drill_tells_a_rate_after_one_field_and_three_taps(opened, visitor):
    visitor.heron()
    screen = opened("phone")
    assert taps_to_a_rate(screen, {"net": "40"}) <= 3
    # 22 turns of 95 in under 20 rows at 7.5 in are 0.04998 ac: 40 oz on them are 50.0 lb/ac.
    assert screen.page.locator("#found .notch").inner_text() == "50"


def test_what_was_typed_is_there_after_a_reload(opened, visitor):
    page = opened("phone").page
    page.goto("/calibrate")
    for name, text in SAID.items():
        page.fill(f"#f-{name}", text)
    page.reload()
    page.locator("#found .notch").wait_for()
    assert {name: page.input_value(f"#f-{name}") for name in SAID} == SAID
    page.get_by_text("Begin anew").click()
    page.wait_for_function("() => document.querySelector('#f-net').value === ''")


def test_weights_of_rows_survive_a_reload_and_go_once_they_are_saved(opened, visitor, book):
    job = visitor.job()
    page = opened("phone").page
    page.goto(f"{job}/calibrate?each=yes")
    page.fill("#f-turns", "20")
    for row in (3, 8, 12, 17):
        page.fill(f"#f-row{row}", "1.9")
    page.reload()
    page.wait_for_function("() => document.querySelector('#f-row12').value === '1.9'")
    page.get_by_role("button", name="Save catch").click()
    page.get_by_text(labels.CATCH_AT(n=1, setting=30)).wait_for()
    assert len(book.things("catch")) == 1
    page.goto(f"{job}/calibrate?each=yes")
    assert page.input_value("#f-row12") == ""


def test_a_draft_never_comes_back_over_what_was_saved_since(opened, visitor, book):
    drill = visitor.heron()
    page = opened("phone").page
    page.goto(f"{drill}/edit")
    page.fill("#f-name", "Heron, left opener worn")
    fields = visitor.read(f"{drill}/edit").fields
    visitor.send(f"{drill}/edit", fields | {"name": "Heron, mended"})
    page.reload()
    assert page.input_value("#f-name") == "Heron, mended"
