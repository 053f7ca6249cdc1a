"""Sentences of the room whole_job that tests look for."""

from .label import Label

SETTING_EACH_BOX = Label(
    "By the setting of each box and its catches: what went out was not weighed, or the ground "
    "not written down."
)
WEIGHT_SEED_WENT = Label(
    "By weight: seed that went out of each box, over the ground that was sown."
)
