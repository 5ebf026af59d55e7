// Both languages say the same things: equal keys, equal shapes, and no sentence left in the other language.
import { expect, it } from "vitest";
import { words as de } from "./de";
import { words as en } from "./en";

type Leaf = [string, unknown];
const leaves = (value: unknown, path = ""): Leaf[] =>
  value !== null && typeof value === "object" ? Object.entries(value).flatMap(([key, inner]) => leaves(inner, `${path}.${key}`)) : [[path, value]];
const shape = (all: Leaf[]): string[] => all.map(([path, value]) => `${path}: ${typeof value}${typeof value === "function" ? value.length : ""}`).sort();
// Names, units and signs are the same everywhere.
const SAME = /^(\.app|\.login\.name|\.common\.station|\.keypad\.tick|\.shelf\.badge|\.torque\.none|\.settings\.(lengths\.(thou|mm)|torques|themes\.auto|android|ios|normal).*|\.keypad\.refused\.)$/;

it("has the same keys in both", () => expect(shape(leaves(de))).toEqual(shape(leaves(en))));
it("leaves no English in German", () => {
  const english = new Map(leaves(en));
  const same = leaves(de).filter(([path, value]) => typeof value === "string" && english.get(path) === value && !SAME.test(path));
  expect(same.map(([path]) => path)).toEqual([]);
});
it("forms plurals in both", () => {
  expect([en.board.findings(1), en.board.findings(2)]).toEqual(["1 finding", "2 findings"]);
  expect([de.board.findings(1), de.board.findings(2)]).toEqual(["1 Befund", "2 Befunde"]);
});
