// How much the phone has to fetch: a table, and build/page_weight.json for whoever compares versions.
// Our own JavaScript is every script of the app: all but the Python runtime's glue and Workbox. Words are data and lie in
// the page; one person's app reads one language of them, so the code with the English words has a row as well. Goals are from the
// bench's design.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

const root = resolve(fileURLToPath(import.meta.url), "../../..");
const dist = join(root, "frontend/dist");
const GOALS = { "own JavaScript": 60, "everything precached": 400 };
const isOwn = (name) => name.endsWith(".js") && !isRuntime(name);
const words = (language) => gzipSync(readFileSync(join(root, `frontend/src/words/${language}.json`)), { level: 9 }).length;
const isRuntime = (name) => /assets\/(worker|micropython|__vite-browser-external)/.test(name) || isGlue(name);
// The bundler's few helpers are the runtime's as long as no script of ours asks for them.
const isGlue = (name) => /assets\/rolldown-runtime/.test(name)
  && !readdirSync(join(dist, "assets")).some((other) => /^(index|rest)-.*js$/.test(other) && readFileSync(join(dist, "assets", other), "utf8").includes("rolldown-runtime"));

const filesIn = (folder) => readdirSync(folder, { withFileTypes: true })
  .flatMap((entry) => (entry.isDirectory() ? filesIn(join(folder, entry.name)) : [join(folder, entry.name)]));
const kB = (bytes) => Math.round(bytes / 100) / 10;

const held = readFileSync(join(dist, "sw.js"), "utf8");
const files = filesIn(dist)
  .map((path) => ({ name: relative(dist, path), zipped: gzipSync(readFileSync(path), { level: 9 }).length }))
  .filter(({ name }) => name === "index.html" || held.includes(name));
const total = (wanted) => files.filter(wanted).reduce((sum, { zipped }) => sum + zipped, 0);

const rows = [
  { name: "own JavaScript", value: kB(total(({ name }) => isOwn(name))) },
  { name: "the same with its words", value: kB(total(({ name }) => isOwn(name)) + words("en")) },
  { name: "the page, words in it", value: kB(total(({ name }) => name === "index.html")) },
  { name: "Python runtime", value: kB(total(({ name }) => name.endsWith(".wasm") || isRuntime(name))) },
  { name: "kernel", value: kB(total(({ name }) => name.endsWith(".json"))) },
  { name: "everything precached", value: kB(total(() => true)) },
].map((row) => ({ ...row, unit: "kB gzipped", goal: GOALS[row.name] ?? null }));

for (const { name, value, unit, goal } of rows) {
  const against = goal === null ? "" : `goal ${goal}${value > goal ? "  OVER" : ""}`;
  console.log(`${name.padEnd(26)}${String(value).padStart(8)} ${unit}  ${against}`);
}
mkdirSync(join(root, "build"), { recursive: true });
const written = rows.map((row) => ({ ...row, goal: row.goal === null ? "" : `<= ${row.goal}` }));
writeFileSync(join(root, "build/page_weight.json"), `${JSON.stringify(written, null, 1)}\n`);
if (process.argv.includes("--strict") && rows.some(({ value, goal }) => goal !== null && value > goal)) process.exitCode = 1;
