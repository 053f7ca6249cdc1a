"""What holds for every test: no deadlines, and no luck on a build machine."""

import os

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile(
    "house",
    deadline=None,
    derandomize="CI" in os.environ,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("house")


@pytest.fixture(scope="session")
def playwright():
    """What drives browsers: there can be one at a time, so that all tests share it."""
    api = pytest.importorskip("playwright.sync_api", reason="needs playwright")
    with api.sync_playwright() as found:
        yield found
