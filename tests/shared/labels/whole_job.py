"""Sentences of the room whole_job that tests look for."""

from .label import Label

SETTING_EACH_BOX = Label(
    "From each box's setting and its catches: the seed used was not weighed, or "
    "the area was not entered."
)
WEIGHT_SEED_WENT = Label("By weight: seed used from each box, over the area seeded.")
