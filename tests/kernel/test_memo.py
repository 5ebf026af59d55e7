"""Nothing that is remembered may differ from what would be worked out afresh."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from kernel.door import answer
from tests.kernel_two_runtimes.random_logs import BUILD, PEOPLE, START, LogMaker

PROCEDURE = json.loads((Path(__file__).parents[1] / "cases" / "procedures" / "pushrod-v8.json").read_text(encoding="utf-8"))
VIEW = {"build": BUILD, "units": {"length": "thou", "torque": "lbf.ft"}, "now": START + 10**9}


@pytest.mark.parametrize("seed", range(8))
def test_a_build_that_grows_event_by_event_is_the_build_folded_whole(seed):
    events = LogMaker(seed, PROCEDURE).log(60)
    answer({"op": "open", "build": BUILD, "procedure": PROCEDURE, "people": PEOPLE, "events": []})
    for i, event in enumerate(events):
        answer({"op": "add", "build": BUILD, "events": [json.loads(json.dumps(event))]})
        grown = answer({"op": "status", **VIEW})
        if i % 5 == 4:
            whole = {"procedure": PROCEDURE, "events": json.loads(json.dumps(events[: i + 1])), "people": PEOPLE}
            assert grown == answer({"op": "status", **VIEW, **whole})
