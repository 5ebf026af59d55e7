// What the phone runs is the kernel without its comments: it must answer as the kernel does, to the byte.
import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { bareKernel, packKernel } from "../../scripts/bundle-kernel.mjs";
import { openKernel } from "./python";

const CASES = new URL("../../../tests/cases/", import.meta.url);
const read = (name: string): Record<string, unknown> => JSON.parse(readFileSync(new URL(name, CASES), "utf8"));
const procedure = read("procedures/pushrod-v8.json");

it("answers the same without comments, docstrings and annotations", async () => {
  const files = packKernel(), bare = bareKernel(files);
  const [whole, light] = await Promise.all([openKernel(files), openKernel(bare)]);
  const cases = readdirSync(CASES).filter((name) => name.endsWith(".json"));
  expect(cases.length).toBeGreaterThan(3);
  for (const name of cases) {
    const { events } = read(name) as { events: unknown[] };
    for (const op of ["overview", "review", "parts"]) {
      const request = JSON.stringify({ op, procedure, events, units: { length: "thou", torque: "lbf.ft" }, now: 1_764_068_400_000, people: {} });
      expect(light(request)).toBe(whole(request));
    }
  }
  const size = (some: Record<string, string>): number => Object.values(some).join("").length;
  expect(size(bare)).toBeLessThan(size(files) * 0.8);
});
