"""The things of the book through the API: kept once, corrected, removed, refused in words."""

import json
from base64 import b64encode
from struct import pack

import pytest

NEW_ID = "01a21037-7680-7000-8000-00000000000{}"
DRILL = {
    "name": "Heron",
    "rows": 20,
    "spacing": {"text": "7.5 in"},
    "rolled": {"text": "95 in"},
    "scale": {"low": 0, "high": 60},
}
PROBLEM = "application/problem+json"


@pytest.fixture
def ask(client):
    """Ask the API; gives the answer, its problem looked at where it is one."""

    def asked(method, path, body=None, *, code=200, **headers):
        how = {"json": body} if body is not None else {}
        if method in ("PUT", "DELETE") and "If-Match" not in headers:
            headers["If-Match"] = client.get(f"/api{path}".partition("?")[0]).headers.get(
                "ETag", ""
            )
        answer = client.open(f"/api{path}", method=method, headers=headers, **how)
        assert answer.status_code == code, answer.text
        assert answer.headers["Cache-Control"] == "no-store"
        if code >= 400:
            assert answer.mimetype == PROBLEM
            assert answer.json["status"] == code
            assert answer.json["title"]
            assert answer.json["detail"]
        return answer.json

    return asked


@pytest.fixture
def add(ask):
    def added(kind, body, code=201, **more):
        return ask("POST", "/things", {"kind": kind, "body": body, **more}, code=code)

    return added


@pytest.fixture
def job(add):
    """A drill of 20 rows at 7.5 in and a job for 54 lb/ac."""
    drill = add("drill", DRILL)["id"]
    wanted = [{"rate": {"text": "54 lb/ac"}, "tolerance": {"text": "5%"}}]
    return add("job", {"name": "Alder Bench", "drill": drill, "wanted": wanted})


def fields(problem):
    return [error["field"].removeprefix("body.") for error in problem["errors"]]


def test_a_text_becomes_its_value_and_a_value_its_text(add, ask):
    drill = add("drill", {**DRILL, "rolled": {"value": 2.413}})
    assert drill["body"]["spacing"] == {"value": 0.1905, "text": "7.5 in"}  # 7.5 × 0.0254 m
    assert drill["body"]["rolled"] == {"value": 2.413, "text": "2.413 m/turn"}
    assert ask("GET", f"/things/{drill['id']}") == drill


def test_limits_are_read_with_the_text(add):
    drill = add("drill", {**DRILL, "rolled": {"text": "95 ± 1 in"}})
    assert drill["body"]["rolled"]["give_or_take"] == pytest.approx(0.0254, rel=1e-12)


def test_a_rate_in_bushels_takes_the_test_weight_beside_it(add):
    drill = add("drill", DRILL)["id"]
    points = [{"setting": 30, "rate": {"text": "1 bu/ac"}}]
    chart = {"drill": drill, "points": points, "test_weight": {"text": "56 lb/bu"}}
    rate = add("chart", chart)["body"]["points"][0]["rate"]["value"]
    assert rate == pytest.approx(56 * 0.45359237 / 4046.8564224, rel=1e-12)  # 56 lb on an acre
    del chart["test_weight"]
    assert fields(add("chart", chart, 422)) == ["points[0].rate"]


def test_a_value_that_its_text_does_not_say_is_refused(add):
    refused = add("drill", {**DRILL, "spacing": {"value": 0.2, "text": "7.5 in"}}, 422)
    assert fields(refused) == ["spacing"]
    assert "7.5 in" in refused["detail"]


def test_sent_twice_it_is_kept_once(add, book):
    first = add("drill", DRILL, id=NEW_ID.format(1))
    again = add("drill", DRILL, 200, id=NEW_ID.format(1))
    assert again == first
    assert book.counts() == {"drill": 1}
    refused = add("drill", {**DRILL, "rows": 18}, 409, id=NEW_ID.format(1))
    assert fields(refused) == ["entry"]
    assert book.counts() == {"drill": 1}


def test_sent_again_after_what_it_names_was_removed_it_is_no_refusal(add, ask, job):
    body = {"job": job["id"], "setting": 30}
    add("setting", body, id=NEW_ID.format(2))
    ask("DELETE", f"/things/{job['id']}")
    add("setting", body, 200, id=NEW_ID.format(2))
    add("setting", body, 422, id=NEW_ID.format(3))


