import { describe, expect, it } from "vitest";
import type { Entry, FitView, Hold, Overview, StepView } from "../../kernel/types";
import { begun, chosen, confirms, foreseen, undone, goBackFirst, helpful, judged, pick, reading, stage, fitsByKind, placeOf } from "./step";

const entry = (kind: Entry["kind"], station: string, state: Entry["state"] = "open", optional = false): Entry => ({
  kind, spot: `main_bore@${station}`, title: "Bearing bore", note: "", station, state, optional, shown: "", other: "", last: "",
  draft: { type: "reading", body: { point: "main_bore", station } },
  keypad: kind === "confirm" ? null : { unit: "in", label: "in", fill: "left", whole: 1, decimals: 4, held: "" },
  options: [], chosen: "", salient: false,
});
const fit = (station: string, state: FitView["state"], value = ""): FitView => ({
  fit: "main_clearance", station, title: "Main clearance", state, close: false, conceded: false, word: "", value, unit: "thou", others: [], says: "", working: "", tool: "",
  limit: { low: "2.0", high: "3.0", aim: "2.5", says: "", authority: "table" }, raw: { value: null, low: 0, high: 1, aim: null },
});
const view = (change: Partial<StepView>): StepView => ({
  id: "caps", title: "Main caps", phase: "p", phase_title: "P", status: "in_work", why: [], do: "", reason: "", source: "", cautions: [], entries: [], at: null, plan: null, fits: [],
  torque: null, holds: [], offers: [], slots: [], shelf: [], kinds: [], undo: null, disturbs: [], next: null, ...change,
});
const hold = (step: string): Hold => ({ fit: "f", title: "", sentence: "", step, fits: [], concede: [] });
const torque = { next: { fastener: "4", draft: { type: "torque.pulled", body: {} } } } as unknown as StepView["torque"];

describe("cautions lead until the step is begun", () => {
  const pulls = (pass: number, ...states: string[]) => ({ pass, fasteners: states.map((state) => ({ state })) }) as unknown as StepView["torque"];
  it("is begun with the first tick, reading or pull", () => {
    expect(begun(view({ entries: [entry("confirm", ""), entry("reading", "1")], torque: pulls(1, "now", "open") }))).toBe(false);
    expect(begun(view({ entries: [entry("confirm", "", "made"), entry("reading", "1")] }))).toBe(true);
    expect(begun(view({ torque: pulls(1, "pulled", "now") }))).toBe(true);
    expect(begun(view({ torque: pulls(2, "now", "open") }))).toBe(true);
  });
});

describe("one thing at a time", () => {
  it("ticks before pulls, pulls before readings", () => {
    const both = [entry("confirm", ""), entry("reading", "1")];
    expect(stage(view({ entries: both, at: 0, torque }), null)).toBe("confirm");
    expect(stage(view({ entries: both, at: 1, torque }), null)).toBe("torque");
    expect(stage(view({ entries: both, at: 1 }), null)).toBe("reading");
    expect(stage(view({ entries: both, at: null }), null)).toBe("done");
  });
  it("stops at a hold from another step, whatever is left to do here", () => {
    expect(stage(view({ entries: [entry("confirm", "")], at: 0, holds: [hold("cam_end_play")] }), null)).toBe("hold");
  });
  it("lets a step go on reading towards its own gate, and stops when all is read", () => {
    expect(stage(view({ entries: [entry("reading", "1")], at: 0, holds: [hold("caps")] }), null)).toBe("reading");
    expect(stage(view({ entries: [entry("reading", "1", "made")], at: null, holds: [hold("caps")] }), null)).toBe("hold");
  });
  it("asks what is chosen before anything is ticked, and again when it is picked", () => {
    const asked = [entry("choice", ""), entry("confirm", "")];
    expect(stage(view({ entries: asked, at: 0 }), null)).toBe("choice");
    expect(stage(view({ entries: asked, at: 1 }), null)).toBe("confirm");
    expect(stage(view({ entries: asked, at: 1 }), 0)).toBe("choice");
    expect(chosen({ ...asked[0]!, draft: { type: "choice.made", body: { choice: "oil" } } }, "sae_40")).toEqual({ type: "choice.made", body: { choice: "oil", option: "sae_40" } });
  });
  it("counts what is not done yet, and not what only helps", () =>
    expect(undone(view({ entries: [entry("reading", "1"), entry("reading", "2", "made"), entry("reading", "3", "open", true)], torque }))).toBe(2));
  it("waits when it waits", () => expect(stage(view({ status: "waiting", entries: [entry("confirm", "")], at: 0 }), null)).toBe("waiting"));
});

