"""Goals 1, 4, 11, 12 and 16 at every state of the screens: one walk a width, measured at each step of it."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.hand import Hand
from tests.services.processes import ROOT

from .conftest import WIDTHS
from .record import reached
from .walk import walk

pytestmark = pytest.mark.browser
MEASURE = (Path(__file__).parent / "measure.js").read_text()
AXE = (ROOT / "frontend/node_modules/axe-core/axe.min.js").read_text()
AXE_RUN = """() => axe.run(document, {resultTypes: ["violations"]}).then((r) => r.violations.map((v) =>
  v.id + ": " + v.nodes.slice(0, 2).map((n) => n.target.join(" ")).join(", ")))"""
COMPLETE = ("key-tick", "torque-pull", "next-button", "offer-apply")
APART = {("ask-again", "ask-keep"), ("undo-save", "undo-cancel"), ("concede-save", "concede-cancel"), ("torque-again", "torque-pull"),
         ("next-button", "again-button"), ("next-button", "offer-apply"), ("key-undo", "key-tick")}  # fmt: skip
NOT_STEPS = ("log in", "sheet", "today", "start a build", "a build", "parts", "one part", "findings", "settings", "practice", "board")


class Seen:
    def __init__(self) -> None:
        self.states: dict[str, dict] = {}
        self.axe: dict[str, list[str]] = {}
        self.big_text: dict[str, int] = {}


@pytest.fixture(scope="module")
def seen(shop, browser) -> dict[int, Seen]:
    """What every width shows, in the light theme at 360 and 412, in the dark one at 320."""
    from tests.services import browsers

    found = {}
    for width in WIDTHS:
        phone = browsers.PHONE | {"viewport": {"width": width, "height": 740}, "color_scheme": "dark" if width == 320 else "light", "bypass_csp": True}
        context = browser.new_context(**phone)
        try:
            hand = Hand(context.new_page(), str(shop))
            hand.page.add_init_script(AXE)
            hand.page.goto(hand.base)
            expect(hand.page.get_by_label("Name")).to_be_visible()
            found[width] = Seen()
            look(hand, "log in", found[width])
            hand.logs_in("marek", "marek-bench")
            walk(hand, width, lambda name, hand=hand, here=found[width]: look(hand, name, here))
        finally:
            context.close()
    return found


def look(hand: Hand, name: str, here: Seen) -> None:
    here.states[name] = hand.page.evaluate(MEASURE)
    here.axe[name] = hand.page.evaluate(AXE_RUN)
    hand.page.evaluate("document.documentElement.style.fontSize = '200%'")
    here.big_text[name] = hand.page.evaluate("document.documentElement.scrollWidth - innerWidth")
    hand.page.evaluate("document.documentElement.style.fontSize = ''")


def everywhere(seen: dict[int, Seen]):
    for width, found in seen.items():
        for state, measured in found.states.items():
            yield width, state, measured


def test_goal_1_every_control_is_a_thumb_wide(seen):
    small, keys = [], []
    for width, state, measured in everywhere(seen):
        for c in measured["controls"]:
            wants = (96, 72) if c["gate"] and width >= 360 else (64, 64)
            if c["width"] < wants[0] - 0.5 or c["height"] < wants[1] - 0.5:
                small.append(f"{width} {state}: {c['name']} {c['width']:.0f}x{c['height']:.0f}")
            if c["key"] and width == 360:
                keys.append(min(c["width"] / 96, c["height"] / 72))
    ok = reached(1, "controls smaller than 64x64, or gates and keys than 96x72", len(small), "controls", "<= 0")
    ok &= reached(1, "smallest key, in parts of 96x72", round(min(keys), 3), "parts", ">= 1")
    close = {(width, state, pair): gap for width, state, m in everywhere(seen) for pair, gap in gaps(m["controls"]).items()}
    nearest = min(close, key=close.__getitem__)
    ok &= reached(1, "nearest that controls of opposite consequence come", round(close[nearest], 1), "px", ">= 24")
    unseen = APART - {pair for _, _, pair in close}
    ok &= reached(1, "pairs of opposite consequence that were on no screen", len(unseen), "pairs", "<= 0")
    assert ok, (small, nearest, unseen)


def gaps(controls: list[dict]) -> dict[tuple[str, str], float]:
    """Distances between controls of which one undoes or refuses what the other does."""
    by_id = {c["id"]: c for c in controls if c["id"]}
    return {(a, b): _gap(by_id[a], by_id[b]) for a, b in APART if a in by_id and b in by_id}


def _gap(a: dict, b: dict) -> float:
    across = max(a["x"], b["x"]) - min(a["x"] + a["width"], b["x"] + b["width"])
    down = max(a["y"], b["y"]) - min(a["y"] + a["height"], b["y"] + b["height"])
    return max(across, down)


def test_goal_4_what_completes_a_step_is_under_the_thumb(seen):
    high = [(width, state, c["name"]) for width, state, m in everywhere(seen) if state not in NOT_STEPS
            for c in m["controls"] if completes(c) and c["y"] < 0.4 * m["tall"]]  # fmt: skip
    ok = reached(4, "controls that complete a step above the lower 60 % of the screen", len(high), "controls", "<= 0")
    right, left = [{width: tick_before_undo(found.states[state]) for width, found in seen.items()} for state in ("read", "left hand")]
    ok &= reached(4, "widths at which the keys are not mirrored for the left hand", sum(right.values()) + sum(not w for w in left.values()), "widths", "<= 0")
    assert ok, (high, right, left)


def completes(control: dict) -> bool:
    """A tick, a pull, a way on; of a list the item whose turn it is; every option of a choice."""
    name = control["id"]
    return name in COMPLETE or name.startswith("option-") or (name.startswith("confirm-") and control["next"])


def tick_before_undo(measured: dict) -> bool:
    at = {c["id"]: c["x"] for c in measured["controls"]}
    return at["key-tick"] < at["key-undo"]


def test_goal_11_text_can_be_read(seen):
    faint = min(((m["faintest"]["contrast"], width, state, m["faintest"]["name"]) for width, state, m in everywhere(seen) if m["faintest"]))
    small = min(((m["smallest"]["size"], width, state, m["smallest"]["name"]) for width, state, m in everywhere(seen) if m["smallest"]))
    live = min(m["live"] for _, _, m in everywhere(seen) if m["live"])
    word = min(m["word"] for _, _, m in everywhere(seen) if m["word"])
    ok = reached(11, "least contrast of any text", faint[0], "to 1", ">= 7")
    ok &= reached(11, "smallest text", small[0], "px", ">= 18")
    ok &= reached(11, "live value", live, "px", ">= 36")
    ok &= reached(11, "verdict word", word, "px", ">= 51")
    wide = {f"{width} {state}": over for width, found in seen.items() for state, over in found.big_text.items() if over > 0}
    ok &= reached(11, "states that scroll sideways at 200 % text", len(wide), "states", "<= 0")
    assert ok, (faint, small, wide)


def test_goal_12_axe_finds_nothing(seen):
    found = {f"{width} {state}": violations for width, one in seen.items() for state, violations in one.axe.items() if violations}
    count = sum(len(found.states) for found in seen.values())
    print(f"  {count} states looked at")
    assert reached(12, f"violations that axe finds in {count} states", sum(len(v) for v in found.values()), "violations", "<= 0"), found


def test_goal_16_what_is_unsent_is_one_glance_away(seen):
    missing = [f"{width} {state}" for width, state, m in everywhere(seen) if not m["send"]]
    assert reached(16, "states that do not show what is unsent without scrolling", len(missing), "states", "<= 0"), missing
