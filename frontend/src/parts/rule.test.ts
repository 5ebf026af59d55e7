import { expect, it } from "vitest";
import type { Overview } from "../kernel/types";
import { marks } from "./rule";

const steps = (...status: string[]): Overview => ({ steps: status.map((s, i) => ({ id: `${i}`, title: "", phase: i < 2 ? "a" : "b", status: s, why: [] })) }) as unknown as Overview;

it("spreads the steps over the rule and marks the place", () => {
  const m = marks(steps("done", "held", "waiting"), "1");
  expect(m.map((x) => x.x)).toEqual([10, 166, 322]);
  expect(m.map((x) => x.kind)).toEqual(["done", "held", "open"]);
  expect(m.map((x) => x.here)).toEqual([false, true, false]);
});
it("manages a rule of one step", () => expect(marks(steps("ready"), "0")[0]!.x).toBe(10));
