// What the phone remembers beside the log: people, their settings, procedures, and where they were.
import type { Person, Place, ProcedureCard, Settings } from "../bench";
import type { Database, PersonRow } from "./database";

export const FIRST_SETTINGS: Settings = {
  units: { length: "thou", torque: "lbf.ft" }, theme: "auto", leftHand: false, big: false, tones: true, voice: false, language: "en",
};

export class Keep {
  constructor(private readonly database: Database) {}

  private get<T>(key: string): Promise<T | null> { return this.database.read(async (db) => ((await db.get("kept", key)) as T) ?? null); }
  private put(key: string, value: unknown): Promise<void> {
    return this.database.write(["kept"], async (change) => { await change.objectStore("kept").put(value, key); });
  }

  async settings(who: string): Promise<Settings> { return { ...FIRST_SETTINGS, ...(await this.get<Settings>(`settings:${who}`)) }; }
  setSettings(who: string, settings: Settings): Promise<void> { return this.put(`settings:${who}`, settings); }

  place(who: string): Promise<Place | null> { return this.get(`place:${who}`); }
  setPlace(who: string, place: Place): Promise<void> {
    return this.database.write(["kept"], async (change) => { await change.objectStore("kept").put(place, `place:${who}`); }, "relaxed");
  }

  who(): Promise<string | null> { return this.get("who"); }
  setWho(who: string | null): Promise<void> { return this.put("who", who); }

  async shop(): Promise<string> { return (await this.get<string>("shop")) ?? ""; }
  setShop(name: string): Promise<void> { return this.put("shop", name); }
  async names(): Promise<Record<string, { name: string; role: string }>> { return (await this.get<Record<string, { name: string; role: string }>>("names")) ?? {}; }

  async people(): Promise<PersonRow[]> {
    const people = await this.database.read((db) => db.getAll("people"));
    return people.sort((one, other) => other.used - one.used);
  }
  setPerson(person: PersonRow): Promise<void> {
    return this.database.write(["people"], async (change) => { await change.objectStore("people").put(person); });
  }

  async procedure(id: string, revision: number): Promise<unknown> {
    return this.database.read(async (db) => (await db.get("procedures", `${id}@${revision}`))?.compiled ?? null);
  }
  setProcedure(card: ProcedureCard, compiled: unknown): Promise<void> {
    return this.database.write(["procedures"], async (change) => {
      await change.objectStore("procedures").put({ card, compiled }, `${card.id}@${card.revision}`);
    });
  }
  /** Newest revision of each procedure on this phone. */
  async procedures(): Promise<ProcedureCard[]> {
    const newest = new Map<string, ProcedureCard>();
    for (const { card } of await this.database.read((db) => db.getAll("procedures"))) {
      if (card.revision >= (newest.get(card.id)?.revision ?? 0)) newest.set(card.id, card);
    }
    return [...newest.values()].sort((one, other) => (one.title < other.title ? -1 : 1));
  }
}

export function asPerson({ id, name, role }: PersonRow): Person { return { id, name, role }; }
