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
export function byKind(view: PartsView): Shelf[] {
  const titles = new Map(view.kinds.map((kind) => [kind.kind, kind.title]));
  const out = new Map<string, PlaceView[]>();
  for (const place of view.places) out.set(place.kind, [...(out.get(place.kind) ?? []), place]);
  return [...out].map(([kind, places]) => ({ title: titles.get(kind) ?? kind, places }));
}

/** Places of one kind of part that it may have run in. */
export const homes = (view: PartsView, part: PartView): PlaceView[] => view.places.filter((place) => place.kind === part.kind);

/** What still lacks a name where one is needed. */
export const lacking = (view: PartsView): number =>
  view.places.filter((place) => place.must && !place.parts.some((part) => part.named)).length;