def test_a_correction_keeps_what_was_said_before(add, ask):
    drill = add("drill", DRILL)
    path = f"/things/{drill['id']}"
    body = {**drill["body"], "rows": 18}
    newly = {"body": body, "why": "two are gone", "entry": NEW_ID.format(4)}
    now = ask("PUT", path, newly)
    assert (now["body"]["rows"], now["why"], now["entry"]) == (18, "two are gone", NEW_ID.format(4))
    assert ask("PUT", path, newly) == now
    assert len(ask("GET", f"{path}/history")["entries"]) == 2
    refused = ask("PUT", path, {**newly, "body": {**body, "rows": 17}}, code=409)
    assert fields(refused) == ["entry"]


def test_a_removal_stays_in_the_history_and_is_made_once(add, ask):
    path = f"/things/{add('field', {'name': 'Alder Bench'})['id']}"
    gone = ask("DELETE", f"{path}?why=sold")
    assert (gone["removed"], gone["why"], gone["body"]["name"]) == (True, "sold", "Alder Bench")
    assert ask("DELETE", path) == gone
    assert len(ask("GET", f"{path}/history")["entries"]) == 2
    assert ask("GET", "/things?kind=field")["things"] == []
    assert ask("GET", "/things?kind=field&removed=true")["things"] == [gone]


def test_a_list_comes_in_pages(add, ask):
    made = [add("field", {"name": f"Field {i}"})["id"] for i in range(5)]
    got, path = [], "/things?kind=field&limit=2"
    page = ask("GET", path)
    while True:
        got.append([thing["id"] for thing in page["things"]])
        if page["after"] is None:
            break
        page = ask("GET", f"{path}&after={page['after']}")
    assert got == [made[:2:-1], made[2:0:-1], made[:1]]


def test_a_list_of_what_names_a_thing(add, ask, job):
    other = add("drill", {**DRILL, "name": "Crane"})["id"]
    assert ask("GET", f"/things?kind=job&of={other}")["things"] == []
    assert len(ask("GET", f"/things?kind=job&of={job['body']['drill']}")["things"]) == 1


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"scale": {"low": 60, "high": 0}}, "scale.high"),
        ({"scale": {"low": 0, "high": 60, "step": 0}}, "scale.step"),
        ({"scale": {"low": 0, "high": 60, "stops": [70]}}, "scale.stops"),
        ({"taped": {"text": "90 in"}}, "taped"),
        ({"slip": {"text": "3%"}}, "slip"),
        ({"rolled": None, "taped": {"text": "90 in"}}, "slip"),
        ({"gears": [{"name": "full", "ratio": 1}, {"name": "full", "ratio": 2}]}, "gears.name"),
        ({"gears": [{"name": "half", "ratio": 0}]}, "gear.ratio"),
        ({"gears": [{"name": "half", "ratio": 0.6, "driver": 12, "driven": 24}]}, "gears.ratio"),
        ({"boxes": [{"name": "grain"}, {"name": "grain"}]}, "boxes.name"),
        ({"spacing": {"text": "7.5 lb"}}, "spacing"),
        ({"spacing": {"text": ""}}, "spacing"),
        ({"spacing": {"value": 0}}, "spacing"),
        ({"spacing": {"value": 1e300}}, "spacing"),
        ({"rows": 0}, "rows"),
        ({"rows": 1001}, "rows"),
        ({"row_cv": {"text": "120%"}}, "row_cv"),
        ({"rows": "20"}, "rows"),
        ({"name": ""}, "name"),
        ({"wheels": 2}, "wheels"),
        ({"scale": {"low": 0, "high": 60, "lever": 2}}, "scale.lever"),
    ],
)
def test_a_drill_that_a_form_would_refuse_is_refused(add, book, *, change, field):
    assert fields(add("drill", {**DRILL, **change}, 422)) == [field]
    assert book.counts() == {}


TAG = {"purity": 0.98, "germination": 0.85}


@pytest.mark.parametrize(
    ("tag", "field"),
    [
        ({"inert": 0.05}, "purity"),  # 98 % and 5 % are 103 %
        ({"hard": 0.2}, "germination"),  # 85 % and 20 % are 105 %
        ({"total_viable": True, "hard": 0.1}, "hard"),
        ({"coating": 0.2, "inert": 0.01}, "coating"),
        ({"purity": 1.2}, "tag.purity"),
        ({"tested": "2026-13"}, "tag.tested"),
        ({"tested": "2999-01"}, "tested"),
    ],
)
def test_a_tag_that_does_not_add_up_is_refused(add, tag, field):
    assert fields(add("lot", {"species": "hairy vetch", "tag": TAG | tag}, 422)) == [field]


def test_a_lot_of_a_species_nobody_knows_must_be_said_to_be_ones_own(add):
    assert fields(add("lot", {"species": "nosuch", "tag": TAG}, 422)) == ["species"]
    add("lot", {"species": "nosuch", "own_name": True, "tag": TAG})


