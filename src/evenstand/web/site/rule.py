"""An address of the app that can be written as soon as it is asked for, not before."""

from collections.abc import Callable
from functools import cache

from werkzeug.routing import Rule

Build = Callable[..., tuple[str, str]]


class LateRule(Rule):
    """A rule of Werkzeug that makes what writes its address when that is first asked.

    Making it takes most of the time in which an app is made: on a phone a
    tenth of a second, for addresses of which a page writes a few.
    """

    def _compile_builder(self, append_unknown: bool = True) -> Build:
        made = cache(super()._compile_builder)

        def build(rule: Rule, /, **values: object) -> tuple[str, str]:
            return made(append_unknown)(rule, **values)

        return build
