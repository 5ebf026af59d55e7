// Every sentence that the log and the sync say has its German; those of the server are held against the table by its own tests.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { shapes } from "../../scripts/words-in-page.mjs";
import { translated } from "./heard";
import german from "./heard.de.json";

const SOURCES = join(import.meta.dirname, "..");
const files = ["log", "sync"].flatMap((folder) => readdirSync(join(SOURCES, folder)).map((name) => join(folder, name))).filter((name) => /(?<!\.test)\.ts$/.test(name));
const sentences = (source: string): string[] =>
  [...source.matchAll(/"([A-Z][^"\n]* [^"\n]*[.!])"|`([A-Z][^`\n]* [^`\n]*[.!])`/g)].map(([, plain, filled]) => plain ?? filled!.replace(/\$\{[^}]*\}/g, "{}"));

const TABLE = shapes(german);

describe("what is heard", () => {
  it("has its German, every sentence of log and sync", () => {
    const said = files.flatMap((name) => sentences(readFileSync(join(SOURCES, name), "utf8")));
    expect(said.length).toBeGreaterThan(12);
    expect(said.filter((sentence) => !(sentence in german))).toEqual([]);
  });

  it("keeps its figures, also in another order", () => {
    expect(translated("The server has a fault (502). It will be tried again.", TABLE)).toBe("Der Server hat eine Störung (502). Es wird wieder versucht.");
    expect(translated("a of b", shapes({ "{} of {}": "{2}: {1}" }))).toBe("b: a");
  });

  it("is translated to its inmost reason", () =>
    expect(translated("Line 4 is not an entry of this app: Its “n” is not a count from 1. Nothing of the file was taken in.", TABLE))
      .toBe("Zeile 4 ist kein Eintrag dieser App: Sein „n“ ist nicht eine Zahl ab 1. Nichts aus der Datei wurde übernommen."));

  it("takes signs as signs, and the longest that fits", () => {
    expect(translated("Cut (3)? No.", shapes({ "Cut ({})? No.": "Ab {1}." }))).toBe("Ab 3.");
    expect(translated("3 entries taken in; 4 were here already. 5 could not join a build and are kept aside.", TABLE)).toContain("5 passten zu keinem Motor");
  });

  it("is found by its own English, every one", () => {
    const wrong = Object.entries(german).filter(([english, own]) => translated(english.replaceAll("{}", "7"), TABLE) !== own.replace(/\{\d\}/g, "7"));
    expect(wrong).toEqual([]);
  });

  it("stays as it came where nobody knows it", () => expect(translated("Something new.", TABLE)).toBe("Something new."));
});
