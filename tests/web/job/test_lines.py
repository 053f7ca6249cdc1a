"""The rate lines of a job's form follow the drill that is chosen."""

import pytest

SHOW = {"show_boxes": "yes"}


@pytest.fixture
def drills(visitor):
    """Heron with two boxes and Teal with three; gives their ids."""
    two = {"box1_name": "grain", "box2_name": "small seed"}
    three = two | {"box3_name": "fluffy", "name": "Teal"}
    return [visitor.heron(**boxes).rsplit("/", 1)[1] for boxes in (two, three)]


def boxes(page):
    return [page.fields[f"wanted{i}_box"] for i in range(1, 7) if f"wanted{i}_box" in page.fields]


def test_a_new_job_has_a_line_for_each_box_of_its_drill(visitor, drills):
    page = visitor.read(f"/jobs/new?drill={drills[0]}")
    assert boxes(page) == ["grain", "small seed"]


def test_another_drill_shows_its_own_boxes_and_all_that_was_typed_stays(visitor, drills, book):
    typed = visitor.read(f"/jobs/new?drill={drills[0]}").fields | {
        "name": "Teal Draw",
        "wanted2_rate": "5",
        "wanted2_tolerance": "8",
        "season": "spring",
    }
    page = visitor.send("/jobs/new", typed | SHOW | {"drill": drills[1]}, code=200)
    assert boxes(page) == ["grain", "small seed", "fluffy"]
    for field in ("name", "wanted2_rate", "wanted2_tolerance", "season"):
        assert page.fields[field] == typed[field]
    assert (page.fields["drill"], page.wrong) == (drills[1], {})
    assert book.things("job") == []
    job = visitor.send("/jobs/new", page.fields | {"entry": typed["entry"]})
    body = book.get(job.rsplit("/", 1)[1]).body
    assert [(line.box, line.rate.text) for line in body.wanted] == [("small seed", "5 lb/ac")]


def test_a_rate_typed_for_a_drill_of_one_box_gets_a_box_of_the_next(visitor, drills):
    plain = visitor.heron(name="Plover").rsplit("/", 1)[1]
    fields = visitor.read(f"/jobs/new?drill={plain}").fields
    assert boxes(visitor.read(f"/jobs/new?drill={plain}")) == [""]
    page = visitor.send(
        "/jobs/new", fields | SHOW | {"drill": drills[0], "wanted1_rate": "54"}, code=200
    )
    assert boxes(page) == ["grain", "small seed"]
    assert page.fields["wanted1_rate"] == "54"


def test_a_job_that_is_changed_can_look_at_another_drill_too(visitor, drills, book):
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drills[0], "wanted1_box": "grain"})
    fields = visitor.read(f"{job}/edit").fields
    page = visitor.send(f"{job}/edit", fields | SHOW | {"drill": drills[1]}, code=200)
    assert boxes(page) == ["grain", "small seed", "fluffy"]
    assert book.get(job.rsplit("/", 1)[1]).body.drill == drills[0]


def test_a_rate_of_a_box_that_the_next_drill_has_not_gets_one_of_its(visitor, drills):
    other = {"box1_name": "front", "box2_name": "rear", "name": "Plover"}
    plover = visitor.heron(**other).rsplit("/", 1)[1]
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drills[0], "wanted1_box": "grain"})
    fields = visitor.read(f"{job}/edit").fields
    page = visitor.send(f"{job}/edit", fields | SHOW | {"drill": plover}, code=200)
    assert boxes(page) == ["front", "rear"]
    assert page.fields["wanted1_rate"] == "54"


def test_a_rate_kept_without_a_box_stays_without(visitor, drills):
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drills[0]})
    assert boxes(visitor.read(f"{job}/edit")) == ["", "grain"]


def test_the_enter_key_saves_and_does_not_show_boxes(visitor):
    """A browser takes the first button of a form for the enter key."""
    html = visitor.read("/jobs/new").html
    form = html[html.index('class="long"') :]
    first = form[form.index("<button") :]
    assert "show_boxes" not in first[: first.index("</button>")]
    assert 'name="show_boxes"' in form
