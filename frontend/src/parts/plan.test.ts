import { expect, it } from "vitest";
import { frame, lanes } from "./plan";

const at = (id: string, x: number, y: number) => ({ id, x, y });

it("puts stations of one height in a lane, left to right", () =>
  expect(lanes([at("2", 50, 50), at("1", 10, 52), at("8", 10, 90)]).map((l) => l.map((s) => s.id))).toEqual([["1", "2"], ["8"]]));
it("turns an engine that stands on end", () =>
  expect(lanes([at("1", 50, 10), at("2", 50, 30), at("3", 50, 50)]).map((l) => l.map((s) => s.id))).toEqual([["1", "2", "3"]]));
it("draws rings that do not touch", () => {
  const f = frame([at("1", 10, 10), at("2", 20, 10), at("3", 90, 60)]);
  expect(f.ring * 2).toBeLessThan(10);
  expect(f.x).toBeLessThan(10 - f.ring);
  expect(f.width).toBeGreaterThan(80 + 2 * f.ring);
});
