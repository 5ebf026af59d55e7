import { expect, it } from "vitest";
import type { FitView } from "../kernel/types";
import { shape } from "./slot";

const fit = (state: FitView["state"], value: number | null, low: number | null = 20, high: number | null = 30): FitView =>
  ({ state, close: false, raw: { value, low, high, aim: 25 } }) as unknown as FitView;

it("nests a slug that is in between the posts", () => {
  const s = shape(fit("in", 25));
  expect(s.end).toBe((s.low! + s.high!) / 2);
  expect(s.aim).toBe(s.end);
});
it("ends on the post when the figure is the limit", () => expect(shape(fit("in", 30)).end).toBe(shape(fit("in", 30)).high));
it("stops short when under, breaks the post when over", () => {
  expect(shape(fit("under", 18)).end).toBeLessThan(60);
  expect(shape(fit("over", 32)).end).toBeGreaterThan(272);
});
it("has four outlines that differ without colour", () => {
  const all = [shape(fit("in", 25)), shape(fit("under", 18)), shape(fit("over", 33)), shape(fit("not_read", null))];
  expect(new Set(all.map((s) => s.hatch)).size).toBe(4);
  expect(new Set(all.map((s) => s.slug)).size).toBe(4);
});
it("stays on the strip and says that it is cut", () => {
  const s = shape(fit("over", 410));
  expect(s.end).toBeLessThanOrEqual(320);
  expect(s.cut).toBe(true);
  expect(shape(fit("over", 31)).cut).toBe(false);
});
it("has one post for a limit with one side", () => expect(shape(fit("in", 3, null, 5)).low).toBeNull());
