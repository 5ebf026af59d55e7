// The words of each language lie in the page, as data beside the code, so there is nothing to wait for.
import type { Language } from "../kernel/types";
import type { Words } from ".";

export type Heard = [shape: string, own: string][];

const inPage = (id: string): unknown => JSON.parse(document.getElementById(id)?.textContent ?? "[]");

export const table = (language: Language): Words => inPage(`words-${language}`) as Words;

/** What log, sync and server say in English, in this language; English needs none. */
export const heardTable = (language: Language): Heard => inPage(`heard-${language}`) as Heard;
