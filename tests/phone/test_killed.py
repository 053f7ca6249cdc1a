"""The browser killed right after it said "saved": what was acknowledged is there."""

import runpy
from pathlib import Path
from random import Random

STEPS = runpy.run_path(str(Path(__file__).parent / "steps.py"))
ROUNDS = 4
WRITE = """async ([entry, name]) => {
    const fields = {entry, name, rows: "20", spacing: "7.5", spacing_unit: "in"};
    const found = await fetch("/drills/new", {method: "POST", body: new URLSearchParams(fields)});
    return found.ok;
}"""


def test_nothing_acknowledged_is_missing(office, carried, paired):
    """Entries one after the other; the kill falls on an acknowledgement, each time another."""
    luck, page, acknowledged = Random(6), paired, set()
    office.stop()
    for turn in range(ROUNDS):
        for n in range(luck.randint(1, 12)):
            entry = f"01a21037-7680-7000-8000-{turn:04d}{n:08d}"
            assert page.evaluate(WRITE, [entry, f"Drill {turn}.{n}"])
            acknowledged.add(entry)
        carried.kill()
        page = carried.open()
        page.goto("/drills")
        STEPS["ready"](page)
        assert acknowledged - STEPS["entries"](page).keys() == set()
    page.get_by_text("Drill 0.0", exact=True).first.wait_for()
    office.start()
    page.evaluate("document.dispatchEvent(new Event('phone:exchange'))")
    STEPS["handed_over"](page)
    assert office.entries().keys() == acknowledged
