"""Turns counted by taps: heard and said, never lost by a slip, with the last part of a turn."""

import pytest

# 12.5 ft × 95 in are 98.958 ft² a turn, and an acre 43,560 ft²: 4 1/3 turns are 428.82 ft².
FOUR_AND_A_THIRD = "0.0098443 ac"
LISTEN = """
window.tones = []; window.said = []; window.locks = [];
const make = AudioContext.prototype.createOscillator;
AudioContext.prototype.createOscillator = function () {
  const tone = make.call(this), start = tone.start;
  tone.start = (at) => { tones.push(tone.frequency.value); start.call(tone, at); };
  return tone;
};
speechSynthesis.speak = (spoken) => said.push([spoken.text, spoken.lang]);
Object.defineProperty(navigator, "wakeLock", {value: {async request(kind) {
  const lock = new EventTarget();
  lock.release = () => { lock.ended = true; lock.dispatchEvent(new Event("release")); };
  locks.push(lock);
  return lock;
}}});
"""
KEYS = """[...document.querySelectorAll("turn-counter button")].filter(key => key.checkVisibility())
  .map(key => { const at = key.getBoundingClientRect();
                return [key.dataset.do, at.x, at.y, at.width, at.height] })"""
THUMB = 76  # CSS px: 2 cm
NEAREST = 12  # px between keys, one of which undoes the other
LEAST = 48  # px of a key


@pytest.fixture
def counting(opened, visitor):
    """Open the counter of a job, as ``counting("es", ground="0.1 ac")``."""

    def open_it(language="en", ground=""):
        job = visitor.job()
        screen = opened("phone", language)
        screen.page.add_init_script(LISTEN)
        screen.page.goto(f"{job}/calibrate?ground={ground}")
        screen.page.click("[data-do=open]")
        return screen

    return open_it


def press(page, *keys):
    for key in keys:
        page.click(f"turn-counter {key if key.startswith('[') else f'[data-do={key}]'}")


def tap(page, times):
    for _ in range(times):
        press(page, "tap")


def counted(page):
    return page.inner_text(".tap output")


def test_turns_are_counted_and_never_lost(counting):
    page = counting().page
    tap(page, 3)
    page.reload()
    assert counted(page) == "3"
    press(page, "tap", "back")
    assert counted(page) == "3"
    press(page, "use")
    assert page.input_value("#f-turns") == "3"
    assert not page.is_visible(".tap")
    page.reload()
    assert not page.is_visible(".tap")


def test_a_count_of_an_older_page_goes_on(counting):
    page = counting().page
    tap(page, 2)
    [place] = page.evaluate("Object.keys(localStorage).filter(each => each.startsWith('turns-'))")
    page.evaluate("place => localStorage.setItem(place, '7')", place)
    page.reload()
    assert counted(page) == "7"


def test_the_last_part_of_a_turn_is_a_key(counting):
    page = counting(ground=FOUR_AND_A_THIRD).page
    tap(page, 4)
    assert "Now the last part: ⅓" in page.inner_text(".tap")
    press(page, "[data-part].own")
    assert counted(page) == "4⅓"
    press(page, "[data-part='0.750000']")  # another replaces it, and the same takes it away
    assert counted(page) == "4¾"
    press(page, "back")
    assert counted(page) == "4"
    press(page, "[data-part].own", "use")
    assert page.input_value("#f-turns") == "4.333"


def test_a_part_that_is_no_key_is_one_more(counting):
    """435.6 ft² ÷ 98.958 ft² are 4.402 turns."""
    screen = counting("es", ground="0.01 ac")
    assert screen.page.inner_text("[data-part].own") == "0.4"
    tap(screen.page, 4)
    press(screen.page, "[data-part].own")
    assert counted(screen.page) == "4.4"


def test_each_turn_has_a_tone_and_the_last_another(counting):
    page = counting(ground=FOUR_AND_A_THIRD).page
    tap(page, 4)
    press(page, "[data-part].own")
    each, last = page.evaluate("tones")[0], page.evaluate("tones")[3]
    assert each != last
    assert page.evaluate("tones") == [each, each, each, last, last]


def test_a_pace_is_beeped_if_it_is_asked_for(counting):
    """One turn of 95 in takes 1.1 s at 5 mph."""
    page = counting().page
    press(page, "beep")
    page.wait_for_function("() => tones.length >= 2")
    assert page.locator("[data-do=beep]").get_attribute("aria-pressed") == "true"
    press(page, "beep")
    assert page.locator("[data-do=beep]").get_attribute("aria-pressed") == "false"


def test_the_last_three_turns_are_said_if_that_is_asked_for(counting):
    page = counting("es", ground=FOUR_AND_A_THIRD).page
    tap(page, 4)
    assert page.evaluate("said") == []
    press(page, "ask", "clear", "voice")
    page.reload()
    page.click("[data-do=open]")
    tap(page, 5)
    assert page.evaluate("said") == [[n, "es"] for n in ("2", "3", "4")]


def test_beginning_at_0_is_asked_about_and_can_be_undone(counting):
    page = counting().page
    tap(page, 5)
    press(page, "ask")
    assert page.is_visible("text=You have counted 5. Begin at 0?")
    press(page, "keep")
    assert counted(page) == "5"
    press(page, "ask", "clear", "tap")
    page.reload()
    page.get_by_role("button", name="Back to 5").click()
    assert counted(page) == "5"
    page.get_by_role("button", name="Back to 1").click()
    assert counted(page) == "1"


def test_nothing_is_asked_where_nothing_was_counted(counting):
    page = counting().page
    press(page, "ask")
    assert not page.is_visible(".asked")


def test_the_screen_stays_on_while_it_counts(counting):
    page = counting().page
    page.wait_for_function("() => locks.length === 1")
    tap(page, 3)
    assert page.evaluate("locks.length") == 1
    page.evaluate("locks[0].release(); document.dispatchEvent(new Event('visibilitychange'))")
    page.wait_for_function("() => locks.length === 2")
    press(page, "use")
    page.wait_for_function("() => locks[1].ended")
    assert page.evaluate("locks.length") == 2


@pytest.mark.parametrize("size", ["phone", "narrow"])
def test_a_slip_of_the_thumb_undoes_nothing(counting, sizes, size):
    page = counting(ground="0.01 ac").page
    page.set_viewport_size(sizes[size])
    tap(page, 1)
    press(page, "ask")
    keys = page.evaluate(KEYS)
    assert {"tap", "part", "use", "back", "keep", "clear"} <= {name for name, *_ in keys}
    assert [key for key in keys if min(key[3:]) < LEAST] == []
    for i, key in enumerate(keys):
        for other in keys[i + 1 :]:
            assert apart(key, other) >= NEAREST, (key, other)
    (top,) = [key for key in keys if key[0] == "tap"]
    assert all(apart(top, key) > THUMB for key in keys if key[0] in ("keep", "clear"))


def apart(one, other):
    """How far the edges of two keys are from each other."""
    _, x1, y1, w1, h1 = one
    _, x2, y2, w2, h2 = other
    across = max(x1 - x2 - w2, x2 - x1 - w1, 0)
    down = max(y1 - y2 - h2, y2 - y1 - h1, 0)
    return round(max(across, down), 1)
