// Who is at the bench. A log-in is needed once; after that the phone knows its people and works without one.
// Each keeps a token of their own, and what each recorded is sent with it.
import type { Person, Settings } from "../bench";
import type { PersonRow } from "../log/database";
import { asPerson, FIRST_SETTINGS, type Keep } from "../log/keep";
import { words } from "../words";
import { Live } from "./live.svelte";
import * as server from "./server";

export class People {
  readonly person = new Live<Person | null>(null);
  readonly people = new Live<Person[]>([]);
  readonly settings = new Live<Settings>(FIRST_SETTINGS);
  readonly shop = new Live("");
  private rows: PersonRow[] = [];
  private names: Record<string, { name: string; role: string }> = {};

  constructor(private readonly keep: Keep, private readonly dev: () => Promise<string>) {}

  /** Who was here last, until the log has said who it is. */
  expect(person: Person, settings: Settings): void {
    this.settings.now = { ...FIRST_SETTINGS, ...settings };
    this.person.now = person;
  }

  async load(): Promise<void> {
    const [who] = await Promise.all([this.keep.who(), this.refresh()]);
    await this.sit(this.rows.find((row) => row.id === who) ?? null);
  }

  async refresh(): Promise<void> {
    const [rows, names, shop] = await Promise.all([this.keep.people(), this.keep.names(), this.keep.shop()]);
    this.rows = rows;
    this.names = names;
    this.shop.now = shop;
    this.people.now = this.rows.filter((row) => row.token !== null).map(asPerson);
  }

  private async sit(row: PersonRow | null): Promise<void> {
    this.settings.now = row ? await this.keep.settings(row.id) : FIRST_SETTINGS;
    this.person.now = row ? asPerson(row) : null;
  }

  async login(name: string, password: string): Promise<Person> {
    if (name.trim() === "" || password === "") throw new Error(words.login.missing);
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
    if (row === undefined || row.token === null) throw new Error(words.fault.stranger);
    const used = { ...row, used: Date.now() };
    await this.keep.setPerson(used);
    await this.take(used);
  }

  async set(change: Partial<Settings>): Promise<void> {
    const settings = { ...this.settings.now, ...change };
    const row = this.row();
    if (row) await this.keep.setSettings(row.id, settings);
    this.settings.now = settings;
  }

  /** The person at the bench first, then the others, last used first. */
  everyone(): PersonRow[] {
    const at = this.row();
    return at ? [at, ...this.rows.filter((row) => row.id !== at.id)] : this.rows;
  }

  row(): PersonRow | null {
    const at = this.person.now;
    return this.rows.find((row) => row.id === at?.id) ?? null;
  }

  hasToken(id: string): boolean { return this.rows.some((row) => row.id === id && row.token !== null); }

  token(): string | null { return this.row()?.token ?? null; }

  /** id -> name of everybody this phone has heard of. */
  known(): Record<string, string> {
    const known: Record<string, string> = {};
    for (const row of this.rows) known[row.id] = row.name;
    for (const [id, { name }] of Object.entries(this.names)) known[id] = name;
    return known;
  }
}
