"""What day it is: read here and nowhere else."""

from datetime import date

import click

from evenstand.engine.seed.tag import Month
from evenstand.tasks.parsing.dates import month
from evenstand.tasks.parsing.given import Given

from .flags import Flag

TODAY = click.option("--today", metavar="MONTH", help="Figure test ages as of this month: 2026-11.")


def this_month(today: str | None) -> Month:
    """Return the month that was given, or the one the clock says."""
    if today is None:
        now = date.today()
        return Month(now.year, now.month)
    return month(Given({"today": today}, Flag), "today")
