"""What the app is made of. A step is a module with a ``blueprint`` and a ``STEP``.

Its STEP stands in STEPS, its blueprint in BLUEPRINTS.
"""

from ..api import routes as api
from ..book import book as book_pages
from ..book import changes, people, reading, tables
from ..drills import charts, drills, pool, position
from ..job import boxes as boxes_page
from ..job import (
    catches,
    handing_over,
    jobs,
    mix_form,
    mix_goal,
    now,
    record,
    sown_entries,
    stand_counts,
)
from ..job import mix as mix_page
from ..job import order as order_page
from ..job import set as set_page
from ..job import sow as sow_page
from ..job import stand as stand_page
from ..phone import devices, exchange, this_phone
from ..phone import files as phone_files
from ..seed import photos, seed
from ..seed import tests as lot_tests
from . import moved

STEPS = (
    mix_page.STEP,
    boxes_page.STEP,
    order_page.STEP,
    set_page.STEP,
    sow_page.STEP,
    stand_page.STEP,
    record.STEP,
)
BLUEPRINTS = (
    jobs.blueprint(STEPS),
    api.blueprint(STEPS),
    drills.blueprint,
    charts.blueprint,
    now.blueprint,
    set_page.blueprint,
    mix_page.blueprint,
    mix_form.blueprint,
    mix_goal.blueprint,
    boxes_page.blueprint,
    handing_over.blueprint,
    order_page.blueprint,
    catches.blueprint,
    seed.blueprint,
    lot_tests.blueprint,
    photos.blueprint,
    pool.blueprint,
    position.blueprint,
    book_pages.blueprint,
    changes.blueprint,
    tables.blueprint,
    reading.blueprint,
    sow_page.blueprint,
    sown_entries.blueprint,
    stand_page.blueprint,
    stand_counts.blueprint,
    record.blueprint,
    people.blueprint,
    devices.blueprint,
    exchange.blueprint,
    phone_files.blueprint,
    this_phone.blueprint,
    moved.blueprint,
)
