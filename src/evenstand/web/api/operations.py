"""Operations of the API: what each takes and answers; the app and its document are made of them."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal

import msgspec
from flask import Response, request
from msgspec import Meta

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import System, say

from .answers import JSON, UNUSABLE, RefusedError, misshapen, told

View = Callable[..., Response]
Method = Literal["GET", "POST", "PUT", "DELETE"]
PART = re.compile(r"<(\w+)>")
LONGEST = 200  # characters of a parameter

Short = Annotated[str, Meta(max_length=LONGEST)]


@dataclass(frozen=True, kw_only=True)
class Parameter:
    """A parameter of a query.

    Parameters
    ----------
    type : type
        As msgspec reads it.
    """

    name: str
    type: Any
    about: str
    needed: bool = False


UNITS = Parameter(name="units", type=System, about="Units of the answer.")


@dataclass(frozen=True, kw_only=True)
class Operation:
    """One thing a program can ask.

    Parameters
    ----------
    path : str
        Below the root, with ``<names>`` of its parts.
    name : str
        Of the operation, and of its endpoint in the app.
    about : str
        One line for who reads the document.
    view : callable
        Called with the parameters of the query by name, and the parts of the path.
    takes : type or schema, optional
        Of the body, None where there is none.
    media : str
        Content type of that body.
    gives : type or schema, optional
        Of the answer; None for what is no JSON.
    status : int
        Of an answer that is no refusal.
    also : tuple of int
        Other status that carry such an answer.
    refuses : tuple of int
        Status of refusals.
    tagged : bool
        Whether its answer has an ETag, and a change needs one as If-Match.
    """

    method: Method
    path: str
    name: str
    about: str
    view: View
    query: tuple[Parameter, ...] = ()
    takes: Any = None
    media: str = JSON
    gives: Any = None
    gives_media: str = JSON
    status: int = 200
    also: tuple[int, ...] = ()
    refuses: tuple[int, ...] = ()
    tagged: bool = False

    @property
    def parts(self) -> list[str]:
        """Names of the parts of its path."""
        return PART.findall(self.path)

    def answer(self, **parts: str) -> Response:
        """Read the query and answer."""
        return self.view(**self._asked(), **parts)

    def _asked(self) -> Mapping[str, Any]:
        known = {each.name: each for each in self.query}
        for name in request.args:
            if name not in known:
                need = say("choose one of {names}, or none", names=", ".join(known) or "—")
                raise RefusedError(UNUSABLE, MeasurementError(name, request.args[name], need))
        asked = {name: _read(each, request.args.get(name)) for name, each in known.items()}
        asked.pop(UNITS.name, None)  # `api_answers.style` reads them; here they are checked
        return asked


def _read(parameter: Parameter, text: str | None) -> Any:
    if text is None:
        if parameter.needed:
            raise MeasurementError(parameter.name, None, say("this is missing; enter it"))
        return None
    try:
        return msgspec.convert(text, parameter.type, strict=False)
    except msgspec.ValidationError as refused:
        raise misshapen(refused, parameter.name) from None


def result_of(find: Callable[..., Any]) -> Mapping[str, Any]:
    """Return the view that tells what is found, and what it gives by the type that is found."""

    def view(**parts: Any) -> Response:
        return told(find(**parts))

    return {"view": view, "gives": find.__annotations__["return"]}


def reckons(name: str, about: str, find: Callable[..., Any], *, takes: Any) -> Operation:
    """Make the operation of a command that needs no book."""
    return Operation(
        method="POST",
        path=f"/{name}",
        name=f"reckon_{name}",
        about=about,
        query=(UNITS,),
        takes=takes,
        refuses=(400, 403, 413, 415, 422),
        **result_of(find),
    )
