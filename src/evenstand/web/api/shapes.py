"""Shapes of the results, as JSON Schema: keys that are always there; more may come."""

from typing import Any, get_args

from evenstand.engine.catch.target import Word

from ..site.spine import State

Schema = dict[str, Any]

TEXT: Schema = {"type": "string"}
NUMBER: Schema = {"type": "number"}
WHOLE: Schema = {"type": "integer"}
YES: Schema = {"type": "boolean"}
ANY: Schema = {}


def shape(**keys: Any) -> Schema:
    """Describe an object by its keys; a list of one shape stands for any number of it."""
    return {
        "type": "object",
        "properties": {name: _part(part) for name, part in keys.items()},
        "required": list(keys),
    }


def _part(part: Any) -> Schema:
    if isinstance(part, list):
        return {"type": "array", "items": _part(part[0])}
    found: Schema = part
    return found


def maybe(schema: Schema) -> Schema:
    """Describe what may be null."""
    return {"anyOf": [schema, {"type": "null"}]}


def ref(name: str) -> Schema:
    """Point at a shape of this module by its name."""
    return {"$ref": f"#/components/schemas/{name}"}


QUANTITY = ref("Quantity")
WORD = maybe(ref("Verdict"))
NOTES: dict[str, Any] = {"taken_as": [TEXT], "warnings": [ref("Warning")]}
_RATES: dict[str, Any] = {"static_rate": QUANTITY, "field_rate": QUANTITY, "verdict": WORD}

