"""A sentence of the code as tests know it: they hold its values, and none of its words."""

import re

BRACES = re.compile(r"\{(\w+)\}")


class Label(str):
    """A template word for word as it stands in the code; called, it holds its values as written."""

    __slots__ = ()

    @property
    def names(self):
        return set(BRACES.findall(self))

    def __call__(self, **values):
        """The sentence with each of its values as its reader sees it."""
        assert values.keys() == self.names, (self, sorted(values))
        return self.format(**values)

    def like(self, **values):
        """A pattern of the sentence; a value that is not given may be anything."""
        assert values.keys() <= self.names, (self, sorted(values))
        parts = BRACES.split(self)
        parts[1::2] = [
            re.escape(str(values[name])) if name in values else ".+?" for name in parts[1::2]
        ]
        parts[::2] = map(re.escape, parts[::2])
        return "".join(parts)
