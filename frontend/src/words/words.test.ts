// Both languages say the same things: equal keys, equal places to fill, and no sentence left in the other language. That the
// keys are there is the type check's to say; that every place is filled is said here, over the sources.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import de from "./de.json";
import en from "./en.json";
import { count, fill } from "./say";
import { age, ago } from "./time";

const leaves = (value: unknown, path = ""): [string, string][] =>
  typeof value === "object" ? Object.entries(value ?? {}).flatMap(([key, inner]) => leaves(inner, `${path}.${key}`)) : [[path, String(value)]];
const places = (text: string): string[] => [...new Set([...text.matchAll(/\{(\w+)\}/g)].map(([, place]) => place!))].sort();
const shape = (words: object): string[] => leaves(words).map(([path, text]) => `${path} ${places(text)}`).sort();
// Names, units and signs are the same everywhere.
const SAME = /^(\.app|\.login\.name|\.keypad\.tick|\.parts\.fitted|\.board\.(working|age\.(min|h))|\.settings\.(lengths\.(thou|mm)|torques|themes\.auto|android|ios|normal).*|\.keypad\.refused\.)$/;

describe("the words", () => {
  it("have the same keys and the same places in both languages", () => expect(shape(de)).toEqual(shape(en)));

  it("leave no English in German", () => {
    const english = new Map(leaves(en));
    const same = leaves(de).filter(([path, text]) => english.get(path) === text && !SAME.test(path));
    expect(same.map(([path]) => path)).toEqual([]);
  });

  it("are counted in both languages", () => {
    expect([count(1, en.board.findings), count(2, en.board.findings)]).toEqual(["1 finding", "2 findings"]);
    expect([count(1, de.board.findings), count(2, de.board.findings)]).toEqual(["1 Befund", "2 Befunde"]);
    expect([count(0, en.login.afreshLost), count(0, en.board.findings)]).toEqual([en.login.afreshLost.none, "0 findings"]);
  });

  it("say spans of time", () => {
    const now = 1e12, minutes = (n: number): number => now - n * 60_000;
    expect([0, 5, 90, 60 * 35, 60 * 40].map((n) => ago(minutes(n), now))).toEqual(["just now", "5 min ago", "2 h ago", "35 h ago", "2 days ago"]);
    expect([-3, 59, 60, 60 * 47, 60 * 48].map((n) => age(minutes(n), now))).toEqual(["0 min", "59 min", "1 h", "47 h", "2 days"]);
  });
});

describe("every place of a sentence", () => {
  const SOURCES = join(import.meta.dirname, "..");
  const read = (name: string): string => readFileSync(join(SOURCES, name), "utf8");
  const files = readdirSync(SOURCES, { recursive: true, encoding: "utf8" }).filter((name) => /(?<!\.test)\.(svelte|ts)$/.test(name) && /import \{.*\bfill\b.*\/say"/.test(read(name)));
  const text = (path: string): unknown => path.split(".").reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], en);
  /** Each `fill(which, { what })` of a file: the texts it may take, and what it puts in. */
  const fillings = (source: string) => [...source.matchAll(/\bfill\(([^,]+), \{ ([^}]*) \}\)/g)].map(({ index, 1: which = "", 2: what = "" }) => {
    const short = [...source.slice(0, index).matchAll(/\bw = words\.([\w.]+)/g)].at(-1)?.[1] ?? "";
    const paths = [...which.matchAll(/\b(w|words)\.([\w.]+)/g)].map(([, root, path]) => (root === "w" ? `${short}.${path}` : path!));
    return { paths, what };
  });

  it("is filled where the sentence is used", () => {
    const found = files.flatMap((name) => {
      const source = read(name), seen = fillings(source);
      expect(seen, `${name}: a fill that this test cannot read`).toHaveLength(source.match(/\bfill\(/g)?.length ?? 0);
      return seen.flatMap(({ paths, what }) => paths.map((path) => ({ name, path, what })));
    });
    expect(found.length).toBeGreaterThan(30);
    const left = found.flatMap(({ name, path, what }) => places(String(text(path))).filter((place) => !new RegExp(`(^|, )${place}($|[:,])`).test(what)).map((place) => `${name}: {${place}} of ${path}`));
    expect(left).toEqual([]);
    expect(found.filter(({ path }) => typeof text(path) !== "string")).toEqual([]);
  });

  it("shows in plain sight when it is not", () => expect(fill("Pass {pass} of {passes}", { pass: 1 })).toBe("Pass 1 of undefined"));
});
