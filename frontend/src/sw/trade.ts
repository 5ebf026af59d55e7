// The trade pages, one pack for all. Not part of the shell: the service worker keeps the pack once it was fetched, so it is
// asked for as soon as the phone can keep it.
import pack from "virtual:trade-pages";
import { offlineSafe } from "./register";

export interface TradePage { title: string; html: string }
const QUIET_MS = 3000;

const fetched = (): Promise<Response> => fetch(pack);

export async function tradePage(name: string): Promise<TradePage | undefined> {
  return ((await (await fetched()).json()) as Record<string, TradePage>)[name];
}

/** Not in the first seconds, which belong to the step on the screen. */
export function stockPages(): void {
  const stock = (): void => { if (offlineSafe.now) setTimeout(() => void fetched().catch(() => {}), QUIET_MS); };
  stock();
  navigator.serviceWorker?.addEventListener("controllerchange", stock);
}
