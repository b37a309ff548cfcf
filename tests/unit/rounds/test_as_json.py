"""The round as one JSON object, and the way back."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.rounds import (
    Effect,
    Guard,
    Literally,
    Place,
    Plan,
    Problem,
    Step,
    TimedStep,
    Wait,
    plan_round,
    read_sequence,
    replay,
    round_object,
)
from firstpitch.sheet import SheetError
from tests.demo_rounds import demo_round
from tests.unit.rounds.problems import rich_problem
from tests.unit.rounds.small import guard, problem, step, wait


def made(of: Problem) -> dict[str, Any]:
    plan = plan_round(of)
    assert isinstance(plan, Plan)
    return round_object(of, plan)


def test_the_object() -> None:
    """The object holds what docs/rounds.md says, in that form."""
    of = problem(
        step("fill", sets="tap=on", starts="filling"), step("taste", 6, place="b", asks="tank=full|half", awaits="filling"),
        step("chat", 50, level="may", worth=2), start="tap=off, tank=empty", finish="tap=on",
        waits=[wait("filling", 30, keeps="tap=on", sets="tank=full")],
        guards=[guard("spill", "tap=broken, tank=full|over", "Water runs over.")], minutes=1,
    )  # fmt: skip
    found = made(of)
    for row in found["steps"]:
        assert all(isinstance(s, str) for s in row.pop("why"))
    places = {"a": {"x": 0.0, "y": 0.0, "inside": False}, "b": {"x": 5.0, "y": 0.0, "inside": False}}
    assert found == {
        "van": "small",
        "mode": "handover",
        "start_name": "small",
        "start_place": "a",
        "start": {"tap": "off", "tank": "empty"},
        "finish": {"tap": "on"},
        "places": {**places, "c": {"x": 12.0, "y": 0.0, "inside": False}},
        "walks": [["a", "b", 5], ["a", "c", 12], ["b", "a", 5], ["b", "c", 7], ["c", "a", 12], ["c", "b", 7]],
        "steps": [
            {
                "id": "fill", "kit": "van", "place": "a", "start_s": 0, "end_s": 10, "level": "must", "worth": 0,
                "requires": {}, "sets": {"tap": "on"}, "starts": ["filling"], "awaits": [],
            },
            {
                "id": "taste", "kit": "van", "place": "b", "start_s": 40, "end_s": 46, "level": "must", "worth": 0,
                "requires": {"tank": ["full", "half"]}, "sets": {}, "starts": [], "awaits": ["filling"],
            },
        ],
        "waits": [{"id": "filling", "start_s": 10, "end_s": 40, "sustains": {"tap": "on"}, "sets": {"tank": "full"}}],
        "left_out": [{"id": "chat", "level": "may", "worth": 2, "reason": "No time: it would add about 0 min 50 s."}],
        "guards": [{"id": "spill", "never": {"tap": "broken", "tank": ["full", "over"]}, "harm": "Water runs over."}],
        "total_s": 46,
        "bound_s": 46,
        "gap": 0.0,
        "seed": 0,
    }  # fmt: skip


def test_needs_named_twice_are_what_both_allow() -> None:
    """Where two lines speak of one condition the object holds what both allow, and an empty list where nothing does."""
    of = problem(step("a", asks="x=1|2, x=2|3"), start="x=2", guards=[guard("g", "x=1, x=3")])
    found = made(of)
    assert found["steps"][0]["requires"] == {"x": "2"}
    assert found["guards"][0]["never"] == {"x": []}


def _literals(needs: dict[str, Any]) -> tuple[Literally, ...]:
    return tuple(Literally(c, frozenset([v] if isinstance(v, str) else v)) for c, v in needs.items())


def _effects(sets: dict[str, str]) -> tuple[Effect, ...]:
    return tuple(Effect(c, v) for c, v in sets.items())


def rebuilt(found: dict[str, Any]) -> Problem:
    """A problem made of nothing but the object."""
    walks: dict[str, dict[str, int]] = {p: {p: 0} for p in found["places"]}
    for a, b, seconds in found["walks"]:
        walks[a][b] = seconds
    return Problem(
        van=found["van"],
        mode=found["mode"],
        start_name=found["start_name"],
        start=found["start"],
        finish=_literals(found["finish"]),
        places=tuple(Place(name, p["x"], p["y"], p["inside"]) for name, p in found["places"].items()),
        walks=walks,
        start_place=found["start_place"],
        steps=tuple(
            Step(
                s["id"], s["kit"], "", "", "", s["place"], s["end_s"] - s["start_s"], s["level"], s["worth"],
                _literals(s["requires"]), _effects(s["sets"]), tuple(s["starts"]), tuple(s["awaits"]),
            )
            for s in found["steps"]
        ),
        waits=tuple(
            Wait(w["id"], "", "", w["end_s"] - w["start_s"], _literals(w["sustains"]), _effects(w["sets"])) for w in found["waits"]
        ),
        guards=tuple(Guard(g["id"], "", _literals(g["never"]), g["harm"]) for g in found["guards"]),
    )  # fmt: skip


@pytest.mark.parametrize("name", ["heron", "plover", "wren"])
def test_a_machine_can_check_the_round_from_the_object_alone(name: str) -> None:
    """Written out and read back, a demo van's round is clean for its own problem and for one rebuilt from nothing but the object."""
    of = demo_round(name)
    text = json.dumps(round_object(of.problem, of.plan), ensure_ascii=False)
    sequence = read_sequence(text, "round.json")
    assert tuple(sequence) == of.plan.steps
    assert not replay(of.problem, sequence)
    again = rebuilt(json.loads(text))
    assert not replay(again, sequence)
    late = [
        TimedStep(t.step, t.start + 1, t.end + 1) if n == 5 else t for n, t in enumerate(sequence[:40] + sequence[41:])
    ]
    assert replay(again, late)


