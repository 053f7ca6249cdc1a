"""The steps of the demo as pages, short enough to be read one after the other."""

from collections.abc import Iterator

from evenstand.report.notebook import Lines
from evenstand.tasks.boxes.boxes import Boxed
from evenstand.tasks.mix.mix import Mixed
from evenstand.tasks.order.order import Ordered

from .box_pages import box_part, given_up_part
from .mix_pages import mix_table
from .order_pages import bags_part, loads_part
from .output import Out
from .pages import tag


def mix_short(found: Mixed, out: Out, *, name: str) -> Iterator[Lines]:
    """Show what is to grow."""
    yield [*out.sheet.heading(f"Mix · {name}", "step 1"), *tag(out, found.advice)]
    yield mix_table(found, out)


def boxes_short(found: Boxed, out: Out, *, name: str) -> Iterator[Lines]:
    """Show which seed goes where."""
    yield [*out.sheet.heading(f"Boxes · {name}", "step 2"), *tag(out, found.advice)]
    for filled in found.boxes.used:
        yield box_part(filled, out)
    yield given_up_part(found, out)


def order_short(found: Ordered, out: Out, *, name: str) -> Iterator[Lines]:
    """Show what to buy and where each load runs out."""
    yield [*out.sheet.heading(f"Order · {name}", "step 3"), *tag(out, found.advice)]
    yield bags_part(found, out)
    for loads in found.loads:
        yield loads_part(loads, out)
