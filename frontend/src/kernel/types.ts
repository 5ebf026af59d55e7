// What the kernel answers. The kernel (backend/kernel/) decides; this file only names the shapes.
// Every sentence and every shown figure comes ready from the kernel, in the units asked for.

export type Language = "en" | "de";
/** How this person is spoken to: units and language. */
export type Units = { length: "thou" | "in" | "mm"; torque: "lbf.ft" | "N.m"; language?: Language };
export type Status = "waiting" | "ready" | "in_work" | "held" | "done" | "stale";
export type EventBody = Record<string, unknown>;

/** The part of an event that a screen hands to the log; dev, n, at, seen, who are added there. */
export interface Draft { type: string; body: EventBody }

export interface BenchEvent {
  dev: string; n: number; build: string; type: string; v: number;
  at: number; seen: number; who: string; role: string; body: EventBody; seq?: number;
}

export interface Overview {
  build: { id: string; name: string; procedure: string; revision: number; title: string; duty: string; note: string };
  next: string | null;                       // id of the step to go to now; null when all is done
  phases: { id: string; title: string; done: number; total: number; status: Status }[];
  steps: { id: string; title: string; phase: string; status: Status; why: string[] }[];
  again: { step: string; title: string; what: string[] }[];        // checks that must be done again
  contrary: Contrary[];
  concessions: Concession[];
  update_needed: number;                     // events this version does not know
}

export interface Contrary {                  // two phones read one spot without knowing of each other
  spot: string; title: string; step: string;
  readings: { event: string; shown: string; who: string; at: number; settle: Draft }[];
}

export interface Concession {
  event: string; fit: string; title: string; station: string; shown: string; limit: string; reason: string;
  asked_by: string; granted_by: string; reviewed_by: string; says: string; at: number; counts: boolean;
}

export interface Keypad {
  unit: string; label: string;               // unit id to store, label to show
  fill: "left" | "right";                    // left: digits fill a mask from the left; right: like a till
  whole: number; decimals: number;           // digits before and after the point
  held: string;                              // leading text already there, e.g. "2.44"; "" for none
}

export interface Entry {                     // one thing to choose, tick or read
  kind: "choice" | "reading" | "measure" | "confirm";
  spot: string;                              // main_bore@3, part id, step/item, or the choice
  title: string; note: string; station: string;
  state: "open" | "made" | "stale" | "contrary";
  optional: boolean;
  shown: string; other: string;              // "2.4480 in", "62.179 mm"; "" when open
  last: string;                              // last attempt here, shown; "" for none
  draft: Draft;                              // readings: the screen adds text and unit to body; a choice: option
  keypad: Keypad | null;
  options: { id: string; title: string; note: string }[];   // of a choice; [] otherwise
  chosen: string;                            // id of the option that stands; "" for none
  salient: boolean;                          // the tick that is usually forgotten
}

export interface Limit { low: string; high: string; aim: string; says: string; authority: string }

/** no_figure: the readings cannot be right together; no_limit: the limit waits for a choice or a size. */
export type FitState = "in" | "under" | "over" | "not_read" | "stale" | "contrary" | "no_figure" | "no_limit";

export interface FitView {                   // a verdict; the slot picture is drawn from the raw integers
  fit: string; station: string; title: string;
  kind?: string; page?: string;              // its name whatever the station, and its trade page: why, formula, sources
  state: FitState;
  close: boolean;                            // inside, but nearer a post than the reading can tell
  conceded: boolean;
  word: string;                              // "In", "Under", "Over", "Close", "Not read", "Read again"
  value: string; unit: string; others: string[];       // "2.2", "thou", ["0.0022 in", "0.056 mm"]
  says: string;                              // "0.2 to spare below"
  working: string;                           // "2.4502 − 2.4480"
  tool: string;                              // "Your reading can tell this to ±0.1."
  limit: Limit;
  raw: { value: number | null; low: number | null; high: number | null; aim: number | null };
}

export interface Plan {                      // the stations of this step seen from above, on a 100 x 100 grid
  group: string;
  stations: { id: string; x: number; y: number; state: "open" | "now" | "done" | "out" | "stale"; figure: string }[];
}

