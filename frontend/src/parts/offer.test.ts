import { expect, it } from "vitest";
import { place } from "./offer";

const raw = { low: 20, high: 30, aim: 25 };
it("stands limits on their posts and the aim in the middle", () => expect([20, 25, 30].map((v) => place(raw, v))).toEqual([70, 166, 262]));
it("keeps a far one on the strip", () => expect(place(raw, 900)).toBe(280));
it("has no place for what is not known", () => expect(place(raw, null)).toBeNull());
