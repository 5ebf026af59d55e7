// What the server, the sync and the log say comes in English: their sentences are kept, sent and compared as they are, and
// put into this person's words where they are shown. The table is made of heard.<language>.json: {} holds a place in the
// English, {1} the first of them in the other language.
import { LANGUAGE } from ".";
import { heardTable, type Heard } from "./table";

/** The sentence in the table's language; as it came where the table does not have it. */
export function translated(sentence: string, table: Heard): string {
  for (const [shape, own] of table) {
    const found = new RegExp(shape, "s").exec(sentence);
    if (found) return own.replace(/\{(\d)\}/g, (_, place: string) => translated(found[+place]!, table));
  }
  return sentence;
}

const TABLE = heardTable(LANGUAGE);
export const heard = (sentence: string): string => translated(sentence, TABLE);