it("leads back to the caps before a bore is read again", () => {
  const overview = (next: string): Overview => ({ next, steps: [{ id: "torque" }, { id: "caps" }, { id: "later" }] }) as unknown as Overview;
  const stale = view({ status: "stale", entries: [entry("reading", "1", "stale")], at: 0 });
  expect(goBackFirst(stale, overview("torque"))).toBe(true);
  expect(goBackFirst(stale, overview("caps"))).toBe(false);
  expect(stage(stale, null, true)).toBe("waiting");
  expect(stage(stale, 0, true)).toBe("reading");
});

describe("the verdict of a reading", () => {
  it("is the fit at its station that changed", () => {
    const before = view({ fits: [fit("1", "in", "2.3"), fit("2", "not_read")] });
    const after = view({ fits: [fit("1", "in", "2.3"), fit("2", "under", "1.9")] });
    expect(judged(before, after, "2")?.value).toBe("1.9");
  });
  it("is none while the other half is not read", () => {
    const before = view({ entries: [entry("reading", "1")], fits: [fit("1", "not_read")] });
    expect(judged(before, before, "1")).toBeNull();
  });
  it("is said again where only what helps is still open", () => {
    const same = view({ entries: [entry("reading", "1", "made"), entry("reading", "1", "open", true)], fits: [fit("1", "in", "2.3")] });
    expect(judged(same, same, "1")?.value).toBe("2.3");
  });
  it("is said again when a second reading gives the same figure", () => {
    const same = view({ entries: [entry("reading", "1", "made")], fits: [fit("1", "in", "2.3")] });
    expect(judged(same, same, "1")?.value).toBe("2.3");
  });
});

it("sees the step ahead of the tick: the entry made, its fits judged, the next one open", () => {
  const before = view({ entries: [entry("reading", "1"), entry("reading", "2")], at: 0, fits: [fit("1", "not_read"), fit("2", "not_read")] });
  const after = foreseen(before, [fit("1", "under", "1.9")], 0);
  expect([after.at, after.entries[0]!.state, after.fits.map((f) => f.state)]).toEqual([1, "made", ["under", "not_read"]]);
  expect(judged(before, after, "1")?.value).toBe("1.9");
  expect(foreseen(after, [], 1).at).toBeNull();
});
it("a tap on the plan means what is still open there", () => {
  const entries = [entry("reading", "1", "made"), entry("reading", "2", "made"), entry("reading", "2"), entry("reading", "1", "open", true)];
  expect(pick(view({ entries }), "2")).toBe(2);
  expect(pick(view({ entries }), "1")).toBe(0);
  expect(pick(view({ entries }), "9")).toBeNull();
});
it("adds what was typed and its unit to the kernel's draft", () =>
  expect(reading(entry("reading", "3"), "2.4480").body).toEqual({ point: "main_bore", station: "3", text: "2.4480", unit: "in" }));
it("keeps the place of a confirm in the step's entries", () =>
  expect(confirms(view({ entries: [entry("reading", "1"), entry("confirm", "")] })).map((c) => c.index)).toEqual([1]));
it("shows an offer that can be done before one that cannot", () => {
  const none = { draft: null } as unknown as StepView["offers"][number], done = { draft: { type: "parts.put", body: {} } } as unknown as StepView["offers"][number];
  expect(helpful([none, done])).toEqual([done, none]);
});

it("names a fit once and its stations by themselves", () => {
  const at = (fit: string, kind: string, station: string, title: string): FitView => ({ fit, kind, station, title }) as FitView;
  const fits = [at("mc", "Main clearance", "1", "Main clearance, main 1"), at("hot", "Main clearance, hot", "1", "Main clearance, hot, main 1"), at("mc", "Main clearance", "2", "Main clearance, main 2"), at("sp", "Spread", "", "Spread")];
  expect(fitsByKind(fits).map((kind) => kind.map(placeOf))).toEqual([["main 1", "main 2"], ["main 1"], [""]]);
});
