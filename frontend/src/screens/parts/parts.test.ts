import { expect, it } from "vitest";
import type { PartsView, PartView, PlaceView } from "../../kernel/types";
import { byKind, bySection, homes, lacking, lacks, noted, priceIsRight, saidOf } from "./parts";

const part = (id: string, more: Partial<PartView> = {}): PartView => ({
  id, kind: "piston", title: "Piston", size: "4.0305 in", named: false, mark: "", state: "", condition: "", cost: "", belongs: null, belongs_title: "",
  draft: { type: "part.noted", body: { part: id } }, ...more,
});
const place = (station: string, must: boolean, parts: PartView[]): PlaceView => ({ slot: "piston", station, title: `Piston ${station}`, kind: "piston", holds: "one", phase: "Pistons", must, own: true, parts });
const view: PartsView = { places: [place("1", true, [part("a", { named: true })]), place("2", true, [part("b")]), { ...place("", false, []), kind: "shim", phase: "Timing" }], loose: [], kinds: [], cost: [] };

it("keeps what is known in the form and gives it back whole", () => {
  const known = part("a", { mark: "K4", state: "used", cost: "120.50 EUR", belongs: { slot: "piston", station: "2" } });
  expect(noted(known, saidOf(known)).body).toEqual({ part: "a", mark: "K4", state: "used", cost: { text: "120.50", unit: "EUR" }, condition: "", belongs: { slot: "piston", station: "2" } });
});
it("says nothing of cost or place when nothing was said", () => expect(noted(part("a"), saidOf(part("a"))).body).toMatchObject({ cost: null, belongs: null }));
it("takes a price as a number only, with point or comma", () => {
  const at = (price: string): boolean => priceIsRight({ ...saidOf(part("a")), price });
  expect([at(""), at("12"), at("12.50"), at("12,50"), at("twelve"), at("1.234")]).toEqual([true, true, true, true, false, false]);
  expect(noted(part("a"), { ...saidOf(part("a")), price: "12,50", currency: "usd" }).body.cost).toEqual({ text: "12.50", unit: "USD" });
});
it("counts places that need a named part and have none", () => expect(lacking(view)).toBe(1));
it("groups places by the kind of part, and offers a part only places of its kind", () => {
  expect(byKind(view).map((shelf) => shelf.places.length)).toEqual([2, 1]);
  expect(homes(view, part("x")).map((p) => p.station)).toEqual(["1", "2"]);
});
it("folds the places by section, and a folded line tells what is wrong in it", () => {
  const elsewhere = part("c", { named: true, belongs: { slot: "piston", station: "1" }, belongs_title: "Piston 1" });
  const [pistons, timing] = bySection({ ...view, places: [...view.places, place("3", true, [elsewhere])] });
  expect([pistons!.title, pistons!.filled, pistons!.total, pistons!.lacking, pistons!.strayed]).toEqual(["Pistons", 3, 3, 1, 1]);
  expect([timing!.title, timing!.filled, timing!.total, timing!.lacking, timing!.strayed]).toEqual(["Timing", 0, 1, 0, 0]);
});
it("shows only what still lacks a name when that is asked for", () => {
  const [only, ...rest] = bySection(view, lacks);
  expect([only!.shelves.flatMap((shelf) => shelf.places.map((p) => p.station)), rest]).toEqual([["2"], []]);
});
