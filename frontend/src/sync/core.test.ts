// The sync's decisions, one happening at a time.
import { describe, expect, it } from "vitest";
import { backOff, firstState, MOST_EVENTS, POLL_MS, step, type Outcome, type SyncState } from "./core";
import { PATIENCE_MS } from "./network";

const over = (state: SyncState, outcome: Outcome, now = 0) => step(state, { what: "over", outcome, now, luck: 1 });
const nudge = (state: SyncState, why: "append" | "online" | "clock" | "asked", now = 0) => step(state, { what: "nudge", why, now });
const busy = (): SyncState => nudge(firstState(), "append")[0];

describe("when to send", () => {
  it("begins idle and owing nothing", () => {
    expect(firstState()).toEqual({ busy: false, again: false, failures: 0, not_before: 0, limit: 500, last_synced: null, failing: null, need_login: [] });
    expect([MOST_EVENTS, POLL_MS]).toEqual([500, 30_000]);
  });

  it("doubles its wait from two seconds to twelve, and spreads phones over the second half of it", () => {
    expect([1, 2, 3, 4, 5].map((failures) => backOff(failures, 1))).toEqual([2_000, 4_000, 8_000, 12_000, 12_000]);
    expect([0, 0.5, 1].map((luck) => backOff(1, luck))).toEqual([1_000, 1_500, 2_000]);
  });

  it("sends at once when idle, and one at a time", () => {
    const [state, effects] = nudge(firstState(), "append");
    expect(effects).toEqual([{ do: "send", limit: MOST_EVENTS, skip: [] }]);
    const [later, none] = nudge(state, "append");
    expect(none).toEqual([]);
    expect(over(later, { kind: "taken", more: false })[1][0]).toMatchObject({ do: "send" });
  });

  it("rests for 30 s after all is sent", () => {
    expect(over(busy(), { kind: "taken", more: false }, 100)[1]).toEqual([{ do: "wake", at: 100 + POLL_MS }]);
  });

  it("backs off longer each time, but a person who asks need not wait", () => {
    let state = busy();
    const waits: number[] = [];
    for (let i = 0; i < 8; i++) {
      state = over(state, { kind: "failed", why: "No answer." })[0];
      waits.push(state.not_before);
      expect(nudge(state, "append", state.not_before - 1)[1]).toEqual([{ do: "wake", at: state.not_before }]);
      state = nudge(state, "online", 0)[0];
      expect(state.busy).toBe(true);
    }
    expect(waits).toEqual([...waits].sort((a, b) => a - b));
    expect(Math.max(...waits)).toBeLessThanOrEqual(12_000);
    expect(backOff(3, 0)).toBeLessThan(backOff(3, 1));
  });

  it("is retried within 30 s of the network healing, however long it was away and though a request was hanging", () => {
    for (let failures = 1; failures < 60; failures++) expect(backOff(failures, 1) + PATIENCE_MS).toBeLessThan(30_000);
  });

  it("forgets a failure once it worked", () => {
    const failed = over(busy(), { kind: "failed", why: "No answer." })[0];
    expect(failed.failing).toBe("No answer.");
    const [well] = over(nudge(failed, "asked")[0], { kind: "taken", more: false }, 7);
    expect(well).toMatchObject({ failing: null, failures: 0, not_before: 0, last_synced: 7 });
  });

  it("halves a batch that is too big, and puts a lone one aside", () => {
    const [state, effects] = over(busy(), { kind: "too_big", sent: 9, hopeless: false });
    expect(effects).toEqual([{ do: "send", limit: 4, skip: [] }]);
    expect(over(state, { kind: "too_big", sent: 1, hopeless: true })[1].map((effect) => effect.do)).toEqual(["set_aside", "send"]);
    const [next, then] = over(state, { kind: "too_big", sent: 1, hopeless: false });
    expect(then).toEqual([{ do: "wake", at: next.not_before }]);
    expect(next).toMatchObject({ busy: false, again: false, failures: 1 });
    expect(next.failing).toContain("too big");
    expect(over({ ...busy(), limit: 2 }, { kind: "too_big", sent: 2, hopeless: true })[1]).toEqual([{ do: "send", limit: 1, skip: [] }]);
  });

  it("grows a halved batch again as it gets through", () => {
    const [state] = over(busy(), { kind: "too_big", sent: 9, hopeless: false });
    expect(over(state, { kind: "taken", more: true })[1]).toEqual([{ do: "send", limit: 8, skip: [] }]);
    expect(over({ ...state, limit: 400 }, { kind: "taken", more: true })[1]).toEqual([{ do: "send", limit: 500, skip: [] }]);
    expect(over(state, { kind: "taken", more: false })[0].limit).toBe(500);
  });

  it("looks again soon when another tab was at it", () => {
    const [state] = nudge(busy(), "append");
    const [after, effects] = over(state, { kind: "elsewhere" }, 10);
    expect(effects).toEqual([{ do: "wake", at: 3_010 }]);
    expect(after).toMatchObject({ busy: false, again: false });
  });

  it("looks again at once when something was recorded while nobody was there to send it for", () => {
    const [state] = nudge(busy(), "append");
    expect(over(state, { kind: "nothing" })[1]).toEqual([{ do: "send", limit: MOST_EVENTS, skip: [] }]);
    expect(over(busy(), { kind: "nothing" }, 5)[1]).toEqual([{ do: "wake", at: 5 + POLL_MS }]);
  });

  it("is not held up by a clock that was put back", () => {
    const failed = over(busy(), { kind: "failed", why: "No answer." }, 1_000_000)[0];
    expect(nudge(failed, "clock", 1_000_001)[1]).toEqual([{ do: "wake", at: failed.not_before }]);
    expect(nudge(failed, "clock", 5)[1]).toMatchObject([{ do: "send" }]);
    const longest = failed.not_before - 12_000;
    expect(nudge(failed, "clock", longest)[1]).toMatchObject([{ do: "wake" }]);
    expect(nudge(failed, "clock", longest - 1)[1]).toMatchObject([{ do: "send" }]);
    expect(nudge(failed, "clock", failed.not_before)[1]).toMatchObject([{ do: "send" }]);
  });

  it("passes over a person whose log-in ran out until that person logs in", () => {
    const [state, effects] = over(busy(), { kind: "login", who: "marek" });
    expect(effects).toEqual([{ do: "send", limit: MOST_EVENTS, skip: ["marek"] }]);
    const idle = over(state, { kind: "nothing" })[0];
    const [again, sent] = step(idle, { what: "login", who: "marek", now: 0 });
    expect(again.need_login).toEqual([]);
    expect(over({ ...state, need_login: ["marek", "juno"] }, { kind: "login", who: "marek" })[0].need_login).toEqual(["marek", "juno"]);
    expect(step({ ...idle, need_login: ["marek", "juno"] }, { what: "login", who: "marek", now: 0 })[0].need_login).toEqual(["juno"]);
    expect(sent).toEqual([{ do: "send", limit: MOST_EVENTS, skip: [] }]);
  });
});
