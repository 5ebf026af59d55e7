// The service worker keeps the shell of the app on the phone. A new version waits for a tap: it is never
// put in place in the middle of an entry. Nothing here touches the log.
import { Live } from "../session/live.svelte";

export const updateReady = new Live(false);
const LOOK_AGAIN_MS = 30 * 60_000;
let registration: ServiceWorkerRegistration | null = null;

const worker = (): ServiceWorkerContainer | undefined => globalThis.navigator?.serviceWorker;

/** True when the address is one the browser trusts and the shell is held on this phone. */
export const offlineSafe = new Live(safeNow());
worker()?.addEventListener("controllerchange", () => { offlineSafe.now = safeNow(); });

function safeNow(): boolean {
  return globalThis.isSecureContext === true && worker()?.controller != null;
}

function watch(held: ServiceWorkerRegistration): void {
  const look = (): void => { updateReady.now = held.waiting !== null && worker()?.controller != null; };
  look();
  held.addEventListener("updatefound", () => held.installing?.addEventListener("statechange", look));
}

export async function register(): Promise<void> {
  const container = worker();
  if (!container || !globalThis.isSecureContext || !import.meta.env.PROD) return;
  try {
    registration = await container.register("/serviceworker.js", { scope: "/" });
    watch(registration);
    setInterval(() => void registration?.update().catch(() => {}), LOOK_AGAIN_MS);
  } catch (error) {
    console.warn(error);
  }
}

/** Reloads once, into the version that was waiting. */
export function applyUpdate(): void {
  const next = registration?.waiting;
  if (!next) return;
  worker()?.addEventListener("controllerchange", () => location.reload(), { once: true });
  next.postMessage({ type: "SKIP_WAITING" });
}
