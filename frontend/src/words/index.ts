// The words of this person's language. It is known before the first screen is drawn and changes with a reload, so that
// every screen may take its words once. English is at hand; any other is read only where it is spoken.
import type { Language } from "../kernel/types";
import { words as english, type Words } from "./en";

export type { Words } from "./en";
export const LANGUAGES: Record<Language, string> = { en: "English", de: "Deutsch" };
const KEY = "halfthou:language";

function spoken(): Language {
  try { return globalThis.localStorage?.getItem(KEY) === "de" ? "de" : "en"; } catch { return "en"; }
}

/** Kept where it can be read before the log is open. True when the screens have to be drawn anew. */
export function speak(language: Language): boolean {
  try { if (globalThis.localStorage?.getItem(KEY) === language) return false; localStorage.setItem(KEY, language); } catch { return false; }
  return language !== LANGUAGE;
}

export const LANGUAGE: Language = spoken();
export const words: Words = LANGUAGE === "de" ? (await import("./de")).words : english;
