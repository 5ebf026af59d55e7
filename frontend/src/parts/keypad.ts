// A keypad that cannot form a malformed number, and that refuses nothing in silence.
// "left": digits fill the mask whole.decimals from the left, after the digits held from the last reading.
// "right": digits enter like at a till, with the point fixed and a leading zero always shown.
import type { Keypad } from "../kernel/types";

export type Key = "0" | "1" | "2" | "3" | "4" | "5" | "6" | "7" | "8" | "9" | "undo" | "tick" | "brim" | ".";
export type Refusal = "" | "full" | "empty" | "short" | "point" | "zero" | "gauge" | "brim";

export interface Typed {
  pad: Keypad;
  digits: string;      // every digit shown, held ones included
  refused: Refusal;    // why the last key did nothing
  nudge: number;       // grows with each refusal, so that the same refusal twice is seen twice
  sent?: { text: string; unit: string };   // a gauge sent the whole reading; unit "" is the pad's own
}

export type Cell = { text: string; kind: "typed" | "held" | "gap" | "cursor" | "point" };

const onlyDigits = (text: string): string => text.replace(/[^0-9]/g, "");

/** A fresh entry: the held digits are there, nothing is typed. */
export function begin(pad: Keypad): Typed {
  const held = pad.fill === "left" ? onlyDigits(pad.held).slice(0, pad.whole + pad.decimals) : "";
  return { pad, digits: held, refused: "", nudge: 0 };
}

/** Puts back a text that was typed before (kept when an absurd reading is looked at again). */
export function restore(pad: Keypad, text: string): Typed {
  return { pad, digits: onlyDigits(text).replace(pad.fill === "right" ? /^0+(?=\d)/ : /$^/, ""), refused: "", nudge: 0 };
}

/** The whole reading at once, as a gauge sends it: shown and kept just so. */
export const send = (state: Typed, text: string, unit: string): Typed => ({ ...begin(state.pad), sent: { text, unit } });

const refuse = (state: Typed, refused: Refusal): Typed => ({ ...state, refused, nudge: state.nudge + 1 });
const accept = (state: Typed, digits: string): Typed => ({ ...state, digits, refused: "" });

function digit(state: Typed, key: string): Typed {
  const { pad, digits } = state;
  if (pad.fill === "right" && digits === "0") return key === "0" ? refuse(state, "zero") : accept(state, key);
  if (digits.length >= pad.whole + pad.decimals) return refuse(state, "full");
  return accept(state, digits + key);
}

function point(state: Typed): Typed {
  const here = state.pad.fill === "left" && state.digits.length === state.pad.whole;
  return here ? accept(state, state.digits) : refuse(state, "point");
}

/** One key. `tick` only says whether the entry may go: ask `text` for what it is. */
export function press(state: Typed, key: Key): Typed {
  if (key === "brim") return refuse(state, key);
  if (state.sent) return key === "undo" ? begin(state.pad) : key === "tick" ? state : refuse(state, "full");
  if (key === "undo") return state.digits ? accept(state, state.digits.slice(0, -1)) : refuse(state, "empty");
  if (key === "tick") { const why = missing(state); return why ? refuse(state, why) : accept(state, state.digits); }
  if (key === ".") return point(state);
  return digit(state, key);
}

/** Why this may not be ticked yet. From the left only the last decimal may be left unread. */
export function missing(state: Typed): Refusal {
  if (state.sent) return "";
  const { pad, digits } = state;
  if (pad.fill === "right") return digits ? "" : "empty";
  if (digits === begin(pad).digits && digits.length < pad.whole + pad.decimals) return digits ? "short" : "empty";
  return digits.length < pad.whole + Math.max(0, pad.decimals - 1) ? "short" : "";
}

/** The number as text, exactly as shown; "" while it may not be ticked. */
export function text(state: Typed): string {
  if (state.sent) return state.sent.text;
  if (missing(state)) return "";
  const { pad, digits } = state;
  if (pad.fill === "left") return join(digits.slice(0, pad.whole), digits.slice(pad.whole));
  const padded = digits.padStart(pad.decimals + 1, "0");
  return join(padded.slice(0, padded.length - pad.decimals), padded.slice(padded.length - pad.decimals));
}

const join = (whole: string, part: string): string => (part ? `${whole}.${part}` : whole);

/** What the read-out shows, place by place. */
export function cells(state: Typed): Cell[] {
  if (state.sent) return [...state.sent.text].map((text): Cell => ({ text, kind: text === "." ? "point" : "typed" }));
  return state.pad.fill === "left" ? fromLeft(state) : fromRight(state);
}

function fromLeft({ pad, digits }: Typed): Cell[] {
  const held = begin(pad).digits;
  const out: Cell[] = [];
  for (let i = 0; i < pad.whole + pad.decimals; i++) {
    if (i === pad.whole) out.push({ text: ".", kind: "point" });
    if (i < digits.length) out.push({ text: digits[i]!, kind: digits.startsWith(held) && i < held.length ? "held" : "typed" });
    else out.push({ text: "0", kind: i === digits.length ? "cursor" : "gap" });
  }
  return out;
}

function fromRight({ pad, digits }: Typed): Cell[] {
  const shown = digits.padStart(pad.decimals + 1, "0");
  const cut = shown.length - pad.decimals;
  const ghost = shown.length - digits.length;
  const out: Cell[] = [];
  for (let i = 0; i < shown.length; i++) {
    if (i === cut) out.push({ text: ".", kind: "point" });
    out.push({ text: shown[i]!, kind: i < ghost ? "gap" : "typed" });
  }
  return out;
}

/** The key of a hardware keyboard, or null when it is none of ours. */
export function fromKeyboard(name: string): Key | null {
  if (/^[0-9]$/.test(name)) return name as Key;
  if (name === "Backspace" || name === "Delete") return "undo";
  if (name === "Enter") return "tick";
  return name === "." || name === "," ? "." : null;
}
