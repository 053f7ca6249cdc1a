"""What holds for every test: no deadlines, and no luck on a build machine."""

import os

from hypothesis import HealthCheck, settings

settings.register_profile(
    "house",
    deadline=None,
    derandomize="CI" in os.environ,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("house")
