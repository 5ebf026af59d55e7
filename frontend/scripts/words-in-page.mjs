// Puts the words of every language into the page, as data beside the code: they are there when the code is, with nothing to wait for.
import { readFileSync } from "node:fs";

const TABLES = { "words-en": "en", "words-de": "de", "heard-de": "heard.de" };
const packed = (file) => JSON.stringify(JSON.parse(readFileSync(new URL(`../src/words/${file}.json`, import.meta.url), "utf8"))).replaceAll("<", "\\u003c");

export function wordsInPage() {
  return {
    name: "words-in-page",
    transformIndexHtml: () => Object.entries(TABLES).map(([id, file]) => ({ tag: "script", attrs: { type: "application/json", id }, children: packed(file), injectTo: "body" })),
  };
}