@settings(deadline=None, max_examples=40)
@given(st.integers(0, 100_000))
def test_there_and_back(seed: int) -> None:
    """For any round the object is plain JSON, and the sequence read back is the plan's."""
    of = rich_problem(seed)
    plan = plan_round(of)
    if isinstance(plan, Plan):
        found = round_object(of, plan)
        text = json.dumps(found, allow_nan=False)
        assert json.loads(text) == found
        assert tuple(read_sequence(text, "r.json")) == plan.steps
        assert not replay(rebuilt(found), plan.steps)


def test_a_bare_list_in_bytes() -> None:
    """A bare list of steps is enough, keys that are not asked for are not read, and a mark at the beginning of the file does no harm."""
    text = '\ufeff[{"id": "a", "start_s": 0, "end_s": 5, "note": [null]}, {"id": "b", "start_s": 5, "end_s": 5}]'
    expected = [TimedStep("a", 0, 5), TimedStep("b", 5, 5)]
    assert read_sequence(text, "p.json") == expected
    assert read_sequence(text.encode(), "p.json") == expected
    assert read_sequence("[]", "p.json") == []


def one(**given: Any) -> str:
    return json.dumps([{"id": "a", "start_s": 0, "end_s": 5, **given}])


WHOLE = "allowed are whole seconds from 0 to 1,000,000."
OURS = "give the file that “firstpitch round --json” writes."
AN_ID = "allowed is the id of a step, such as “hob.light”."
RIGHT = "heck that it is the right file."
LONG = f'[{{"id": "a", "start_s": 0, "end_s": {"9" * 5000}}}]'


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "p.json: the file is empty; give a round as JSON, or a list of steps."),
        (b" \n", "p.json: the file is empty; give a round as JSON, or a list of steps."),
        (b"[\xff]", "p.json: the file is not UTF-8 text; save it as UTF-8."),
        ("[1,\n 2", f"p.json, line 2: this is not JSON (column 3: expecting ',' delimiter); {OURS}"),
        ("steps: []", f"p.json, line 1: this is not JSON (column 1: expecting value); {OURS}"),
        ("3", "p.json: 3 stands where the list of steps should be; give a list of steps."),
        ("null", "p.json: nothing (null) stands where the list of steps should be; give a list of steps."),
        ('{"van": "x"}', "p.json: there is no key “steps”; give a round as JSON, or a list of steps."),
        ('{"steps": {}}', "p.json: an object stands where the list of steps should be; give a list of steps."),
        ('{"steps": [], "steps": []}', "p.json: the key “steps” stands twice in one object; keep one of them."),
        ('["hob.light"]', "p.json, step 1: the text “hob.light” stands here; a step is an object with id, start_s, end_s."),
        ('[{"id": "a", "start_s": 0}]', "p.json, step 1: the key “end_s” is missing; a step has id, start_s, end_s."),
        (one(id=7), f"p.json, step 1, id: found 7; {AN_ID}"),
        (one(id=""), f"p.json, step 1, id: found the text “”; {AN_ID}"),
        ('[{"id": "\\ud800", "start_s": 0, "end_s": 5}]', f"p.json, step 1, id: found the text “”; {AN_ID}"),
        (one(start_s=-1), f"p.json, step 1, start_s: found -1; {WHOLE}"),
        (one(start_s=0.5), f"p.json, step 1, start_s: found 0.5; {WHOLE}"),
        (one(end_s="5"), f"p.json, step 1, end_s: found the text “5”; {WHOLE}"),
        (one(end_s=True), f"p.json, step 1, end_s: found true; {WHOLE}"),
        (one(end_s=None), f"p.json, step 1, end_s: found nothing (null); {WHOLE}"),
        (one(end_s=1_000_001), f"p.json, step 1, end_s: found 1000001; {WHOLE}"),
        (one(end_s=[5]), f"p.json, step 1, end_s: found a list; {WHOLE}"),
        (one(end_s=1e400), "p.json: Infinity is not a number; allowed are whole seconds from 0."),
        ('[{"id": "a", "start_s": NaN, "end_s": 5}]', "p.json: NaN is not a number; allowed are whole seconds from 0."),
        ('[{"id": "a", "start_s": 1e999, "end_s": 5}]', f"p.json, step 1, start_s: found inf; {WHOLE}"),
        (LONG, "p.json: a number has thousands of digits; allowed are whole seconds from 0."),
        (one(start_s=6), "p.json, step 1: end_s 5 is before start_s 6; a step ends after it starts."),
        ("[" * 200_000, "p.json: lists or objects are nested too deep; give a plain list of steps."),
        ('{"a":' * 100_000, "p.json: lists or objects are nested too deep; give a plain list of steps."),
        (b" " * 10_000_000, f"p.json: the file is 10,000,000 bytes long, but a round has at most 5,000,000; c{RIGHT}"),
        ("[" + ",".join([one()[1:-1]] * 10_001) + "]", f"p.json: there are 10,001 steps; allowed are 10,000. C{RIGHT}"),
    ],
    ids=lambda value: repr(value)[:40] if isinstance(value, str | bytes) else None,
)  # fmt: skip
def test_broken_input(text: str | bytes, sentence: str) -> None:
    """Whatever is wrong with the text is told in one sentence that names the file and the place."""
    with pytest.raises(SheetError) as fault:
        read_sequence(text, "p.json")
    assert str(fault.value) == sentence


def complaint(text: str | bytes) -> str | None:
    """What is said of a text that is no sequence; None for one that is."""
    try:
        found = read_sequence(text, "p.json")
    except SheetError as fault:
        return str(fault)
    assert all(0 <= t.start <= t.end for t in found)
    return None


KEYS = st.sampled_from(["id", "steps", "start_s", "end_s"])
TREES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda part: st.lists(part) | st.dictionaries(KEYS, part),
)


@settings(deadline=None, max_examples=200)
@given(TREES.map(json.dumps) | st.binary())
def test_anything_at_all_is_read_or_told(text: str | bytes) -> None:
    """Any JSON and any bytes at all are either a sequence or told in one sentence on one line that names the file."""
    said = complaint(text)
    assert said is None or (said.startswith("p.json") and said.endswith(".") and "\n" not in said)
