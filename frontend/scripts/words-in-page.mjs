// Puts the words of every language into the page, as data beside the code: they are there when the code is, with nothing to wait for.
import { readFileSync } from "node:fs";

const LANGUAGES = ["en", "de"];
const read = (file) => JSON.parse(readFileSync(new URL(`../src/words/${file}.json`, import.meta.url), "utf8"));
const block = (id, data) => ({ tag: "script", attrs: { type: "application/json", id }, children: JSON.stringify(data).replaceAll("<", "\\u003c"), injectTo: "body" });

/** Sentences by their English, as `[shape, in the other language]`: a shape is a regular expression, each {} of the English a group in it. */
export const shapes = (heard) => Object.entries(heard).map(([english, own]) => [`^${english.replace(/[.?()]/g, "\\$&").replaceAll("{}", "(.+?)")}$`, own]);

export function wordsInPage() {
  return {
    name: "words-in-page",
    transformIndexHtml: () => [...LANGUAGES.map((language) => block(`words-${language}`, read(language))), block("heard-de", shapes(read("heard.de")))],
  };
}