def test_what_is_named_must_be_there_and_of_its_kind(add, job):
    for drill in (NEW_ID.format(9), job["id"]):
        assert fields(add("job", {"name": "Other", "drill": drill}, 422)) == ["drill"]


def test_a_target_with_limits_of_its_own_is_refused(add, job):
    wide = {"wanted": [{"rate": {"text": "54 ± 2 lb/ac"}}]}
    assert fields(add("job", job["body"] | wide, 422)) == ["target"]


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"setting": 61}, "setting"),
        ({"turns": None}, "turns"),
        ({"distance": {"text": "100 ft"}}, "distance"),
        ({"gear": "half"}, "gear"),
        ({"bags": []}, "catch"),
        ({"bags": [{"weight": {"text": "8 oz"}, "rows": 21}]}, "rows_caught"),
        ({"bags": [{"weight": {"text": "0 oz"}, "rows": 20}]}, "catch"),
        ({"bags": [{"weight": {"text": "1 oz"}, "row": 21}]}, "bags.row"),
        ({"bags": [{"weight": {"text": "1 oz"}, "row": 2}] * 2}, "bags.row"),
        ({"tare": {"text": "1 oz"}}, "tare"),
        ({"box": "small"}, "box"),
    ],
)
def test_a_catch_that_a_form_would_refuse_is_refused(add, job, *, change, field):
    bags = [{"weight": {"text": "35.33 oz"}, "rows": 20}]
    catch = {"job": job["id"], "setting": 30, "turns": {"text": "20"}, "bags": bags}
    assert fields(add("catch", catch | change, 422)) == [field]
    add("catch", catch)


def test_a_photo_must_be_the_picture_it_says(add, job):
    png = b"\x89PNG\r\n\x1a\n" + pack(">I4sIIBBBBBI", 13, b"IHDR", 1, 1, 8, 0, 0, 0, 0, 0)
    whole = b64encode(png + pack(">I4sI", 0, b"IEND", 0)).decode()
    photo = {"of": job["id"], "media": "image/png", "data": whole}
    add("photo", photo)
    assert fields(add("photo", photo | {"media": "image/jpeg"}, 422)) == ["data"]
    cut_off = b64encode(png).decode()
    for data in ("PGh0bWw+", cut_off):
        assert fields(add("photo", photo | {"data": data}, 422)) == ["data"]


@pytest.mark.parametrize(
    ("body", "media", "code"),
    [
        ("{", "application/json", 400),
        ('{"kind": NaN}', "application/json", 400),
        ("[" * 100_000, "application/json", 400),
        ('{"kind": "dr\ud800ill"}'.encode("utf-8", "surrogatepass"), "application/json", 400),
        (r'{"kind": "\ud800", "body": {}}', "application/json", 400),
        ('{"kind": "drill"}', "application/json", 422),
        ('{"kind": "drill", "body": 3}', "application/json", 422),
        ('{"kind": "drill", "body": {}, "b": 1}', "application/json", 422),
        ('{"kind": "removal", "body": {}}', "application/json", 422),
        ('{"kind": "elephant", "body": {}}', "application/json", 422),
        ("[]", "application/json", 422),
        ('{"kind": "drill", "body": {"rows": ' + "9" * 5000 + "}}", "application/json", 422),
        ('{"kind": "drill", "body": {"rows": 1e400}}', "application/json", 422),
        ("{}", "text/plain", 415),
        ("kind=drill", "application/x-www-form-urlencoded", 415),
        ("x" * 3_000_000, "application/json", 413),
    ],
)
def test_what_cannot_be_read_is_refused(client, book, *, body, media, code):
    answer = client.post("/api/things", data=body, content_type=media)
    assert answer.status_code == code, answer.text
    assert answer.mimetype == PROBLEM
    assert book.counts() == {}


def test_what_another_site_sends_is_refused_and_a_program_let_in(client, book):
    sent = {"json": {"kind": "field", "body": {"name": "Alder Bench"}}}
    for headers in ({"Origin": "https://elsewhere.example"}, {"Sec-Fetch-Site": "cross-site"}):
        answer = client.post("/api/things", **sent, headers=headers)
        assert (answer.status_code, answer.mimetype) == (403, PROBLEM)
    assert book.counts() == {}
    assert client.post("/api/things", **sent).status_code == 201


def test_addresses_that_are_not_there(ask, client):
    for path in ("/nowhere", f"/things/{NEW_ID.format(9)}", "/jobs/x/set", "/things/x/history"):
        ask("GET", path, code=404)
    ask("PATCH", "/things", code=405)
    assert client.patch("/api/things").headers["Allow"] == "GET, HEAD, OPTIONS, POST"
    assert client.get("/nowhere").mimetype == "text/html"


