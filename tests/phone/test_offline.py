"""The whole job where there is no network, and the office afterwards."""

import runpy
from pathlib import Path

STEPS = runpy.run_path(str(Path(__file__).parent / "steps.py"))
KINDS = {
    "chart",
    "drill",
    "field",
    "job",
    "lot",
    "mix",
    "order",
    "setting",
    "split",
    "load",
    "count",
}


def do(name, *given):
    return STEPS[name](*given)


def rate_without_a_job(page):
    """24 rows at 7.5 in, 18⅓ turns of 95 in: 48 oz from all of them are 60 lb/ac."""
    page.goto("/calibrate")
    do("answering", page)
    said = {"rows": "24", "spacing": "7.5", "rolled": "95", "turns": "18⅓", "net": "48"}
    STEPS["fill"](page, **said)
    page.locator("#found .notch", has_text="60").wait_for()


def check(found, written):
    """Each entry of the phone is in the office, once, and every step is among them."""
    assert set(found) == set(written)
    kinds = [entry.kind for entry in found.values()]
    assert set(kinds) >= KINDS
    assert kinds.count("catch") == 3


def test_a_job_from_its_drill_to_an_accepted_notch(office, carried, paired):
    """No network in the browser and no office either; then both again."""
    page = paired
    carried.cut()
    office.stop()
    rate_without_a_job(page)
    job = do("whole_job", page)
    page.reload()
    page.get_by_text("Go to Seeding").wait_for()
    do("ready", page)
    written = do("entries", page)
    assert all(written.values())
    page.get_by_text(f"{len(written)} entries waiting to sync.").wait_for()
    carried.close()

    page = carried.open()
    carried.cut()
    page.goto(job)
    do("ready", page)
    assert do("entries", page) == written
    page.goto(f"{job}/calibrate")
    page.get_by_text("Go to Seeding").wait_for()

    office.start()
    carried.cut(False)
    do("handed_over", page)
    check(office.entries(), written)
    assert not any(do("entries", page).values())
