"""The steps of a job as a thumb does them, from an empty book to an accepted notch."""


def ready(page):
    """Wait until Python answers and the line about the entries stands."""
    page.locator("hand-over p").first.wait_for()
    page.wait_for_function("() => document.querySelector('hand-over p').textContent")
    answering(page)


def answering(page):
    """Wait until Python answers, after which a copy is shown anew no more."""
    page.wait_for_function("() => document.documentElement.hasAttribute('data-answers')")


def fill(page, **texts):
    for name, text in texts.items():
        shut = page.locator(f"#f-{name}").locator("xpath=ancestor::details[not(@open)]/summary")
        if shut.count():
            shut.first.click()
        page.fill(f"#f-{name}", text)


def save(page, name):
    page.get_by_role("button", name=name, exact=True).click()


def save_and_stay(page, name):
    """Save where the same page is shown anew: its forms then carry another id."""
    ids = "[...document.querySelectorAll('main [name=entry]')].map(each => each.value).join()"
    before = page.evaluate(ids)
    save(page, name)
    page.wait_for_function("before => " + ids + " !== before", arg=before)


def new_drill(page, name="Plover"):
    """Write a drill without its chart, and save it."""
    page.goto("/drills/new")
    answering(page)
    fill(page, name=name, rows="24", spacing="5")
    save(page, "Save drill")


def saved(page, name="Plover"):
    page.get_by_role("heading", name=name, exact=True).wait_for()


def drill(page, name="Heron"):
    page.goto("/drills/new")
    fill(page, name=name, rows="20", spacing="7.5", rolled="95", scale_low="0", scale_high="60")
    fill(page, box1_name="grain", box1_volume="32 bu")
    save(page, "Save drill")
    page.get_by_role("link", name="New chart").first.click()
    fill(page, points="20\t36\n30\t54\n40\t72", seed="rye")
    save(page, "Save chart")
    page.get_by_role("link", name="New job with this drill").wait_for()


def job(page):
    page.get_by_role("link", name="New job with this drill").click()
    fill(page, name="Alder Bench, fall", field_name="Alder Bench", field_area="38.5")
    fill(page, wanted1_rate="54", wanted1_tolerance="5")
    save(page, "Save job")
    page.get_by_role("heading", name="Alder Bench, fall").wait_for()
    return page.url


def lot(page, species, number):
    page.goto("/seed/new")
    answering(page)
    fill(page, species=species, name=number, purity="98", germination="90", tested="2026-08")
    page.fill("#f-bag1_weight", "50")
    save(page, "Save lot")
    page.get_by_role("heading", name=number).first.wait_for()


def mix(page, job):
    page.goto(f"{job}/mix")
    answering(page)
    page.get_by_role("link", name="Enter a mix").click()
    fill(page, name="Fall cover", line1_rate="40", line2_rate="14")
    page.select_option("#f-line1_seed", index=1)
    page.select_option("#f-line2_seed", index=2)
    save(page, "Save mix")
    page.get_by_role("heading", name="Fall cover").wait_for()


def unfold(page):
    page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")


def boxes(page, job):
    page.goto(f"{job}/boxes")
    answering(page)
    unfold(page)
    fill(page, box1_measure="1 gal", box1_sample="6.1 lb")
    save_and_stay(page, "Save this plan")


def order(page, job):
    page.goto(f"{job}/order")
    answering(page)
    unfold(page)
    fill(page, batch="600 lb", pass_length="1290 ft")
    save_and_stay(page, "Save")


def catch(page, setting, ounces):
    fill(page, setting=setting, turns="20", rows_caught="20", net=ounces)
    save(page, "Save catch")


def three_catches(page, job):
    """Begin at 30, then at 33 twice: taken."""
    page.goto(f"{job}/calibrate")
    answering(page)
    catch(page, "30", "35.33")
    page.get_by_text("Catch 1, at 30").wait_for()
    catch(page, "33", "38.89")
    page.get_by_text("Catch 2, at 33").wait_for()
    catch(page, "33", "38.7")
    page.get_by_text("Catch 3, at 33").wait_for()
    save(page, "Lock in 33")
    page.get_by_text("Go to Seeding").wait_for()


def load(page, job):
    page.goto(f"{job}/seeding")
    answering(page)
    page.get_by_role("link", name="Load", exact=True).first.click()
    fill(page, at="0", bags="20", bag="50")
    save(page, "Save")
    page.get_by_text("20 bags of 50 lb").first.wait_for()


def plants(page, job):
    page.goto(f"{job}/stand-count")
    answering(page)
    fill(page, length="3", plants="31 27 35 22 29 33 26 30 38 24")
    save(page, "Add these spots")
    page.get_by_text("295 plants in 10 spots.").wait_for()


def whole_job(page):
    """Every step in its order; gives the address of the job."""
    drill(page)
    url = job(page)
    lot(page, "cereal rye", "R-26")
    lot(page, "hairy vetch", "V-26")
    mix(page, url)
    boxes(page, url)
    order(page, url)
    three_catches(page, url)
    load(page, url)
    plants(page, url)
    page.goto(f"{url}/calibrate")
    return url


def entries(page):
    """The entries in the log of the phone: id → whether it waits."""
    return page.evaluate(
        """async () => {
            const log = await import("/phone/log.js");
            const kept = await log.since(0);
            return Object.fromEntries(kept.map((each) => [each.id, Boolean(each.waiting)]));
        }"""
    )


def handed_over(page):
    """Wait until nothing waits any more."""
    page.get_by_text("Everything is synced.").wait_for()