def test_parameters_are_looked_at(ask):
    for query in ("kindd=job", "kind=job&limit=0", "kind=job&limit=x", "kind=job&after=1", ""):
        ask("GET", f"/things?{query}", code=422)


def test_a_refusal_is_in_the_readers_language(client):
    answer = client.post(
        "/api/things",
        json={"kind": "drill", "body": {**DRILL, "scale": {"low": 60, "high": 0}}},
        headers={"Accept-Language": "es"},
    )
    assert answer.status_code == 422
    english = client.post(
        "/api/things", json={"kind": "drill", "body": {**DRILL, "scale": {"low": 60, "high": 0}}}
    )
    assert answer.json["detail"] != english.json["detail"]


def test_entries_can_be_followed(add, ask):
    add("drill", DRILL)
    first = ask("GET", "/entries?limit=1")
    assert [entry["kind"] for entry in first["entries"]] == ["drill"]
    add("field", {"name": "Alder Bench"})
    then = ask("GET", f"/entries?since={first['cursor']}")
    assert [entry["kind"] for entry in then["entries"]] == ["field"]
    assert ask("GET", f"/entries?since={then['cursor']}")["entries"] == []


def test_a_book_goes_out_and_comes_in(add, ask, *, client, book):
    add("drill", DRILL)
    packed = client.get("/api/export")
    assert packed.mimetype == "application/zip"
    answer = client.post("/api/import", data=packed.data, content_type="application/zip")
    assert answer.json == {"new": 0, "known": 1}
    for body, media, code in ((packed.data[:90], "application/zip", 422), (b"", "text/x", 415)):
        answer = client.post("/api/import", data=body, content_type=media)
        assert (answer.status_code, answer.mimetype) == (code, PROBLEM)
    sound = ask("GET", "/check")
    assert (sound["entries"], sound["faults"], sound["things"]) == (1, [], {"drill": 1})


def test_what_a_newer_release_wrote_is_shown_and_not_overwritten(ask, book):
    from evenstand.book.log.entries import read

    id = NEW_ID.format(8)
    made = "2026-11-25T01:00:00.000Z-0001-shed"
    entry = {"id": id, "kind": "tractor", "about": id, "made": made, "by": "Ada", "format": 99}
    book.merge([read(json.dumps(entry | {"body": {"wheels": 4}}).encode())])
    shown = ask("GET", f"/things/{id}")
    assert (shown["kind"], shown["newer"], shown["body"]) == ("tractor", True, {"wheels": 4})
    ask("PUT", f"/things/{id}", {"body": {"wheels": 5}}, code=409)


def test_a_change_needs_the_etag_of_the_state_it_changes(client, add, ask):
    """RFC 9110 section 13.1.1 and RFC 6585 section 3."""
    drill = add("drill", DRILL)
    path = f"/things/{drill['id']}"
    tag = client.get(f"/api{path}").headers["ETag"]
    newly = {"body": {**drill["body"], "rows": 18}}
    for method, body in (("PUT", newly), ("DELETE", None)):
        how = {"json": body} if body else {}
        refused = client.open(f"/api{path}", method=method, **how)
        assert (refused.status_code, refused.mimetype) == (428, PROBLEM)
        assert fields(refused.json) == ["If-Match"]
    answer = client.put(f"/api{path}", json=newly, headers={"If-Match": tag})
    now = answer.headers["ETag"]
    assert (answer.status_code, answer.json["body"]["rows"], now != tag) == (200, 18, True)
    again = {"body": {**drill["body"], "rows": 17}}
    ask("PUT", path, again, code=412, **{"If-Match": tag})
    ask("DELETE", path, code=412, **{"If-Match": tag})
    assert ask("GET", path)["body"]["rows"] == 18
    ask("DELETE", path, **{"If-Match": f'"other", {now}'})


def test_a_change_that_is_sent_twice_needs_no_newer_etag(client, add, ask):
    drill = add("drill", DRILL)
    path = f"/things/{drill['id']}"
    tag = {"If-Match": client.get(f"/api{path}").headers["ETag"]}
    newly = {"body": {**drill["body"], "rows": 18}, "entry": NEW_ID.format(5)}
    first = ask("PUT", path, newly, **tag)
    assert ask("PUT", path, newly, **tag) == first


def test_the_document_says_where_etags_come_from_and_go(client):
    paths = client.get("/api/openapi.json").json["paths"]["/things/{thing}"]
    assert "ETag" in paths["get"]["responses"]["200"]["headers"]
    for method in ("put", "delete"):
        [needed] = [each for each in paths[method]["parameters"] if each["in"] == "header"]
        assert (needed["name"], needed["required"]) == ("If-Match", True)
        assert {"412", "428"} <= set(paths[method]["responses"])
