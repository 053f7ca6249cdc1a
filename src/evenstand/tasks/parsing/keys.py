"""Keys of a lot in a job file: its tag, and the ways its seeds are counted."""

COUNTS = ("seeds_per_lb", "tsw", "coated_per_lb", "replicates", "counted")
TAG = (
    "purity", "germination", "hard", "dormant", "coating", "inert", "other_crop", "weed",
    "noxious", "total_viable", "tested", "seeds_tested", "hermetic", "treated",
    "home_test", "home_hard",
)  # fmt: skip
