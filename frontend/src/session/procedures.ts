// Procedures on the phone: fetched while there is a network, kept for good, never changed (a change is a new revision).
import type { ProcedureCard } from "../bench";
import type { Keep } from "../log/keep";
import { words } from "../words";
import * as server from "./server";


export class Procedures {
  private readonly fetching = new Map<string, Promise<unknown>>();

  constructor(private readonly keep: Keep, private readonly token: () => string | null) {}

  async get(id: string, revision: number): Promise<unknown> {
    const held = await this.keep.procedure(id, revision);
    if (held !== null) return held;
    const token = this.token();
    if (token === null) throw new Error(words.fault.noProcedure);
    return this.fetch(token, id, revision).catch((error: unknown) => { throw new Error(words.fault.noProcedure, { cause: error }); });
  }

  /** Whoever asks meanwhile waits for the same answer. */
  private fetch(token: string, id: string, revision: number): Promise<unknown> {
    const key = `${id}@${revision}`;
    const running = this.fetching.get(key) ?? this.fetchOnce(token, id, revision).finally(() => this.fetching.delete(key));
    this.fetching.set(key, running);
    return running;
  }

  private async fetchOnce(token: string, id: string, revision: number): Promise<unknown> {
    const compiled = await server.procedure(token, id, revision);
    const title = (compiled as { title?: string }).title ?? id;
    await this.keep.setProcedure({ id, revision, title }, compiled);
    return compiled;
  }

  /** Brings in the newest of each and those the builds here follow, so that work can start out of reach. */
  async stock(builds: { procedure: string; revision: number }[]): Promise<void> {
    const token = this.token();
    if (token === null) return;
    const wanted = builds.filter((build) => build.procedure !== "").map(({ procedure: id, revision }) => ({ id, revision }));
    for (const card of await server.procedures(token)) wanted.push(card);
    for (const { id, revision } of wanted) {
      if ((await this.keep.procedure(id, revision)) === null) await this.fetch(token, id, revision);
    }
  }

  list(): Promise<ProcedureCard[]> { return this.keep.procedures(); }
}
