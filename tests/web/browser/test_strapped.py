"""Turns counted by the phone itself, strapped to the wheel; its sensors are made up here."""

import pytest

from .test_turns import KEYS, LEAST, LISTEN, NEAREST, apart

# A phone 0.4 m from the hub of an upright wheel, 50 times a second: a ramp of one second to one
# turn a second, and one back to rest. Gravity goes around it; the pull outward is r ω².
MOVES = """
(() => {
  let clock = 100, angle = 0;
  const say = (speed, gain) => {
    clock += 0.02;
    const event = new DeviceMotionEvent("devicemotion", {
      accelerationIncludingGravity: {x: 9.80665 * Math.sin(angle) - 0.4 * speed ** 2,
                                     y: 9.80665 * Math.cos(angle) + 0.4 * gain, z: 0.3},
      rotationRate: {alpha: 0.2, beta: 0, gamma: speed * 180 / Math.PI}, interval: 20});
    Object.defineProperty(event, "timeStamp", {value: clock * 1000});
    window.dispatchEvent(event);
  };
  window.rests = (seconds) => { for (let i = 0; i < seconds * 50; i += 1) say(0, 0); };
  window.turns = (many) => {
    const from = angle, most = Math.min(1, many / 2) * 2 * Math.PI;
    const long = many * 2 * Math.PI / most + 1;
    for (let i = 1; i <= long * 50; i += 1) {
      const at = i / 50, up = Math.min(at, 1), down = Math.max(0, at - long + 1);
      const middle = Math.max(0, Math.min(at, long - 1) - 1);
      angle = from + most * (up ** 2 / 2 + middle + down - down ** 2 / 2);
      say(most * (up - down), most * ((at < 1) - (at > long - 1)));
    }
    angle = from + many * 2 * Math.PI;
  };
  window.pauses = (seconds) => { clock += seconds; };
})()
"""
READY, TURN, LAST, WRONG = 880, 740, 1175, 220  # Hz


@pytest.fixture
def strapped(opened, visitor):
    """Open the counter by motion of a job whose goal is 22.01 turns."""

    def open_it(*scripts, language="en"):
        job = visitor.job()
        page = opened("phone", language).page
        for script in (LISTEN, MOVES, *scripts):
            page.add_init_script(script)
        page.goto(f"{job}/calibrate")
        page.click("[data-do=strap]")
        return page

    return open_it


def state(page, text):
    page.locator("[data-told=state]", has_text=text).wait_for()


def start(page):
    page.click("[data-do=begin]")
    state(page, "Hands off. Wait until it sounds.")
    page.evaluate("rests(3)")
    state(page, "Ready. Turn now.")


def turn(page, many):
    page.evaluate("many => { turns(many); rests(3); }", many)


def test_turns_with_their_part_go_into_the_field_as_if_typed(strapped, book):
    page = strapped()
    start(page)
    turn(page, 21.34)
    # 22.01 less 21.34; a third of a turn from where it began, gravity is good to 0.014 turn.
    state(page, "21.34 ± 0.02 turns. 0.67 to go")
    assert page.is_visible("text=The direction of gravity at rest")
    turn(page, 0.66)
    state(page, "22 ± 0.01 turns")
    page.get_by_role("button", name="Use 22 ± 0.01").click()
    assert page.input_value("#f-turns") == "22 ± 0.01"
    page.fill("#f-rows_caught", "20")
    page.fill("#f-net", "38.89")
    page.get_by_role("button", name="Save catch").click()
    page.get_by_text("Catch 1, at 30").wait_for()
    [catch] = book.things("catch")
    assert catch.body.turns.text == "22 ± 0.01"


def test_it_sounds_when_it_is_ready_at_each_turn_and_before_the_goal(strapped):
    page = strapped()
    start(page)
    page.evaluate("tones.length = 0")
    turn(page, 21.9)
    state(page, "21.9 ± 0.01 turns")
    tones = page.evaluate("tones")
    assert tones.count(TURN) == 21
    # 22.01 less 3% and a quarter of a turn is 21.1: behind the 21st.
    assert tones[:22] == [*(21 * [TURN]), LAST]
    assert tones[-1] == READY
    assert WRONG not in tones


def test_the_last_turns_and_what_was_counted_are_said_if_that_is_asked_for(strapped):
    page = strapped(language="es")
    page.locator("[data-do=voice] >> visible=true").click()
    page.click("[data-do=begin]")
    page.locator("[data-told=state]:not(:empty)").wait_for()
    page.evaluate("rests(3)")
    turn(page, 22.5)
    page.locator("[data-do=take]").wait_for()
    assert page.evaluate("said") == [[n, "es"] for n in ("20", "21", "22", "22.5")]


def test_what_was_counted_outlives_the_page_and_another_start(strapped):
    page = strapped()
    start(page)
    turn(page, 5)
    state(page, "5 ± 0.01 turns")
    page.reload()
    page.get_by_role("button", name="Use 5 ± 0.01").wait_for()
    start(page)
    page.get_by_role("button", name="Use 5 ± 0.01").click()
    assert page.input_value("#f-turns") == "5 ± 0.01"
    page.reload()
    page.locator("[data-do=strap]").wait_for()
    assert not page.is_visible("[data-do=take]")


def test_what_cannot_be_counted_is_said(strapped):
    page = strapped()
    start(page)
    page.evaluate("turns(3); pauses(2); turns(3); rests(3)")
    state(page, "Not counted: the sensors paused.")
    assert page.evaluate("tones").pop() == WRONG
    assert not page.is_visible("[data-do=take]")
    start(page)


def test_a_phone_without_sensors_leads_back_to_tapping(strapped):
    page = strapped()
    page.click("[data-do=begin]")
    state(page, "no motion sensor that this page can read")
    page.get_by_role("button", name="Count by tapping").click()
    page.click(".tap")
    assert page.inner_text(".tap output") == "1"


@pytest.mark.parametrize("answer", ["async () => 'denied'", "async () => { throw new Error() }"])
def test_a_phone_that_may_not_be_read_says_where_to_allow_it(strapped, answer):
    page = strapped(f"DeviceMotionEvent.requestPermission = {answer}")
    page.click("[data-do=begin]")
    state(page, "Allow it in the settings of the browser")


def test_a_phone_that_asks_is_asked_and_counts(strapped):
    page = strapped("DeviceMotionEvent.requestPermission = async () => { window.asked = 1; }")
    start(page)
    assert page.evaluate("asked") == 1


def test_what_to_beware_of_is_open_before_the_first_use(strapped):
    page = strapped()
    caution = page.get_by_text("Turn by hand only.")
    caution.wait_for()
    start(page)
    page.reload()
    page.click("[data-do=strap]")
    page.locator("[data-do=begin]").wait_for()
    assert not caution.is_visible()


def test_its_keys_are_large_and_apart(strapped):
    page = strapped()
    start(page)
    turn(page, 5)
    state(page, "5 ± 0.01 turns")
    keys = page.evaluate(KEYS)
    assert {name for name, *_ in keys} == {"begin", "take", "voice", "open"}
    assert [key for key in keys if min(key[3:]) < LEAST] == []
    for i, key in enumerate(keys):
        assert all(apart(key, other) >= NEAREST for other in keys[i + 1 :])
