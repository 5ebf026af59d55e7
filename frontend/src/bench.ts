// What the screens may ask of the phone. Everything here works with no network and no valid log-in,
// except log-in itself. A promise that resolves from `append` means the event is durable on this phone.
// Every rejection is an Error whose message is a plain sentence that may be shown as it is.
import type { BenchEvent, Draft, Finding, FitView, Language, Overview, PartsView, Status, StepView, Units } from "./kernel/types";

/** It changes by itself; who draws from it draws anew. */
export interface Live<T> { readonly now: T }

export interface Person { id: string; name: string; role: string }

export interface Settings {
  units: Units; theme: "auto" | "light" | "dark"; leftHand: boolean;
  big: boolean;                    // targets half as large again, for gloves
  tones: boolean; voice: boolean;  // the verdict for the ear
  language: Language;
}

export interface SyncStatus {
  waiting: number;                 // events this phone still has to send
  oldest_at: number | null;        // phone time of the oldest of them
  last_synced: number | null;      // phone time of the last answer
  busy: boolean;
  failing: string | null;          // why the last attempt failed, in words
  need_login: string | null;       // id of the person whose log-in ran out
  refused?: { what: string; why: string }[];  // entries the server set aside; they stay on this phone, marked
}

export interface BuildCard {
  id: string; name: string; procedure: string; revision: number;
  waiting: number;                 // events of this build not yet sent
  last_at: number | null;          // when the last event was made
}

export interface ProcedureCard { id: string; revision: number; title: string }

/** Where the person was; the app opens there again. `entry` is an index into StepView.entries. */
export interface Place { screen: string; build?: string; step?: string; entry?: number }

/** `fits`: what this reading would make of the fits it touches; left out when no step was named. */
export interface Weighed { ask: string; shown: string; other: string; error: string; fits?: FitView[] }

/** The step as it was last on the screen, to be drawn at once; the kernel's answer replaces it. */
export interface Glimpse { build: string; step: StepView; overview: Overview }

export interface BoardFit {
  fit: string; title: string; low: number | null; high: number | null; shown_limit: string;
  values: { station: string; raw: number | null; shown: string; state: string }[];
}

export interface BoardBuild {
  id: string; name: string; procedure: string;
  phases: { id: string; title: string; done: number; total: number; status: Status }[];
  holds: { title: string; sentence: string; since: number }[];
  again: unknown[]; concessions: unknown[]; findings: Finding[]; fits: BoardFit[];
  working: { who: string; at: number; step: string } | null;
  devices: { label: string; who: string; last_sync: number; waiting: number }[];
  head: number; reviewed: number; last_event: number;
}

export interface Board { time: number; shop: string; builds: BoardBuild[] }

export interface BenchApi {
  ready: Promise<void>;                            // database open, person and settings known
  person: Live<Person | null>;                     // who is at the bench now; null: show log-in
  people: Live<Person[]>;                          // who has logged in on this phone
  settings: Live<Settings>;                        // of the person at the bench
  status: Live<SyncStatus>;
  builds: Live<BuildCard[]>;
  updateReady: Live<boolean>;                      // a new version waits for a tap
  offlineSafe: Live<boolean>;                      // false: say loudly that this address will not work offline
  shop: Live<string>;                              // name of the shop, "" until known

  login(name: string, password: string): Promise<Person>;
  logout(): Promise<void>;                         // unsent events stay and are sent at that person's next log-in
  switchTo(person: string): Promise<void>;         // somebody who has logged in here before
  set(change: Partial<Settings>): Promise<void>;

  procedures(): Promise<ProcedureCard[]>;          // known to this phone, newest revision of each
  startBuild(name: string, procedure: string, duty: string, note: string): Promise<string>;   // id of the new build
  openBuild(build: string): Promise<void>;         // fetches the procedure once if it is not here yet
  overview(build: string): Promise<Overview>;
  step(build: string, step: string): Promise<StepView>;
  weigh(build: string, draft: Draft, step?: string): Promise<Weighed>;
  append(build: string, draft: Draft): Promise<BenchEvent>;
  partsOf(build: string): Promise<PartsView>;
  review(build: string): Promise<Finding[]>;       // worked out here and now

  /** These two need the network. `board` answers null when nothing changed since the last call. */
  board(): Promise<Board | null>;
  sheet(build: string): Promise<unknown>;
  /** Anything else of the server. A rejection with a `cause` is the server's own refusal; without, it was not reached. */
  ask<T>(path: string, init?: RequestInit, patience?: number): Promise<T>;

  /** Calls back whenever the build's events change: an append here, or news from the server. Returns the way to stop. */
  subscribe(build: string, changed: () => void): () => void;
  syncNow(): Promise<void>;
  place(): Promise<Place | null>;
  setPlace(place: Place): Promise<void>;
  glimpse(): Glimpse | null;                       // at the start: what was on the screen last
  remember(build: string, step: StepView, overview: Overview): void;
  applyUpdate(): void;                             // reloads once into the waiting version
  beginAfresh(): Promise<void>;                    // this phone's whole log goes; only for a demo that was begun afresh
  exportEvents(): Promise<string>;                 // everything unsent as JSON Lines, for a file
}
