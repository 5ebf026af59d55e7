// Text must be readable in a dim workshop: 7:1 in both themes, measured from the tokens themselves.
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";

const css = readFileSync(new URL("./tokens.css", import.meta.url), "utf8");
const themes = css.split("}").filter((b) => b.includes("--paper")).map((b) =>
  Object.fromEntries([...b.matchAll(/--([a-z-]+): (#[0-9a-f]{6})/g)].map((m) => [m[1]!, m[2]!])));

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}
const contrast = (a: string, b: string): number => {
  const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p);
  return (x! + 0.05) / (y! + 0.05);
};
const PAIRS = [["ink", "paper"], ["ink", "card"], ["faint", "paper"], ["faint", "card"], ["blue", "paper"], ["blue", "card"], ["blue", "wash"], ["faint", "wash"],
  ["out", "paper"], ["out", "card"], ["out", "out-wash"], ["hold", "paper"], ["hold", "card"], ["on-blue", "blue"]] as const;

it("finds light, dark and the phone's own dark", () => expect(themes.length).toBe(3));
it.each(themes.flatMap((theme, i) => PAIRS.map(([a, b]) => [i, a, b, theme] as const)))("theme %i: %s on %s", (_, a, b, theme) => {
  expect(contrast(theme[a]!, theme[b]!)).toBeGreaterThanOrEqual(7);
});
