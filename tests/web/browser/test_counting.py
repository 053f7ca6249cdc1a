"""Plants counted with one thumb: big keys, nothing lost on the way, the same without scripts."""


def press(page, *names):
    for name in names:
        page.get_by_role("button", name=name, exact=True).click()


def stand_page(opened, visitor, **options):
    job = visitor.job()
    page = opened(**options).page
    page.goto(f"{job}/stand-count")
    return page, job


def test_places_are_typed_with_big_keys_and_never_lost(opened, visitor, book):
    page, _ = stand_page(opened, visitor)
    page.fill("#f-length", "3")
    press(page, "Big keys", "3", "1", "Next place", "2", "Delete", "7", "Next place")
    assert page.input_value("#f-plants") == "31 7"
    page.reload()
    assert page.input_value("#f-plants") == "31 7"
    assert page.inner_text("place-keys .at span") == "Place 3"
    press(page, "Delete")  # the last number is in hand again
    assert page.input_value("#f-plants") == "31"
    assert page.inner_text("place-keys output") == "7"
    press(page, "Delete")
    page.fill("#f-length", "3")
    press(page, "2", "7")  # the last number goes with the others
    press(page, "Add these spots")
    page.get_by_text("58 plants in 2 spots.").wait_for()
    assert [len(each.body.places) for each in book.things("count")] == [2]
    assert page.input_value("#f-plants") == ""
    page.reload()
    assert page.input_value("#f-plants") == ""


def test_what_is_refused_stays(opened, visitor):
    page, _ = stand_page(opened, visitor)
    press(page, "Big keys", "3", "1")
    press(page, "Add these spots")  # without a length
    page.locator("#f-length-wrong").wait_for()
    assert page.input_value("#f-plants").strip() == "31"


def test_only_the_size_of_the_way_is_asked_for(opened, visitor):
    page, _ = stand_page(opened, visitor)
    assert page.is_visible("#f-length")
    assert not page.is_visible("#f-hoop")
    page.select_option("#f-way", "hoop")
    assert page.is_visible("#f-hoop")
    assert not page.is_visible("#f-length")


def test_without_scripts_the_list_is_typed(opened, visitor):
    page, _ = stand_page(opened, visitor, java_script_enabled=False)
    page.select_option("#f-way", "frame")
    page.fill("#f-side1", "2")
    page.fill("#f-side2", "3")
    page.fill("#f-plants", "31 27 35")
    press(page, "Add these spots")
    page.get_by_text("93 plants in 3 spots.").wait_for()
