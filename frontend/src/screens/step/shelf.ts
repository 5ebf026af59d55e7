// Parts on the bench: what may be added, and what the event of fitting them is.
import type { Draft, SlotView, StepView } from "../../kernel/types";

export type Kind = StepView["kinds"][number];

/** A part gets an id that no other phone will give. */
export function partId(kind: string, random: Uint8Array): string {
  return `${kind}-${[...random].map((b) => b.toString(16).padStart(2, "0")).join("")}`;
}

export const added = (kind: Kind, id: string, text: string): Draft =>
  ({ type: "part.added", body: { part: id, kind: kind.kind, title: kind.title, size: { text, unit: kind.keypad.unit } } });

/** What may lie in a slot: what is there now, and what on the shelf is of its kind. */
export const choices = (view: StepView, slot: SlotView): { id: string; title: string; size: string }[] =>
  [...slot.parts, ...view.shelf.filter((part) => part.kind === slot.kind)];

/** A slot for one part takes the last one tapped; a stack takes them all. */
export function toggle(slot: SlotView, chosen: readonly string[], id: string): string[] {
  if (chosen.includes(id)) return chosen.filter((c) => c !== id);
  return slot.holds === "many" ? [...chosen, id] : [id];
}

export const put = (slot: SlotView, parts: readonly string[], why: string): Draft =>
  ({ type: "parts.put", body: { puts: [{ slot: slot.slot, station: slot.station, parts: [...parts] }], why } });
