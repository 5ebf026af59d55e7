import { expect, it } from "vitest";
import type { BoardFit } from "../../bench";
import { astray, dotsOf, strips } from "./board";

const fit = (values: [number | null, string][]): BoardFit =>
  ({ fit: "f", title: "F", low: 20, high: 30, shown_limit: "2.0–3.0 thou", values: values.map(([raw, state], i) => ({ station: `${i + 1}`, raw, shown: "x", state })) });

it("stands a limit on its post", () => expect(dotsOf(fit([[20, "in"], [30, "in"]])).map((d) => d.x)).toEqual([110, 350]));
it("stacks dots that would hide each other", () => {
  const dots = dotsOf(fit([[25, "in"], [25, "in"], [25, "in"]]));
  expect(new Set(dots.map((d) => d.y)).size).toBe(3);
});
it("keeps a far one on the strip, with the shape of over", () => {
  const [far] = dotsOf(fit([[410, "over"]]));
  expect(far).toMatchObject({ x: 446, shape: "over" });
  expect(astray(fit([[410, "over"]]))).toBe(true);
});
it("leaves out what is not read", () => expect(dotsOf(fit([[null, "not_read"]]))).toEqual([]));
it("shows what is out, keeps the rest at hand, and leaves out what has no figure or no limit", () => {
  const unlimited = { ...fit([[25, "in"]]), low: null, high: null };
  const astrayOne = fit([[410, "over"], [25, "in"]]), level = fit([[25, "in"]]);
  expect(strips([level, fit([[null, "not_read"]]), unlimited, astrayOne])).toEqual({ out: [astrayOne], rest: [level] });
});
