"""The page about this phone: where its entries lie, and how they reach the office."""

from flask import Blueprint, abort, render_template, request
from flask.typing import ResponseReturnValue

from ..site import here

blueprint = Blueprint("this_phone", __name__)


@blueprint.get("/this-phone")
def index() -> ResponseReturnValue:
    """Say where the entries are, and offer to hand them over or to export them."""
    if not here.settings().on_phone:
        abort(404)
    return render_template("this_phone.html")


@blueprint.post("/this-phone/not-kept")
def not_kept() -> ResponseReturnValue:
    """Say that the phone's storage did not take what was sent."""
    if not here.settings().on_phone:
        abort(404)
    why = request.get_data(as_text=True)
    headers = {"HX-Retarget": "#told", "HX-Reswap": "innerHTML"}
    return render_template("not_kept.html", full="Quota" in why, why=why), 507, headers
