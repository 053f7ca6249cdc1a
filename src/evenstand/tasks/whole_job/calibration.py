"""The Set step's job, with what its drill has shown before: earlier rates, fields that are done."""

from dataclasses import replace

from evenstand.book.book import Book
from evenstand.engine.calibration.chart import Chart
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import CATCHES
from evenstand.engine.seeding.field_ratio import FieldRatio

from ..calibration.from_book import caught_job
from ..job.calibration import Job
from ..job.kept import Kept, chart_for
from .field_ratios import learned_for
from .past import earlier_rates


def set_job(book: Book, kept: Kept) -> Job:
    """Make the job of the Set step.

    Where the job gives no field ratio, that of the drill's own fields is taken.

    Raises
    ------
    MeasurementError
        Naming what is missing: ``drill``, ``wanted``, ``drill scale``.
    """
    alone = caught_job(kept, chart_for(book, kept))
    earlier = earlier_rates(book, kept, with_test_weight=alone.test_weight is not None)
    learned = learned_for(book, kept)
    return replace(
        alone,
        history=earlier,
        field_ratio=learned.quantity if learned else alone.field_ratio,
        assumed=(*alone.assumed, *_remembered(kept, earlier), *_learned(learned)),
    )


def _learned(found: FieldRatio | None) -> tuple[Phrase, ...]:
    if found is None:
        return ()
    text = "{learned} To use another one, enter a field ratio in the job."
    return (say(text, learned=found.say),)


def _remembered(kept: Kept, earlier: tuple[Chart, ...]) -> tuple[Phrase, ...]:
    if not earlier or kept.wanted is None:
        return ()
    n, seed = CATCHES(len(earlier)), kept.wanted.seed
    return (say("{n} of {seed} with this drill, from earlier jobs, count too", n=n, seed=seed),)
