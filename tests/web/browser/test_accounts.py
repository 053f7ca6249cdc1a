"""People before a browser: the first account, a second person, and whoever is signed out."""

import pytest

SIGNED_OUT = ("/sign-in", "/drills/new")
SIGNED_IN = ("/people", "/password", "/settings", "/drills")


@pytest.mark.usefixtures("cheap_passwords")
@pytest.mark.parametrize("javascript", [True, False], ids=["javascript", "plain"])
def test_from_the_first_account_to_a_second_person_s_entry(opened, book, javascript):
    screen = opened(java_script_enabled=javascript)
    page = screen.page
    page.goto("/people")
    screen.fill(name="Ada", password="rain on dry clods", again="rain on dry clods")
    screen.press("Create account")
    page.get_by_role("heading", name="Add a person").wait_for()
    screen.fill(name="Ben", password="frost on wet clods")
    screen.press("Create account")
    page.get_by_role("heading", name="Ben").wait_for()
    page.goto("/settings")
    screen.press("Sign out")
    page.get_by_role("heading", name="Sign in").wait_for()
    page.goto("/drills/new")
    screen.fill(name="ben", password="frost on wet clods")
    screen.press("Sign in")
    page.get_by_role("heading", name="New drill").wait_for()
    screen.fill(name="Heron", rows="20", spacing="7.5")
    screen.press("Save drill")
    page.get_by_role("heading", name="Heron").wait_for()
    assert book.things("drill")[0].entry.by == "Ben"
    assert page.get_by_text("Remove this drill from the list").count() == 0


@pytest.mark.usefixtures("cheap_passwords")
def test_nothing_is_wrong_where_people_sign_in(opened, book, *, address, inspect):
    page = opened().page
    ada = book.people.add("Ada", "rain on dry clods", role="keeps")
    for token, paths in ((None, SIGNED_OUT), (book.people.begin(ada.id), SIGNED_IN)):
        if token:
            page.context.add_cookies([{"name": "session", "value": token, "url": address}])
        for path in paths:
            page.goto(path)
            inspect(page, path)
    assert inspect.faults == {}
