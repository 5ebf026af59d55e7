// Some browsers offer to install a page; the offer comes once, early, and is kept until it is wanted.
import { Live } from "../../session/live.svelte";

interface Offer extends Event { prompt(): Promise<void> }
let kept: Offer | null = null;

export const offered = new Live(false);

globalThis.addEventListener?.("beforeinstallprompt", (event) => {
  event.preventDefault();
  kept = event as Offer;
  offered.now = true;
});

export async function install(): Promise<void> {
  await kept?.prompt();
  kept = null;
  offered.now = false;
}
