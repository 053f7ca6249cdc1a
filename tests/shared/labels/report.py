"""Sentences of the room report that tests look for."""

from .label import Label

A_CHANGE_AT = Label("{seen}; changed at {place}")
NOT_WRITTEN_DOWN = Label("not recorded")
NO_TARGET = Label("no target")
OF_THE_WEIGHT_NAME_SHARE = Label("{name}: {share} of the weight.")
PARTS_MIX_WEIGHT = Label("Share of the mix by weight and by live seeds")
PLACES_FROM_TO = Label("{n} spots, from {low} to {high}")
POINTS_FROM_AT = Label("{n} points, from {low} at {from_} to {high} at {to}")
RANGE_TO = Label("{value}, range {low} to {high}")
RATE_ACROSS_FIELD = Label("Rate across the field")
ROWS_FURTHEST_MEAN = Label("{n} rows; the farthest from average is row {row} at {off}%")
SETTING_GIVES_CAUGHT = Label("Setting {setting} drops {rate}; {catches} so far")
WANTED_TO = Label("target {low} to {high}")
WEIGHT_LIVE_SEEDS = Label("{letter}, {name}: {weight} of the weight, {seeds} of the live seeds.")
WHAT_IS_IN = Label("What is in {box}")
WISHED_FOR = Label("goal {stand}")
WISHED_FOR_RANGE_STAND = Label("{range}; goal {stand}")
