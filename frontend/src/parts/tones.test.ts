import { expect, it } from "vitest";
import { notes } from "./tones";

const pitch = (state: Parameters<typeof notes>[0]): number[] => notes(state).map((note) => note.hertz);
it("is one flat tone for in", () => expect(pitch("in")).toHaveLength(1));
it("falls for under and rises for over, one note after the other", () => {
  const [u1, u2] = pitch("under"), [o1, o2] = pitch("over");
  expect(u2!).toBeLessThan(u1!);
  expect(o2!).toBeGreaterThan(o1!);
  for (const state of ["under", "over"] as const) { const [a, b] = notes(state); expect(b!.at).toBeGreaterThanOrEqual(a!.at + a!.lasts); }
});
it("is silent where nothing was judged", () => expect(pitch("not_read")).toEqual([]));
