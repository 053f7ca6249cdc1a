"""What the app is made of. A new step is a module with a ``blueprint`` and a ``STEP``.

Put its STEP in the place of the `later` one, and its blueprint into BLUEPRINTS.
"""

from . import (
    book_pages,
    catches,
    charts,
    drills,
    jobs,
    later,
    people,
    pool,
    reading,
    seed,
    set_page,
)

STEPS = (later.MIX, later.BOXES, later.ORDER, set_page.STEP, later.SOW, later.STAND, later.RECORD)
BLUEPRINTS = (
    jobs.blueprint(STEPS),
    drills.blueprint,
    charts.blueprint,
    set_page.blueprint,
    catches.blueprint,
    seed.blueprint,
    pool.blueprint,
    book_pages.blueprint,
    reading.blueprint,
    people.blueprint,
    later.blueprint,
)
