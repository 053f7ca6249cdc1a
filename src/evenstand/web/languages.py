"""The words of other languages: catalogues beside this module, English is in the code."""

from collections.abc import Callable
from functools import cache
from gettext import GNUTranslations, NullTranslations
from importlib.resources import files

LANGUAGES = {"en": "English", "es": "Español"}


@cache
def looking_up(language: str) -> Callable[[str], str]:
    """Return what turns an English template into a language; what is missing stays English."""
    catalogue = files(__package__) / "words" / f"{language}.mo"
    if not catalogue.is_file():
        return NullTranslations().gettext
    with catalogue.open("rb") as words:
        found = GNUTranslations(words)
    return found.gettext
