import { expect, it } from "vitest";
import { mark, nameOf, spotWords, type SheetData } from "./sheet";

const reading = { event: "e", spot: "main_bore@3", text: "2.4485", unit: "in", who: "marek", at: 0, counts: true, struck: false, seq: 1 };

it("writes a spot as people do", () => expect([spotWords("main_bore@3"), spotWords("crank_float")]).toEqual(["main bore 3", "crank float"]));
it("tells a struck reading from one that was read over", () => {
  expect(mark(reading)).toBe("counts");
  expect(mark({ ...reading, counts: false })).toBe("superseded");
  expect(mark({ ...reading, counts: false, struck: true })).toBe("struck");
});
it("knows people by name, and falls back to their id", () => {
  const sheet = { people: { marek: { name: "Marek" } } } as unknown as SheetData;
  expect([nameOf(sheet, "marek"), nameOf(sheet, "juno")]).toEqual(["Marek", "juno"]);
});
