// The bench the screens work at: joins the log, the kernel, the people and the sync. It decides nothing about
// engines (the kernel does) and nothing about the network (the sync does).
import type { BenchApi, BuildCard, Place, Settings, SyncStatus } from "../bench";
import type { KernelDoor } from "../kernel/door";
import type { BenchEvent, Draft, Overview, StepView } from "../kernel/types";
import { Database } from "../log/database";
import { Keep } from "../log/keep";
import { BenchLog } from "../log/log";
import type { Post } from "../sync/network";
import { SyncRunner } from "../sync/runner";
import { applyUpdate, offlineSafe, updateReady } from "../sw/register";
import { words } from "../words";
import { handsRest } from "./hands";
import { buildId } from "./ids";
import { Live } from "./live.svelte";
import { OpenBuilds } from "./open-builds";
import { People } from "./people";
import { Procedures } from "./procedures";
import { BoardReader, question, sheet } from "./server";
import { forget, glimpse, remember, type Glimpse } from "./glimpse";
import { Tabs } from "./tabs";

const CALM: SyncStatus = { waiting: 0, oldest_at: null, last_synced: null, busy: false, failing: null, need_login: null, refused: [] };

/** After a tick the thumb has its verdict first; the count, the list and the server come this much later, once it rests. */
const AFTER_MS = 120;

/** `begin`: when the log may be opened; a step that was left on the screen is painted first. */
export interface Parts { name?: string; kernel: Promise<KernelDoor>; post: Post; now?: () => number; begin?: Promise<void> }

export class Bench implements BenchApi {
  readonly status = new Live(CALM);
  readonly builds = new Live<BuildCard[]>([]);
  readonly updateReady = updateReady;
  readonly offlineSafe = offlineSafe;
  readonly applyUpdate = applyUpdate;
  readonly ready: Promise<void>;