SHAPES: dict[str, Schema] = {
    "Quantity": shape(
        value=maybe(NUMBER), low=maybe(NUMBER), high=maybe(NUMBER), u=maybe(NUMBER), unit=TEXT
    ),
    "Verdict": {"type": "string", "enum": sorted(get_args(Word))},
    "Warning": shape(field=TEXT, say=TEXT),
    "WorkingLine": shape(say=TEXT, sum=TEXT, value=maybe(NUMBER), unit=TEXT, source=TEXT),
    "Notch": shape(setting=NUMBER, gear=TEXT, rate=QUANTITY, odds=maybe(NUMBER), caught=ANY),
    "TurnsResult": shape(
        width=QUANTITY, distance=QUANTITY, turns=QUANTITY, working=[ref("WorkingLine")], **NOTES
    ),
    "CatchResult": shape(
        **_RATES,
        odds_within=maybe(NUMBER),
        odds_light=maybe(NUMBER),
        odds_heavy=maybe(NUMBER),
        budget=[shape(name=TEXT, share=NUMBER, common=YES, cure=TEXT)],
        surer=[shape(share=TEXT, say=TEXT, half_range=NUMBER, reaches=YES)],
        say=TEXT,
        catch=QUANTITY,
        rows_caught=WHOLE,
        repeats=WHOLE,
        working=[ref("WorkingLine")],
        **NOTES,
    ),
    "RowsResult": shape(
        mean=QUANTITY,
        cv=QUANTITY,
        odd_rows=[shape(row=WHOLE, percent=NUMBER, p=maybe(NUMBER), plugged=YES)],
        outside_limit=[shape(row=WHOLE, percent=NUMBER)],
        patterns=[shape(name=TEXT, percent=NUMBER, p=maybe(NUMBER), rows=[WHOLE], period=ANY)],
        say=TEXT,
        next=TEXT,
        surer=TEXT,
        rows=[shape(row=WHOLE, weight=QUANTITY, percent=NUMBER, low=NUMBER, high=NUMBER)],
        check=[shape(say=TEXT, check=[TEXT])],
        working=[ref("WorkingLine")],
    ),
    "SetResult": shape(
        choose=ref("Notch"),
        stop=YES,
        ending=ANY,
        say=TEXT,
        candidates=[ref("Notch")],
        catches=[
            shape(
                setting=NUMBER,
                gear=TEXT,
                **_RATES,
                odds_within=maybe(NUMBER),
                fits=YES,
                note=TEXT,
            )
        ],
        target=shape(rate=QUANTITY, low=QUANTITY, high=QUANTITY, on=TEXT, bench_rate=QUANTITY),
        working=[ref("WorkingLine")],
        **NOTES,
    ),
    "TagResult": shape(
        pls=QUANTITY,
        pls_other_way=maybe(QUANTITY),
        pls_rate=maybe(QUANTITY),
        bulk_rate=maybe(QUANTITY),
        seeds_per_area=maybe(QUANTITY),
        price_per_pls=maybe(QUANTITY),
        count_hard=YES,
        species=maybe(TEXT),
        say=TEXT,
        budget=[shape(name=TEXT, share=NUMBER)],
        cautions=[TEXT],
        working=[ref("WorkingLine")],
        **NOTES,
    ),
    "SpeciesResult": shape(
        name=TEXT,
        scientific=TEXT,
        also=[TEXT],
        seeds_per_weight=[shape(count=QUANTITY, source=TEXT)],
        rate=maybe(ref("Published")),
        depth=maybe(ref("Published")),
        test_weight=maybe(ref("Published")),
        cautions=[TEXT],
    ),
    "Published": shape(low=NUMBER, high=NUMBER, unit=TEXT, source=TEXT),
    "MixResult": shape(
        species=[
            shape(
                name=TEXT,
                lot=maybe(TEXT),
                carrier=YES,
                pls_rate=QUANTITY,
                bulk_rate=QUANTITY,
                seeds=QUANTITY,
                of_full_rate=maybe(NUMBER),
                seed_share=NUMBER,
                weight_share=NUMBER,
                cost=maybe(NUMBER),
            )
        ],
        total=shape(pls_rate=QUANTITY, bulk_rate=QUANTITY, seeds=QUANTITY, cost=maybe(NUMBER)),
        cost_unit=TEXT,
        say=TEXT,
        depth=maybe(QUANTITY),
        carbon_nitrogen=maybe(QUANTITY),
        budget=[shape(name=TEXT, share=NUMBER)],
        notes=[TEXT],
        cautions=[TEXT],
        working=[ref("WorkingLine")],
        **NOTES,
    ),
    "SolvedResult": {
        "allOf": [
            ref("MixResult"),
            shape(
                proven=YES,
                gap=NUMBER,
                limits=[shape(on=TEXT, side=TEXT, say=TEXT)],
                purchases=[ref("Purchase")],
            ),
        ]
    },
    "Purchase": shape(
        name=TEXT,
        lot=maybe(TEXT),
        sown=QUANTITY,
        on_hand=QUANTITY,
        bought=QUANTITY,
        bags=maybe(WHOLE),
        left=QUANTITY,
        cost=maybe(NUMBER),
    ),
    "BoxesResult": shape(
        boxes=[
            shape(
                name=TEXT,
                species=[TEXT],
                carrier=maybe(TEXT),
                rate=maybe(QUANTITY),
                holds=maybe(QUANTITY),
                per_fill=maybe(QUANTITY),
                cures=[TEXT],
                missing=maybe(TEXT),
            )
        ],
        ways=WHOLE,
        placed={"type": "object"},
        refused=[shape(species=TEXT, box=TEXT, say=TEXT)],
        say=TEXT,
        advice=[TEXT],
        working=[ref("WorkingLine")],
        **NOTES,
    ),
    "SowResult": shape(
        boxes=[
            shape(
                box=TEXT,
                target=QUANTITY,
                tolerance=NUMBER,
                ground=QUANTITY,
                rate=QUANTITY,
                verdict=WORD,
                odds_within=NUMBER,
                odds_light=NUMBER,
                odds_heavy=NUMBER,
                alarm=YES,
                budget=[{"type": "object"}],
                points=[{"type": "object"}],
                stretches=[{"type": "object"}],
                change=maybe({"type": "object"}),
                until_empty=QUANTITY,
                run_out=maybe({"type": "object"}),
                lever=maybe({"type": "object"}),
                closed=maybe({"type": "object"}),
                say=TEXT,
                warnings=[TEXT],
                working=[ref("WorkingLine")],
                taken_as=[TEXT],
            )
        ],
    ),
    "OrderResult": shape(
        species=[shape(name=TEXT)],
        total=shape(cost=maybe(NUMBER), odds=maybe(NUMBER), odds_at_least=NUMBER, ground=QUANTITY),
        batches=[{"type": "object"}],
        inoculants=[{"type": "object"}],
        loads=[{"type": "object"}],
        time=maybe({"type": "object"}),
        say=TEXT,
        notes=[TEXT],
        working=[ref("WorkingLine")],
        **NOTES,
    ),
    "StandResult": shape(
        stand=QUANTITY,
        places=WHOLE,
        plants=WHOLE,
        range_from=TEXT,
        variance_to_mean=maybe(NUMBER),
        clumped=maybe(YES),
        budget=[shape(name=TEXT, share=NUMBER)],
        wish=maybe(QUANTITY),
        odds=maybe(NUMBER),
        species=[shape(name=TEXT)],
        emergence=maybe({"type": "object"}),
        next_season=maybe({"type": "object"}),
        mix=maybe({"type": "object"}),
        gaps=maybe({"type": "object"}),
        say=TEXT,
        surer=[TEXT],
        published=[TEXT],
        working=[ref("WorkingLine")],
        seed=[TEXT],
        taken_as=[TEXT],
    ),
    "Line": shape(
        step=TEXT,
        title=TEXT,
        state={"type": "string", "enum": sorted(get_args(State))},
        headline=TEXT,
        box=TEXT,
    ),
    "Spine": shape(lines=[ref("Line")]),
}
