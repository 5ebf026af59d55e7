// What the server, the sync and the log say comes in English: their sentences are kept, sent and compared as they are, and
// put into this person's words where they are shown. {} holds a place in the English, {1} the first of them in the other language.
import { LANGUAGE } from ".";
import { heardTable } from "./table";

export type Heard = Record<string, string>;

/** The sentence in the table's language; as it came where the table does not have it. */
export function translated(sentence: string, table: Heard): string {
  if (sentence in table) return table[sentence]!;
  for (const [english, own] of Object.entries(table)) {
    const found = english.includes("{}") && shapeOf(english).exec(sentence);
    if (found) return own.replace(/\{(\d)\}/g, (_, place: string) => translated(found[Number(place)]!, table));
  }
  return sentence;
}

const shapeOf = (english: string): RegExp => new RegExp(`^${english.split("{}").map(literally).join("(.+?)")}$`, "s");
const literally = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

const TABLE = heardTable(LANGUAGE);
export const heard = (sentence: string): string => translated(sentence, TABLE);
