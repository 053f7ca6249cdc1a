"""Bodies that programs send: made into their types, and asked what a form would be asked."""

from collections.abc import Iterator
from contextlib import contextmanager

import msgspec
from msgspec import Raw

from evenstand.book.kinds.shape import Body
from evenstand.book.log.carrying import strange
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.tasks.library.amounts import read_amounts
from evenstand.tasks.library.checking import check
from evenstand.tasks.parsing.writing import RefusalsError

from ..site import here
from .answers import InJson, misshapen


def read_body(raw: Raw, kind: type[Body], *, again: bool = False) -> Body:
    """Make a body of what was sent, and see that it can be used.

    What was kept before under its id is not looked at again: a drill that was
    removed meanwhile does not turn what was sent twice into a refusal.
    """
    try:
        tree = msgspec.json.decode(raw)
        with _in_body():
            tree = read_amounts(tree, kind)
        body = msgspec.convert(tree, kind)
    except msgspec.ValidationError as refused:
        raise misshapen(refused, "body") from None
    for path in strange(bytes(raw), kind):
        names = ", ".join(kind.__struct_fields__)
        need = say("not known here: use one of {names}", names=names)
        raise MeasurementError(InJson("body", *path), None, need)
    if not again:
        with _in_body():
            check(body, here.book(), today=here.this_month())
    return body


@contextmanager
def _in_body() -> Iterator[None]:
    """Let what is refused inside be named as it stands in what was sent."""
    try:
        yield
    except RefusalsError as refused:
        raise RefusalsError(_placed(each) for each in refused.each) from None
    except MeasurementError as refused:
        raise _placed(refused) from None


def _placed(refused: MeasurementError) -> MeasurementError:
    match refused.path:
        case ("mix", int(number), key):
            return refused.at(InJson("body", "members", number, key))
        case _:
            return refused.at(InJson("body", *refused.path))