  private readonly log: BenchLog;
  private readonly keep: Keep;
  private readonly staff: People;
  private readonly stock: Procedures;
  private readonly sync: SyncRunner;
  private readonly boards = new BoardReader();
  private readonly open: Promise<OpenBuilds>;
  private readonly tabs = new Tabs((builds) => void this.changedElsewhere(builds));
  private readonly heard = new Map<string, Set<() => void>>();
  private readonly now: () => number;
  private readonly last: Glimpse | null;
  private refused: NonNullable<SyncStatus["refused"]> = [];
  private placed = "";
  private looks = 0;
  private alarm: ReturnType<typeof setTimeout> | undefined;
  private after: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly parts: Parts) {
    this.now = parts.now ?? Date.now;
    const database = new Database(parts.name ?? "halfthou");
    this.log = new BenchLog(database, this.now);
    this.keep = new Keep(database);
    this.staff = new People(this.keep, () => this.log.dev());
    this.last = glimpse();
    if (this.last) this.staff.expect(this.last.person, this.last.settings);
    this.stock = new Procedures(this.keep, () => this.staff.token());
    this.open = parts.kernel.then((kernel) => new OpenBuilds(kernel, this.log, (id, revision) => this.stock.get(id, revision), () => this.staff.known()));
    this.open.catch(() => {});
    this.sync = this.makeSync(parts.post);
    this.ready = this.start();
    this.ready.catch(() => {});
  }

  get person() { return this.staff.person; }
  get people() { return this.staff.people; }
  get settings() { return this.staff.settings; }
  get shop() { return this.staff.shop; }

  private makeSync(post: Post): SyncRunner {
    return new SyncRunner({
      log: this.log, post, now: this.now, luck: Math.random,
      people: async () => this.staff.everyone(),
      wakeAt: (at, wake) => { clearTimeout(this.alarm); this.alarm = setTimeout(() => void handsRest().then(wake), Math.max(0, at - this.now())); },
      told: () => this.heardOfSync(),
      changed: (builds) => this.changedBySync(builds),
    });
  }

  private async start(): Promise<void> {
    await this.parts.begin;
    await this.staff.load();
    const seen = Promise.all([this.look(true), this.list()]);
    if (this.last === null) await seen;                     // with a glimpse on the screen nothing waits for the lists
    else seen.catch(console.error);
  }

  // People

  async login(name: string, password: string) {
    await this.ready;
    const person = await this.staff.login(name, password);
    void this.sync.loggedIn(person.id).then(() => this.restock());
    return person;
  }

  async logout(): Promise<void> { await this.ready; forget(); await this.staff.logout(); this.boards.forget(); }

  async switchTo(person: string): Promise<void> {
    await this.ready;
    forget();
    await this.staff.switchTo(person);
    this.boards.forget();
    void this.sync.nudge("asked");
  }

  async set(change: Partial<Settings>): Promise<void> { await this.ready; await this.staff.set(change); }

  private me() {
    const person = this.staff.person.now;
    if (person === null) throw new Error(words.fault.nobody);
    return person;
  }

  // Builds

  procedures() { return this.stock.list(); }

  async startBuild(name: string, procedure: string, duty: string, note: string): Promise<string> {
    await this.ready;
    const card = (await this.stock.list()).find(({ id }) => id === procedure);
    if (card === undefined) throw new Error(words.fault.noProcedure);
    const build = buildId(name);
    await this.append(build, { type: "build.opened", body: { name, procedure, revision: card.revision, duty, note } });
    return build;
  }

  /** A build this phone has not heard of may be one the server is about to tell it of. */
  async openBuild(build: string): Promise<void> {
    const open = await this.open;
    if (open.has(build)) return;
    await this.ready;
    const here = await this.log.build(build);
    if (!here && this.staff.token() !== null) await this.syncNow();
    await open.open(build);
  }

  private async kernelFor(build: string): Promise<KernelDoor> {
    await this.openBuild(build);
    await (await this.open).settled(build);
    return this.parts.kernel;
  }

  private view(build: string) {
    const { units, language } = this.staff.settings.now;
    return { build, units: { ...units, language }, now: this.now() };
  }

  async overview(build: string) { return (await this.kernelFor(build)).overview(this.view(build)); }
  async step(build: string, step: string) { return (await this.kernelFor(build)).step({ ...this.view(build), step }); }
  async weigh(build: string, draft: Draft, step = "") {
    return (await this.kernelFor(build)).weigh({ ...this.view(build), draft, step });
  }
  async partsOf(build: string) { return (await this.kernelFor(build)).parts(this.view(build)); }
  async review(build: string) { return (await (await this.kernelFor(build)).review(this.view(build))).findings; }

  /** Durable when it resolves; folding follows. A kernel that fails now catches up from the log later. */
  async append(build: string, draft: Draft): Promise<BenchEvent> {
    await this.ready;
    const { id, role } = this.me();
    const open = await this.open;
    const event = await this.log.append(build, draft, id, role);
    void open.add(event).catch(console.error);
    this.tell([build]);
    this.looks++;
    setTimeout(() => {
      const seen = this.status.now;
      this.status.now = { ...seen, waiting: seen.waiting + 1, oldest_at: seen.oldest_at ?? event.at };
      this.tabs.tell([build]);
    });
    clearTimeout(this.after);
    this.after = setTimeout(() => void this.afterwards(), AFTER_MS);
    return event;
  }

  private async afterwards(): Promise<void> {
    await handsRest();
    void this.look();
    void this.list();
    void this.sync.nudge("append");
  }

  // News

  subscribe(build: string, changed: () => void): () => void {
    const those = this.heard.get(build) ?? new Set();
    this.heard.set(build, those.add(changed));
    return () => { those.delete(changed); };
  }

  private tell(builds: string[]): void {
    for (const build of builds) for (const changed of [...(this.heard.get(build) ?? [])]) changed();
  }

  private async changedBySync(builds: string[]): Promise<void> {
    await this.staff.refresh();
    await this.changed(builds);
    this.tabs.tell(builds);
  }

  private async changedElsewhere(builds: string[]): Promise<void> {
    await this.changed(builds);
    await this.look();
  }

  private async changed(builds: string[]): Promise<void> {
    const open = await this.open;
    for (const build of builds) await open.level(build).catch(console.error);
    await this.list();
    this.tell(builds);
    if (builds.length > 0) void this.restock();
  }

  private async restock(): Promise<void> {
    await this.stock.stock(await this.log.builds()).catch(() => {});      // tried again at the next news
  }

  private async list(): Promise<void> {
    const [rows, waiting] = await Promise.all([this.log.builds(), this.log.waiting()]);
    const cards = rows.map(({ id, name, procedure, revision, last_at }) => ({ id, name, procedure, revision, last_at, waiting: waiting.builds[id] ?? 0 }));
    this.builds.now = cards.sort((one, other) => (other.last_at ?? 0) - (one.last_at ?? 0));
  }

  /** A count that was begun before the latest tick or look says nothing any more. */
  private async look(whole = false): Promise<void> {
    const turn = ++this.looks;
    const [waiting, refused] = await Promise.all([this.log.waiting(), whole ? this.log.refused() : null]);
    if (refused) this.refused = refused.map(({ event, why }) => ({ what: event.type, why }));
    if (turn !== this.looks) return;
    const { busy, failing, need_login, last_synced } = this.sync.state;
    const need = [...need_login, ...waiting.people.filter((who) => !this.staff.hasToken(who))];
    this.status.now = {
      waiting: waiting.count, oldest_at: waiting.oldest_at, last_synced, busy, failing, need_login: this.first(need), refused: this.refused,
    };
  }

  /** How the sending goes is known at once; how much is left has to be counted. */
  private heardOfSync(): void {
    const { busy, failing, last_synced } = this.sync.state;
    const again = failing !== null && this.status.now.failing !== null;     // another failure changes nothing that was set aside
    this.status.now = { ...this.status.now, busy, failing, last_synced };
    if (!busy) void this.look(!again);
  }

  /** The person at the bench is asked first; then others whose entries cannot go without them. */
  private first(need: string[]): string | null {
    const at = this.staff.person.now;
    return (at && need.includes(at.id) ? at.id : need[0]) ?? null;
  }

  async syncNow(): Promise<void> { await this.ready; await this.sync.nudge("asked"); }
  nudge(why: "start" | "visible" | "online"): void {
    void this.ready.then(() => this.sync.nudge(why)).then(() => (why === "start" ? this.restock() : undefined));
  }

  // The rest

  async board() { return this.boards.read(this.tokenOrSay()); }
  async ask<T>(path: string, init?: RequestInit, patience?: number): Promise<T> { return question<T>(this.tokenOrSay(), path, init, patience); }
  async sheet(build: string) { return sheet(this.tokenOrSay(), build); }
  private tokenOrSay(): string {
    const token = this.staff.token();
    if (token === null) throw new Error(words.fault.logIn);
    return token;
  }

  // With nobody at the bench there is no place to come back to.
  async place(): Promise<Place | null> {
    await this.ready;
    const at = this.staff.person.now;
    return at && this.keep.place(at.id);
  }

  async setPlace(place: Place): Promise<void> {
    await this.ready;
    const at = this.staff.person.now;
    const said = JSON.stringify([at?.id, place]);
    if (!at || said === this.placed) return;
    this.placed = said;
    await this.keep.setPlace(at.id, place);
  }

  glimpse(): Glimpse | null { return this.last; }

  /** Put by when the thumb rests: the step as it stands, to be on the screen at once at the next start. */
  remember(build: string, step: StepView, overview: Overview): void {
    const person = this.staff.person.now;
    if (person) remember({ person, settings: this.staff.settings.now, build, step, overview });
  }

  /** Everything on this phone goes, its number too: for a demo that was begun afresh, and only when somebody said so. */
  async beginAfresh(): Promise<void> {
    forget();
    await this.log.database.destroy();
    location.reload();
  }

  exportEvents(): Promise<string> { return this.log.exportLines(); }
}
