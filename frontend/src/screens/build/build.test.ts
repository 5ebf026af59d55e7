import { expect, it } from "vitest";
import type { Overview } from "../../kernel/types";
import { groups, SIGN, speaks } from "./build";

const step = (id: string, phase: string): Overview["steps"][number] => ({ id, title: id, phase, status: "ready", why: [] });

it("keeps the steps of a phase together, in their order", () => {
  const overview = { phases: [{ id: "p", title: "P", done: 0, total: 2, status: "ready" }, { id: "q", title: "Q", done: 0, total: 1, status: "waiting" }],
    steps: [step("a", "p"), step("c", "q"), step("b", "p")] } as unknown as Overview;
  expect(groups(overview).map((g) => g.steps.map((s) => s.id))).toEqual([["a", "b"], ["c"]]);
});
it("has a different sign for every status", () => expect(new Set(Object.values(SIGN)).size).toBe(6));
it("speaks where something stops, and of a done step what it found out of limits", () => expect((["waiting", "ready", "in_work", "held", "done", "stale"] as const).filter(speaks)).toEqual(["waiting", "held", "done", "stale"]));
