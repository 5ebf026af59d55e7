// Who is at the bench. A log-in is needed once; after that the phone knows its people and works without one.
// Each keeps a token of their own, and what each recorded is sent with it.
import { get, writable, type Writable } from "svelte/store";
import type { Person, Settings } from "../bench";
import type { PersonRow } from "../log/database";
import { asPerson, FIRST_SETTINGS, type Keep } from "../log/keep";
import * as server from "./server";

const FILL_IN = "Fill in your name and your password.";
const STRANGER = "That person has not logged in on this phone. Log in first.";

export class People {
  readonly person: Writable<Person | null> = writable(null);
  readonly people: Writable<Person[]> = writable([]);
  readonly settings: Writable<Settings> = writable(FIRST_SETTINGS);
  readonly shop: Writable<string> = writable("");
  private rows: PersonRow[] = [];
  private names: Record<string, { name: string; role: string }> = {};

  constructor(private readonly keep: Keep, private readonly dev: () => Promise<string>) {}

  /** Who was here last, until the log has said who it is. */
  expect(person: Person, settings: Settings): void {
    this.settings.set({ ...FIRST_SETTINGS, ...settings });
    this.person.set(person);
  }

  async load(): Promise<void> {
    const [who] = await Promise.all([this.keep.who(), this.refresh()]);
    await this.sit(this.rows.find((row) => row.id === who) ?? null);
  }

  async refresh(): Promise<void> {
    const [rows, names, shop] = await Promise.all([this.keep.people(), this.keep.names(), this.keep.shop()]);
    this.rows = rows;
    this.names = names;
    this.shop.set(shop);
    this.people.set(this.rows.filter((row) => row.token !== null).map(asPerson));
  }

  private async sit(row: PersonRow | null): Promise<void> {
    this.settings.set(row ? await this.keep.settings(row.id) : FIRST_SETTINGS);
    this.person.set(row ? asPerson(row) : null);
  }

  async login(name: string, password: string): Promise<Person> {
    if (name.trim() === "" || password === "") throw new Error(FILL_IN);
    const answer = await server.login(name.trim(), password, await this.dev());
    const row: PersonRow = { ...answer.person, token: answer.token, expires: answer.expires, used: Date.now() };
    await this.keep.setPerson(row);
    await this.keep.setShop(answer.shop.name);
    await this.take(row);
    return asPerson(row);
  }

  private async take(row: PersonRow): Promise<void> {
    await this.keep.setWho(row.id);
    await this.refresh();
    await this.sit(row);
  }

  async logout(): Promise<void> {
    const row = this.row();
    await this.keep.setWho(null);
    if (row?.token) {
      await this.keep.setPerson({ ...row, token: null });
      void server.logout(row.token);
    }
    await this.refresh();
    await this.sit(null);
  }

  async switchTo(id: string): Promise<void> {
    const row = this.rows.find((one) => one.id === id);
    if (row === undefined || row.token === null) throw new Error(STRANGER);
    const used = { ...row, used: Date.now() };
    await this.keep.setPerson(used);
    await this.take(used);
  }

  async set(change: Partial<Settings>): Promise<void> {
    const settings = { ...get(this.settings), ...change };
    const row = this.row();
    if (row) await this.keep.setSettings(row.id, settings);
    this.settings.set(settings);
  }

  /** The person at the bench first, then the others, last used first. */
  everyone(): PersonRow[] {
    const at = this.row();
    return at ? [at, ...this.rows.filter((row) => row.id !== at.id)] : this.rows;
  }

  row(): PersonRow | null {
    const at = get(this.person);
    return this.rows.find((row) => row.id === at?.id) ?? null;
  }

  hasToken(id: string): boolean { return this.rows.some((row) => row.id === id && row.token !== null); }

  token(): string | null { return this.row()?.token ?? null; }

  nameOf(id: string): string { return this.names[id]?.name ?? this.rows.find((row) => row.id === id)?.name ?? id; }

  /** id -> name of everybody this phone has heard of. */
  known(): Record<string, string> {
    const known: Record<string, string> = {};
    for (const row of this.rows) known[row.id] = row.name;
    for (const [id, { name }] of Object.entries(this.names)) known[id] = name;
    return known;
  }
}
