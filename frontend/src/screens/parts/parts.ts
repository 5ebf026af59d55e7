// Parts with a name: what may be said of one, and the event of saying it.
import type { Draft, PartsView, PartView, PlaceView } from "../../kernel/types";

export interface Said { mark: string; state: PartView["state"]; condition: string; price: string; currency: string; belongs: string }

const NUMBER = /^\d+([.,]\d{1,2})?$/;

/** What the form shows at first: what is known already. */
export function saidOf(part: PartView, currency = "EUR"): Said {
  const [price = "", unit = currency] = part.cost.split(" ");
  return { mark: part.mark, state: part.state, condition: part.condition, price, currency: unit, belongs: part.belongs ? keyOf(part.belongs) : "" };
}

export const keyOf = (place: { slot: string; station: string }): string => `${place.slot}@${place.station}`;

function placeOf(key: string): { slot: string; station: string } | null {
  const [slot = "", station = ""] = key.split("@");
  return slot ? { slot, station } : null;
}

export const priceIsRight = (said: Said): boolean => said.price.trim() === "" || NUMBER.test(said.price.trim());

/** The event: the kernel's draft, with everything said. An empty price says nothing about cost. */
export function noted(part: PartView, said: Said): Draft {
  const price = said.price.trim().replace(",", ".");
  const cost = price ? { text: price, unit: said.currency.trim().toUpperCase() } : null;
  return { type: part.draft.type, body: { ...part.draft.body, mark: said.mark.trim(), state: said.state, cost, condition: said.condition.trim(), belongs: placeOf(said.belongs) } };
}

/** Places that hold parts of one kind are looked at together. */
export interface Shelf { title: string; places: PlaceView[] }
export function byKind(view: PartsView, places: readonly PlaceView[] = view.places): Shelf[] {
  const titles = new Map(view.kinds.map((kind) => [kind.kind, kind.title]));
  const out = new Map<string, PlaceView[]>();
  for (const place of places) out.set(place.kind, [...(out.get(place.kind) ?? []), place]);
  return [...out].map(([kind, at]) => ({ title: titles.get(kind) ?? kind, places: at }));
}

/** A section of the work, folded to one line that hides nothing wrong: how many places have a part, what needs a name, what ran elsewhere. */
export interface Section { title: string; shelves: Shelf[]; filled: number; total: number; lacking: number; strayed: number }
export function bySection(view: PartsView, only: (place: PlaceView) => boolean = () => true): Section[] {
  const titles = [...new Set(view.places.map((place) => place.phase))];
  const sections = titles.map((title) => {
    const places = view.places.filter((place) => place.phase === title && only(place));
    const count = (is: (place: PlaceView) => boolean): number => places.filter(is).length;
    return { title, shelves: byKind(view, places), filled: count((p) => p.parts.length > 0), total: places.length, lacking: count(lacks), strayed: count((p) => p.parts.some((part) => strays(p, part))) };
  });
  return sections.filter((section) => section.total > 0);
}

/** A place that must have a part with a name, and has none. */
export const lacks = (place: PlaceView): boolean => place.must && !place.parts.some((part) => part.named);

/** A part that has run in with another place than the one it lies in. */
export const strays = (place: PlaceView, part: PartView): boolean => place.own && part.belongs !== null && keyOf(part.belongs) !== keyOf(place);

/** Places of one kind of part that it may have run in. */
export const homes = (view: PartsView, part: PartView): PlaceView[] => view.places.filter((place) => place.kind === part.kind);

/** How many places still lack a named part. */
export const lacking = (view: PartsView): number => view.places.filter(lacks).length;
