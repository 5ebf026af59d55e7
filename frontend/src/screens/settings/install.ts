// Some browsers offer to install a page; the offer comes once, early, and is kept until it is wanted.
import { readable, type Readable } from "svelte/store";

interface Offer extends Event { prompt(): Promise<void> }
let kept: Offer | null = null;
let told: (yes: boolean) => void = () => {};

export const offered: Readable<boolean> = readable(false, (set) => { told = set; set(kept !== null); });

globalThis.addEventListener?.("beforeinstallprompt", (event) => {
  event.preventDefault();
  kept = event as Offer;
  told(true);
});

export async function install(): Promise<void> {
  await kept?.prompt();
  kept = null;
  told(false);
}
