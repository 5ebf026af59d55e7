// The questions to the server that are not the sync: log-in, procedures, the board, a build's sheet.
// Each rejects with a sentence; none of them is needed to record work.
import type { Board, Person, ProcedureCard } from "../bench";
import { ask, NO_SERVER } from "../sync/network";
import { words } from "../words";

export interface LoggedIn { token: string; expires: number; person: Person; shop: { id: string; name: string } }


async function open(path: string, init: RequestInit, token?: string, patience?: number): Promise<Response> {
  const headers: Record<string, string> = { Accept: "application/json", ...(init.headers as Record<string, string>) };
  if (token) headers.Authorization = `Device ${token}`;
  const response = await ask(path, { ...init, headers }, patience);
  if (typeof response === "string") throw new Error(response);
  return response;
}

async function json<T>(response: Response): Promise<T> {
  const body = (await response.json().catch(() => null)) as (T & { error?: string; detail?: string }) | null;
  if (response.ok && body !== null) return body;
  if (response.status === 401) throw new Error(body?.error ?? words.fault.loginOver);
  throw new Error(body?.error ?? body?.detail ?? NO_SERVER, { cause: body });      // with a cause: the server itself refused
}

/** Whatever else a screen asks of the server. */
export async function question<T>(token: string, path: string, init: RequestInit = {}, patience?: number): Promise<T> {
  return json<T>(await open(path, init, token, patience));
}

export async function login(name: string, password: string, dev: string): Promise<LoggedIn> {
  const init = { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ name, password, dev, label: label(dev) }) };
  return json<LoggedIn>(await open("/api/login", init));
}

/** Which phone this is, for the board: its kind as far as it says, and a mark that tells two of a kind apart. */
function label(dev: string): string {
  const agent = globalThis.navigator?.userAgent ?? "";
  const kind = /iPad|Tablet/.test(agent) ? "Tablet" : /Mobi|Android|iPhone/.test(agent) ? "Phone" : "Computer";
  return `${kind} ${dev.slice(0, 4)}`;
}

/** Best effort: the phone forgets the token whatever the server says. */
export async function logout(token: string): Promise<void> {
  await open("/api/logout", { method: "POST" }, token).catch(() => {});
}

export async function procedures(token: string): Promise<ProcedureCard[]> {
  return json<ProcedureCard[]>(await open("/api/procedures", {}, token));
}

export async function procedure(token: string, id: string, revision: number): Promise<unknown> {
  return json<unknown>(await open(`/api/procedures/${encodeURIComponent(id)}/${revision}`, {}, token));
}

export async function sheet(token: string, build: string): Promise<unknown> {
  return json<unknown>(await open(`/api/builds/${encodeURIComponent(build)}/sheet`, {}, token));
}

/** The board as it stands, or null while it is the one we had. */
export class BoardReader {
  private tag = "";

  async read(token: string): Promise<Board | null> {
    const response = await open("/api/board", this.tag ? { headers: { "If-None-Match": this.tag } } : {}, token);
    if (response.status === 304) return null;
    const board = await json<Board>(response);
    this.tag = response.headers.get("etag") ?? "";
    return board;
  }

  /** Another screen wants the whole board again. */
  forget(): void { this.tag = ""; }
}
