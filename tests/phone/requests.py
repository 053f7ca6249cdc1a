"""Everything that is asked of a phone's pages over the demo book, and what else they are sent."""

import re
from urllib.parse import urlencode

LINK = re.compile(r'(?:href|src)="(/[^"#]*)')
ID = re.compile(r"[0-9a-f-]{36}")
READERS = ("units=us&language=en&decimal=point", "units=metric&language=es&decimal=comma")
BY_FILE = ("/static/", "/phone/", "/sw.js")  # what the service worker has or fetches itself
# All 20 rows in one bag; then the same without its weight.
CATCH = {"setting": "30", "gear": "full", "turns": "20", "rows_caught": "20", "net": "35.33 oz"}
SLIP = CATCH | {"net": "", "turns": "many"}
COUNT = {"sample1_seeds": "560", "sample1_weight": "20 g"}
SPROUTS = {"dish1_seeds": "100", "dish1_sprouted": "81"}
OWN_WAY = {"member3_box": "grain", "box1_carrier": "sand", "box1_carrier_rate": "6 kg/ha"}
BATCHES = {"batch": "500 lb", "pass_length": "1290 ft", "box1_catches": "6 lb"}
PLACES = {"way": "row", "length": "3 ft", "plants": "31 27, 35", "gaps": "8 in\n0\n0"}
FEW = PLACES | {"gaps": "8 in"}  # a line is missing
LOAD = {"box": "grain", "at": "0 ac", "bags": "24", "bag": "50 lb", "edge": "1200 lb"}
BARE = LOAD | {"bag": ""}
READ = {"box": "grain", "at": "8 ac", "left": "760 ± 6 lb"}
# name;area [ac] and then "Fallow, south";12,5
TABLE = {"kind": "fields", "carried": "bmFtZTthcmVhIFthY10KRmFsbG93LCBzb3V0aDsxMiw1Cg=="}
CHART = "20 36\n30 54"
ENTRY = "01a21037-7680-7000-8000-00000000000{}"


def addresses(pages):
    """Follow every link from the list of jobs on."""
    found, todo = [], ["/", "/this-phone"]
    while todo:
        path = todo.pop(0)
        if path not in found and not path.startswith(BY_FILE):
            found.append(path)
            links = LINK.findall(pages.ask(path)[2])
            todo += [link.replace("&amp;", "&") for link in links]
    return found


def read(paths):
    """Every page for one of two readers in turn, the first of each kind for both."""
    firsts = {ID.sub("", path.partition("?")[0]): path for path in reversed(paths)}
    for i, way in enumerate(READERS):
        yield f"/settings/reading {way}"
        yield from (p for n, p in enumerate(paths) if n % 2 == i or p in firsts.values())


def forms(things):
    """Write into the first job, with a mistake at first, and ask how it looks then."""
    job, drill = f"/jobs/{things['job'][0]}", f"/drills/{things['drill'][0]}"
    lot = f"/seed/{things['lot'][0]}"
    return [
        f"{job}/calibrate {urlencode(SLIP | {'entry': ENTRY.format(1)})}",
        f"{job}/calibrate {urlencode(CATCH | {'entry': ENTRY.format(1)})}",
        f"{job}/calibrate?box=grain",
        f"/catches/{ENTRY.format(1)}",
        f"/catches/{ENTRY.format(1)} {urlencode(CATCH | {'turns': '21', 'why': 'miscounted'})}",
        f"/history/{ENTRY.format(1)}",
        f"{drill}/charts/draw {urlencode({'points': CHART, 'unit': 'lb/ac'})}",
        "/jobs/new name=&speed=fast",
        "/drills/new name=Crane&rows=0",
        "/seed/new species=oats&purity=x",
        f"{lot}/counts/new {urlencode(COUNT | {'entry': ENTRY.format(2)})}",
        f"/counts/{ENTRY.format(2)}?within=2+%25",
        f"{lot}/tests/new {urlencode(SPROUTS | {'entry': ENTRY.format(3)})}",
        f"/tests/{ENTRY.format(3)}",
        lot,
        f"{job}/boxes box1_full=120+%25",
        f"{job}/boxes {urlencode(OWN_WAY | {'entry': ENTRY.format(4)})}",
        f"{job}/boxes?sample=rye+160,+vetch+26,+radish+14,+clover+300&achieved=grain+%2B3+%25",
        f"{job}/boxes/rates entry={ENTRY.format(5)}",
        f"{job}/boxes?changed={ENTRY.format(5)}",
        f"{job}/order batch=no",
        f"{job}/order {urlencode(BATCHES | {'entry': ENTRY.format(6)})}",
        f"{job}/order",
        f"{job}/seeding/load {urlencode(BARE | {'entry': ENTRY.format(8)})}",
        f"{job}/seeding/load {urlencode(LOAD | {'entry': ENTRY.format(8)})}",
        f"{job}/seeding/level {urlencode(READ | {'entry': ENTRY.format(9)})}",
        f"{job}/seeding?box=grain",
        f"/sown/{ENTRY.format(9)}",
        f"{job}/stand-count {urlencode(FEW | {'entry': ENTRY.format(7)})}",
        f"{job}/stand-count {urlencode(PLACES | {'entry': ENTRY.format(7)})}",
        f"{job}/stand-count/wish {urlencode({'wish': '18 plants/ft²', 'crop': 'winter wheat'})}",
        f"{job}/stand-count",
        f"{job}/stand-count?apart=yes",
        f"/plants/{ENTRY.format(7)}",
        f"/tables/look {urlencode(TABLE | {'column1': ''})}",
        f"/tables/look {urlencode(TABLE | {'column1': 'field_note', 'column0': ''})}",
        f"/tables/take {urlencode(TABLE)}",
        "/tables/fields.csv",
        "/settings/check x=",
        "/settings/export",
        job,
    ]


def programs(things):
    """Ask the API for everything that it tells."""
    jobs, drill = [f"/api/jobs/{job}" for job in things["job"]], things["drill"][0]
    steps = ("steps", "mix", "boxes", "order", "set?units=metric", "rows", "sow", "stand", "record")
    return [
        *("/api/", "/api/things?kind=lot", "/api/entries?limit=1000"),
        *(f"/api/things/{drill}", f"/api/things/{drill}/history", "/api/species?name=hairy+vetch"),
        *(f"{job}/{step}" for job in jobs for step in steps),
        *("/api/check", "/api/export", "/api/nowhere", "/api/things"),
    ]


def all_requests(pages, things):
    """Every page, every answer for programs, every form."""
    others = ["/this-phone/not-kept QuotaExceededError", "/devices", "/book?x=1", "/nowhere"]
    return [*read(addresses(pages)), *others, *programs(things), *forms(things)]
