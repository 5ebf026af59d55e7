// Puts the words of every language into the page, as data beside the code: they are there when the code is, with nothing to wait for.
import { readFileSync } from "node:fs";

const LANGUAGES = ["en", "de"];
const packed = (language) => JSON.stringify(JSON.parse(readFileSync(new URL(`../src/words/${language}.json`, import.meta.url), "utf8"))).replaceAll("<", "\\u003c");

export function wordsInPage() {
  return {
    name: "words-in-page",
    transformIndexHtml: () => LANGUAGES.map((language) => ({ tag: "script", attrs: { type: "application/json", id: `words-${language}` }, children: packed(language), injectTo: "body" })),
  };
}
