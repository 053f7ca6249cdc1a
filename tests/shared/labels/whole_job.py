"""Sentences of the room whole_job that tests look for."""

from .label import Label

DATE_FITS_OTHERS = Label(
    "enter a date that fits the others: loaded on {loaded}, finished on {ended}"
)
END_ALREADY_ENTERED = Label("the end of this field is already entered: correct that entry")
SETTING_EACH_BOX = Label(
    "From each box's setting and its catches: the seed used was not weighed, or "
    "the area was not entered."
)
USE_OTHER_RATIO = Label("{learned} To use another one, enter a field ratio in the job.")
WEIGHT_SEED_WENT = Label("By weight: seed used from each box, over the area seeded.")
