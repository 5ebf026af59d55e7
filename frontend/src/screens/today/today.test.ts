import { expect, it } from "vitest";
import type { Overview } from "../../kernel/types";
import { byRecent, nextLine } from "./today";

const card = (id: string, last_at: number | null) => ({ id, name: id, procedure: "p", revision: 1, waiting: 0, last_at });
const overview = (next: string | null): Overview => ({
  build: { id: "b", name: "B", procedure: "p", revision: 1, title: "", duty: "race", note: "" }, next, phases: [],
  steps: [{ id: "a", title: "Main caps", phase: "x", status: "done", why: [] }, { id: "t", title: "Timing set", phase: "x", status: "held", why: ["Cam end play is over."] }],
  again: [], contrary: [], concessions: [], update_needed: 0,
});

it("puts the build last worked on first", () => expect(byRecent([card("a", null), card("b", 5), card("c", 9)]).map((c) => c.id)).toEqual(["c", "b", "a"]));
it("says why the next step is held", () => expect(nextLine(overview("t"))).toMatchObject({ title: "Timing set", held: true, why: "Cam end play is over.", done: 1, total: 2 }));
it("has nothing next when all is done", () => expect(nextLine(overview(null))).toBeNull());
it("knows a build that nobody has touched", () => {
  const fresh = { ...overview("t"), steps: overview("t").steps.map((s) => ({ ...s, status: "ready" as const })) };
  expect([nextLine(overview("t"))?.begun, nextLine(fresh)?.begun]).toEqual([true, false]);
});
