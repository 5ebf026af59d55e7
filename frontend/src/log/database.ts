// The phone's own database. What is written here is on the phone for good before anything says so:
// every write is a transaction with strict durability, and is done when the transaction completes.
import { deleteDB, type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from "idb";
import type { BenchEvent, Finding } from "../kernel/types";
import type { Person, ProcedureCard } from "../bench";

/** An event with what lets another phone bring it back to a server that lost it: the server's mark, and who carried it in. */
export interface Sendable extends BenchEvent { mark?: string; carried?: string }

/** An event as it lies here. `waiting`: whose it is, while it has not been sent; `refused`: why the server set it aside. */
export interface Row extends Sendable { waiting?: string; refused?: string }

/** `waiting` of another phone's event that the server lost: anybody at this phone may bring it back. */
export const ANYBODY = "";

/** The server's word on this phone's own events: how many it has stored, the chain over them, and how many it has put aside. */
export interface Receipt { place: number; link: string; aside?: number }

export interface BuildRow {
  id: string; name: string; procedure: string; revision: number;
  head: number;                    // last server position we hold of this build
  head_hash?: string;              // and the server's chain up to there, to be held against it later
  findings: Finding[]; reviewed: number; last_at: number | null;
}

export interface PersonRow extends Person { token: string | null; expires: string | number | null; used: number }

interface Device { dev: string; next: number; epoch: string | null; receipt?: Receipt | null }

/** What an earlier generation of the server had vouched for, kept when it was put back from a copy. */
export interface OldHead { build: string; epoch: string; head: number; head_hash: string }

export interface Shape extends DBSchema {
  device: { key: "this"; value: Device };
  events: { key: [string, number]; value: Row; indexes: { build: string; waiting: [string, number] } };
  builds: { key: string; value: BuildRow };
  procedures: { key: string; value: { card: ProcedureCard; compiled: unknown } };
  people: { key: string; value: PersonRow };
  kept: { key: string; value: unknown };
  receipts: { key: [string, string]; value: OldHead };
}

export type Name = StoreNames<Shape>;
export type Change = IDBPTransaction<Shape, Name[], "readwrite">;

/** 32 hex digits, minted once inside each new database: a restored copy of another phone cannot share it by accident. */
function mintDevice(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function build(database: IDBPDatabase<Shape>): Promise<void> {
  const events = database.createObjectStore("events", { keyPath: ["dev", "n"] });
  events.createIndex("build", "build");
  events.createIndex("waiting", ["waiting", "n"]);
  database.createObjectStore("builds", { keyPath: "id" });
  database.createObjectStore("procedures");
  database.createObjectStore("people", { keyPath: "id" });
  database.createObjectStore("kept");
  await database.createObjectStore("device").put({ dev: mintDevice(), next: 1, epoch: null }, "this");
}

function receipts(database: IDBPDatabase<Shape>): void {
  database.createObjectStore("receipts", { keyPath: ["build", "epoch"] });
}

const STEPS = [build, receipts];

/** Step by step from whatever an earlier version of the app left here; nothing that waits to be sent is touched. */
async function upgrade(database: IDBPDatabase<Shape>, from: number): Promise<void> {
  for (const step of STEPS.slice(from)) await step(database);
}

const FULL = "This phone has no room left, so that was not kept. Free some space on the phone, then tick it again.";
const NOT_KEPT = "The phone could not keep that. Nothing was stored; tick it again.";

/** A plain sentence for a write that did not happen. Sentences of our own pass unchanged. */
function inWords(error: unknown): Error {
  if (error instanceof Error && error.name === "Error") return error;
  const full = error instanceof Error && error.name === "QuotaExceededError";
  return new Error(full ? FULL : NOT_KEPT, { cause: error });
}

export class Database {
  private open: Promise<IDBPDatabase<Shape>> | null = null;

  constructor(private readonly name: string) {}

  private connection(): Promise<IDBPDatabase<Shape>> {
    const forget = (): void => { this.open = null; };
    this.open ??= openDB<Shape>(this.name, STEPS.length, {
      upgrade: (database, from) => upgrade(database, from),
      blocking: (_current, _next, event) => { (event.target as IDBDatabase).close(); },
      terminated: forget,
    }).catch((error: unknown) => { forget(); throw error; });
    return this.open;
  }

  /** Runs `work` on a live connection; a connection the browser dropped meanwhile is opened again, once. */
  private async live<T>(work: (database: IDBPDatabase<Shape>) => Promise<T>): Promise<T> {
    try {
      return await work(await this.connection());
    } catch (error) {
      if (!(error instanceof Error) || error.name !== "InvalidStateError") throw error;
      this.open = null;
      return work(await this.connection());
    }
  }

  read<T>(work: (database: IDBPDatabase<Shape>) => Promise<T>): Promise<T> {
    return this.live(work);
  }

  /** All of `work` or nothing. Resolves when the transaction is complete, not before; `relaxed` is for what is no record. */
  async write<T>(stores: Name[], work: (change: Change) => Promise<T>, durability: "strict" | "relaxed" = "strict"): Promise<T> {
    try {
      return await this.live(async (database) => {
        const change = database.transaction(stores, "readwrite", { durability }) as Change;
        const done = change.done;
        done.catch(() => {});
        try {
          const result = await work(change);
          await done;
          return result;
        } catch (error) {
          // A failure inside `work` must undo what it wrote before it failed.
          try { change.abort(); } catch { /* the browser already did */ }
          throw change.error ?? error;
        }
      });
    } catch (error) {
      throw inWords(error);
    }
  }

  /** The phone's own log, for good. Whoever holds it open makes way, this connection too. */
  destroy(): Promise<void> {
    return deleteDB(this.name);
  }

  async close(): Promise<void> {
    (await this.open)?.close();
  }
}