export interface TorqueView {
  pass: number; passes: number;              // 1-based; pass of the next pull
  torque: string; other: string;             // "48 lbf·ft", "65 N·m"; "90° further", "from where the last pass ended"
  by_angle: boolean;                         // this pass is turned, not pulled to a torque
  lubricant: string;
  next: { fastener: string; draft: Draft } | null;
  last: { fastener: string; pass: number; who: string; at: number; draft: Draft } | null;   // draft checks it once more
  fasteners: { id: string; x: number; y: number; station: string; note: string; state: "open" | "now" | "pulled" | "stale" }[];
  cue: string;                               // "You stopped after 3, 6 minutes ago. Pull 3 once more, then go on with 4."
}

export interface Hold {                      // why a step may not go on
  fit: string; title: string; sentence: string;        // "Cam end play is over. Until it is in, the timing set waits."
  step: string;                              // the step where it can be put right
  fits: FitView[];                           // the stations that hold
  concede: Draft[];                          // one a station; the screen adds reason and granted_by
}

/** `none`: nothing on hand cures it; `says` tells what to order. */
export type OfferKind = "exchange" | "shelf" | "trial" | "shims" | "match" | "swap" | "cut" | "rings" | "buckets" | "springs" | "length" | "turns" | "none";
export interface Ends { low: number | null; high: number | null; aim: number | null }

export interface OfferRow {                  // one station before and after, against its own limit
  fit?: string; station: string; before: string; after: string; before_raw: number | null; after_raw: number | null; out: boolean; moved: boolean; raw?: Ends;
}

export interface Offer {                     // a correction worked out
  kind: OfferKind;
  fit: string; title: string; says: string; basis: string; again: string;
  cures: boolean;
  rows: OfferRow[];
  limit: Limit; raw: Ends;
  draft: Draft | null;                       // append it when it has been done at the engine
}

export interface SlotView { slot: string; station: string; kind: string; holds: "one" | "many"; title: string; parts: { id: string; title: string; size: string }[] }

export interface StepView {
  id: string; title: string; phase: string; phase_title: string; status: Status;
  why: string[];                             // what it waits for, or what must be done again
  do: string; reason: string; source: string; cautions: { text: string; source: string }[];
  entries: Entry[]; at: number | null;       // at: index of the entry to do now
  plan: Plan | null; fits: FitView[]; torque: TorqueView | null;
  holds: Hold[]; offers: Offer[]; slots: SlotView[]; shelf: { id: string; kind: string; title: string; size: string }[];
  kinds: { kind: string; title: string; measures: string; keypad: Keypad }[];   // what may be put on the shelf here (part.added)
  undo: Draft | null;                        // takes the step back; the screen adds why
  disturbs: string[];                        // what taking it back makes stale, in words
  next: string | null;                       // the step after this one
}

/** What is known of a part; "" and null where nothing was said. */
export interface PartView {
  id: string; kind: string; title: string; size: string; named: boolean;
  mark: string; state: "" | "new" | "used" | "reworked"; condition: string; cost: string;
  belongs: { slot: string; station: string } | null; belongs_title: string;
  draft: Draft;                              // part.noted; the screen adds mark, state, cost, condition, belongs
}

export interface PlaceView {                 // a slot at a station, and what lies in it
  slot: string; station: string; title: string; kind: string; holds: "one" | "many";
  phase: string;                             // where the work comes to it first: "Heads"; "" where no step does
  must: boolean;                             // the engine is incomplete without a named part here
  own: boolean;                              // parts run in with their seat
  parts: PartView[];
}

export interface PartsView {
  places: PlaceView[]; loose: PartView[];
  kinds: { kind: string; title: string; measures: string; keypad: Keypad }[];
  cost: string[];                            // in all, one figure a currency
}

export interface Finding {
  check: string; level: "hold" | "look" | "note"; step: string; fit: string; station: string;
  says: string; why: string; cure: string;
}

/** The door: one JSON request in, one JSON answer out. `{error: sentence}` when the request cannot be answered. */
export interface Door {
  open(r: { build: string; procedure: unknown; events: BenchEvent[]; people: Record<string, string> }): { events: number };
  add(r: { build: string; events: BenchEvent[] }): { events: number };
  acked(r: { build: string; seqs: [string, number][] }): { events: number };
  overview(r: { build: string; units: Units; now: number }): Overview;
  step(r: { build: string; step: string; units: Units; now: number }): StepView;
  /** Before a reading is stored: what it would mean, and whether to ask once because it is absurd. */
  weigh(r: { build: string; draft: Draft; units: Units; now?: number; step?: string }): { ask: string; shown: string; other: string; error: string; fits?: FitView[] };
  parts(r: { build: string; units: Units; now: number }): PartsView;
  review(r: { build: string; units: Units; now: number }): { findings: Finding[] };
}
