"""The words of other languages: catalogues beside this module, English is in the code."""

from collections.abc import Callable, Iterable
from functools import cache
from gettext import GNUTranslations, NullTranslations
from importlib.resources import files

from evenstand.engine.quantities.phrases import Decimal

LANGUAGES = {"en": "English", "es": "Español"}
# Where Spanish is written with a decimal comma, by country: the Unicode CLDR's `es` locales.
COMMA_COUNTRIES = frozenset(
    ("AR", "BO", "CL", "CO", "CR", "EA", "EC", "ES", "GQ", "IC", "PH", "PY", "UY", "VE")
)
SIGNS: dict[str, Decimal] = {"point": ".", "comma": ","}


def decimal_of(language: str, wished: Iterable[str]) -> Decimal:
    """Return the decimal sign of a language: a comma only in Spanish of a country that has one.

    Spanish of no country is taken for that of the US and Mexico, with a point.

    Parameters
    ----------
    language : str
        In which the page is written.
    wished : iterable of str
        Languages that a browser asks for, the best first: ``es-AR``.
    """
    for tag in wished:
        first, _, country = tag.replace("_", "-").partition("-")
        if first.lower() == language == "es" and country:
            return "," if country.upper() in COMMA_COUNTRIES else "."
    return "."


@cache
def looking_up(language: str) -> Callable[[str], str]:
    """Return what turns an English template into a language; what is missing stays English."""
    catalogue = files("evenstand.web") / "words" / f"{language}.mo"
    if not catalogue.is_file():
        return NullTranslations().gettext
    with catalogue.open("rb") as words:
        found = GNUTranslations(words)
    return found.gettext
