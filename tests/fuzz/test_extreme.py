"""Amounts of any size that are taken: whatever is worked out with them is a result or a refusal."""

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from evenstand.book.opening import open_book
from long import TIMES, tried

SIZES = st.one_of(
    st.sampled_from([1e-300, 1e-15, 1e-12, 1e-6, 1e-3, 0.1, 1.0, 20.0, 1e3, 1e6, 1e9, 1e12, 1e15]),
    st.floats(1e-3, 1e3),
)


def amount(sizes):
    return st.builds(
        lambda value, part: {"value": value, "give_or_take": value * part},
        sizes,
        st.sampled_from([0, 0, 0.01, 0.5, 1, 10]),
    )


def now_and_then(strategy):
    return st.none() | strategy


SCALE = st.builds(
    lambda size, **more: {"low": 0, "high": 60 * size, "step": size, **more},
    size=st.sampled_from([1, 1, 1, 1, 1e-9, 1e9]),
    reversed=st.booleans(),
)
DRILL = st.fixed_dictionaries(
    {
        "name": st.just("Heron"),
        "rows": st.sampled_from([20, 24, 1000]),
        "spacing": amount(SIZES),
        "scale": SCALE,
        "rolled": amount(SIZES),
        "row_cv": now_and_then(amount(st.sampled_from([1e-9, 0.05, 0.99]))),
        "gears": st.sampled_from(
            [
                [],
                [],
                [{"name": "half", "ratio": 0.5}],
                [{"name": "half", "ratio": 0.5}, {"name": "full", "ratio": 1}],
            ]
        ),
    }
)
CHART = st.lists(st.tuples(st.floats(0, 60), amount(SIZES)), max_size=4)
JOB = st.fixed_dictionaries(
    {
        "name": st.just("Alder Bench"),
        "wanted": st.fixed_dictionaries(
            {
                "rate": amount(SIZES),
                "tolerance": now_and_then(amount(st.sampled_from([1e-9, 0.05, 0.5]))),
            }
        ).map(lambda wanted: [wanted]),
        "blocked": st.sampled_from([0, 0, 1, 19]),
        "field_ratio": now_and_then(amount(SIZES)),
        "resolution": now_and_then(amount(SIZES)),
        "speed": now_and_then(amount(SIZES)),
    }
)
CATCHES = st.lists(
    st.fixed_dictionaries(
        {
            "setting": st.floats(0, 60),
            "turns": amount(SIZES),
            "gear": st.just(""),
            "bags": st.lists(
                st.builds(
                    lambda weight, rows: {"weight": weight, "rows": rows},
                    amount(SIZES),
                    st.sampled_from([1, 1, 1, 4]),
                ),
                min_size=1,
                max_size=5,
            ),
        }
    ),
    max_size=3,
)


@pytest.fixture(scope="module")
def client():
    pytest.importorskip("flask", reason="the pages need Flask")
    from evenstand.web.run.app import create_app

    with open_book(":memory:", device="shed", who="Ada") as book:
        app = create_app(book)
        app.testing = True  # what is no refusal comes through
        yield app.test_client()


def without_nothing(body):
    return {key: value for key, value in body.items() if value is not None}


@settings(max_examples=100 * TIMES, phases=[Phase.generate])  # what fails is large enough to read
@given(drill=DRILL, chart=CHART, job=JOB, catches=CATCHES)
def test_whatever_is_kept_comes_to_a_result_or_a_refusal(client, *, drill, chart, job, catches):
    def keep(kind, body):
        sent = {"kind": kind, "body": without_nothing(body)}
        answer = client.post("/api/things", json=sent)
        tried("requests of the API")
        assert answer.status_code in (201, 422), answer.text
        return answer.json.get("id")

    kept = keep("drill", drill)
    if kept is None:
        return
    if chart:
        points = [{"setting": at, "rate": rate} for at, rate in chart]
        keep("chart", {"drill": kept, "points": points})
    of = keep("job", {**job, "drill": kept})
    for catch in catches if of else ():
        keep("catch", {**catch, "job": of})
    for path in (f"/drills/{kept}", *(f"/jobs/{of}{step}" for step in ("", "/calibrate") if of)):
        assert client.get(path).status_code in (200, 422), path
    for step in ("steps", "set", "rows") if of else ():
        assert client.get(f"/api/jobs/{of}/{step}").status_code in (200, 422)
