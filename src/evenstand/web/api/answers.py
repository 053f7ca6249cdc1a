"""What programs send to the API and what they are answered: JSON, and problems as JSON."""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, TypeVar, get_args

import msgspec
from flask import Response, request
from werkzeug.exceptions import HTTPException
from werkzeug.http import HTTP_STATUS_CODES

from evenstand.book.errors import NotKeptError
from evenstand.book.log.nesting import is_too_deep
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import Phrase, Style, System, say
from evenstand.report.json import Document, as_json, refusal
from evenstand.tasks.parsing.writing import RefusalsError

from ..site import here

ROOT = "/api"
JSON, ZIP = "application/json", "application/zip"
PROBLEM = "application/problem+json"
MOST_SHOWN = 200  # characters of what was given, in an answer that refuses it
UNREADABLE, CLASH, WRONG_TYPE, UNUSABLE = 400, 409, 415, 422
CHANGED, UNMATCHED = 412, 428  # against If-Match, without it
BUSY, FULL, AGAIN = 503, 507, 60  # statuses; s
# Answers that depend on who reads them are kept by nobody on the way.
HEADERS = {"Cache-Control": "no-store", "Vary": "Accept-Language, Cookie"}

# How the decoder writes which field it is about, and the parts of its path.
_FIELD = re.compile(r"(?:missing required|unknown) field `(\w+)`")
_PART = re.compile(r"([^.\[\]]+)|\[(\d+)\]")

Asked = TypeVar("Asked")


class InJson(Path):
    """Where an input stands in what was sent: ``body.members[1].share``."""

    __slots__ = ()

    def __str__(self) -> str:
        steps = (f"[{part - 1}]" if isinstance(part, int) else f".{part}" for part in self)
        return "".join(steps).removeprefix(".")


class Problem(msgspec.Struct, frozen=True, kw_only=True):
    """Why a request was refused, as RFC 9457 writes it; ``errors`` has each input refused."""

    type: str = "about:blank"
    title: str
    status: int
    detail: str
    errors: tuple["Refused", ...] = ()


class Refused(msgspec.Struct, frozen=True):
    """An input that was refused: where it stands, what was given, what is needed."""

    field: str
    given: Any
    need: str


class RefusedError(Exception):
    """A request is refused with a status of its own."""

    def __init__(self, status: int, *refused: MeasurementError) -> None:
        super().__init__(status)
        self.status, self.refused = status, refused


def is_asked(path: str) -> bool:
    """Whether a path is one of the API's, an operation's or none's."""
    return path == ROOT or path.startswith(ROOT + "/")


def answer(document: Any, status: int = 200) -> Response:
    """Answer with JSON."""
    return Response(msgspec.json.encode(document), status, HEADERS, mimetype=JSON)


def told(result: Any) -> Response:
    """Answer with a result, as the program's reader wants it."""
    return answer(as_json(result, style()))


def problem(status: int, detail: Phrase | None, refused: Sequence[MeasurementError]) -> Response:
    """Answer with why a request was refused, in its reader's language."""
    style, title = here.style(), HTTP_STATUS_CODES.get(status, "")
    said = style.write(detail) if detail else title
    document = Problem(
        title=title,
        status=status,
        detail=said,
        errors=tuple(Refused(**_shown(refusal(each, style))) for each in refused),
    )
    made = answer(document, status)
    made.content_type = PROBLEM
    return made


def _shown(refused: Document) -> Document:
    given = refused["given"]
    if isinstance(given, str) and len(given) > MOST_SHOWN:
        return refused | {"given": given[:MOST_SHOWN] + "…"}
    return refused


def refused_input(error: MeasurementError) -> Response:
    """Answer that what was given cannot be used."""
    return _refused(UNUSABLE, error.each if isinstance(error, RefusalsError) else (error,))


def refused_request(error: RefusedError) -> Response:
    """Answer with the status that was raised."""
    return _refused(error.status, error.refused)


def _refused(status: int, each: Sequence[MeasurementError]) -> Response:
    lack = next((one for one in each if isinstance(one, NotKeptError)), None)
    if lack is None:
        return problem(status, each[0].need if each else None, each)
    made = problem(unkept(lack), lack.need, each)
    made.headers["Retry-After"] = str(AGAIN)
    return made


def unkept(lack: NotKeptError) -> int:
    """Return the status of what the disk did not take."""
    return FULL if lack.full else BUSY


def refused_http(error: HTTPException, need: Phrase | None) -> Response:
    """Answer what no view was asked about: no such address, no such method, too large."""
    made = problem(error.code or 500, need, ())
    if isinstance(allowed := getattr(error, "valid_methods", None), list | tuple | set):
        made.headers["Allow"] = ", ".join(sorted(allowed))
    return made


def sent(kind: type[Asked]) -> Asked:
    """Read the JSON that was sent as one of the API's types.

    Raises
    ------
    RefusedError
        For another content type, and for text that is no JSON.
    MeasurementError
        For JSON of another shape, naming the place.
    """
    if request.mimetype != JSON:
        need = say("send JSON, as {type}", type=JSON)
        raise RefusedError(WRONG_TYPE, MeasurementError("Content-Type", request.mimetype, need))
    text = request.get_data(cache=False)
    if is_too_deep(text):
        raise _unreadable(say("it is nested too deeply"))
    try:
        return msgspec.json.decode(text, type=kind)
    except msgspec.ValidationError as refused:
        raise misshapen(refused) from None
    except (msgspec.MsgspecError, UnicodeError) as refused:
        raise _unreadable(say("{said}", said=str(refused))) from None


def _unreadable(need: Phrase) -> RefusedError:
    return RefusedError(UNREADABLE, MeasurementError("body", None, need))


def misshapen(refused: Exception, *place: str) -> MeasurementError:
    """Turn what a decoder says into a refusal of a place, such as ``body.rows``."""
    said, _, place_said = str(refused).partition(" - at `$")
    path = InJson(*place)
    for name, index in _PART.findall(place_said.rstrip("`")):
        path = path.part(name or int(index) + 1)
    if field := _FIELD.search(said):
        path = path.part(field[1])
    return MeasurementError(path or "body", None, say("{said}", said=said))


def style() -> Style:
    """Return how the program's reader wants to read: units as asked for, language as it accepts."""
    system = request.args.get("units")
    found: tuple[System, ...] = get_args(System)
    for each in found:
        if each == system:
            return replace(here.style(), system=each)
    return here.style()
