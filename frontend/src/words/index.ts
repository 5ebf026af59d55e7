// The words of this person's language. It is known before the first screen is drawn and changes with a reload, so that
// every screen may take its words once. What the trade says (steps, verdicts, holds) comes from the kernel.
// Words are data: one file a language, of which the app reads the one that is spoken. {curly} places are filled by say.ts.
import type { Language } from "../kernel/types";
import type de from "./de.json";
import type en from "./en.json";
import { table } from "./table";

/** A key that one language lacks or misspells stops the type check here. */
type Alike<One, Other extends One> = One & Other;
export type Words = Alike<typeof en, typeof de> & Alike<typeof de, typeof en>;

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
export const words: Words = table(LANGUAGE);
