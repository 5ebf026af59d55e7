// Changes the phone's log and sync in small ways, one at a time, and sees whether their tests notice:
// `node scripts/guard-mutants.mjs [how many] [part of a file's name …]`. Survivors that are explained lie in tests/mutants.json.
import { readFileSync } from "node:fs";
import { basename, dirname } from "node:path";
import { createVitest } from "vitest/node";
import { changes, FILES, TESTS } from "./guarding.mjs";

const known = JSON.parse(readFileSync(new URL("../../tests/mutants.json", import.meta.url), "utf8"));
const most = Number(process.argv.slice(2).find((arg) => /^\d+$/.test(arg)) ?? 0);
const named = process.argv.slice(2).filter((arg) => !/^\d+$/.test(arg));
const short = (file) => `${basename(dirname(file))}/${basename(file)}`;
const all = FILES.filter((file) => !named.length || named.some((name) => file.includes(name))).flatMap((file) => changes(file).map((change) => ({ file, ...change })));
const tried = most && most < all.length ? all.filter((_, i) => Math.floor((i * most) / all.length) !== Math.floor(((i + 1) * most) / all.length)) : all;

let mutant = null;
const changed = { name: "one-change", enforce: "pre", load: (id) => (mutant && id.split("?")[0] === mutant.file ? mutant.code : null) };
const silent = { onInit() {} };
const vitest = await createVitest("test", { watch: true, reporters: [silent], bail: 1, testTimeout: 20_000, maxWorkers: 1, isolate: true }, { plugins: [changed], server: { watch: null } });
const specs = await vitest.globTestSpecifications(TESTS);

/** Whether the tests pass with this change; what was loaded of the file before is forgotten. */
async function passes(next) {
  const files = [mutant, next].filter(Boolean).map(({ file }) => file);
  mutant = next;
  files.forEach((file) => vitest.invalidateFile(file));
  vitest.state.filesMap.clear();
  vitest.state.clearErrors?.();
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications(specs);
  return unhandledErrors.length === 0 && testModules.every((module) => module.ok());
}

const began = Date.now();
if (!(await passes(null))) throw new Error("the tests fail without any mutant");
console.log(`once without a change: ${((Date.now() - began) / 1000).toFixed(1)} s`);
let survived = 0;
let unexplained = 0;
for (const [i, each] of tried.entries()) {
  if (i && i % 10 === 0) console.log(`${i} of ${tried.length} tried, ${survived} survived, ${Math.round((Date.now() - began) / 1000)} s`);
  if (!(await passes(each))) continue;
  const words = readFileSync(each.file, "utf8").split("\n")[each.line - 1].trim();
  const why = known[`${short(each.file)}: ${words}: ${each.what}`];
  survived++;
  if (!why) unexplained++;
  console.log(`survived  ${short(each.file)}:${each.line}  ${each.what}  ${words.slice(0, 140)}  ${why ? `(${why})` : ""}`);
}
const share = (100 * (tried.length - survived)) / tried.length;
console.log(`${tried.length - survived} of ${tried.length} mutants of the phone's log and sync caught (${share.toFixed(1)} %), ${Math.round((Date.now() - began) / 1000)} s; ${unexplained} survivors without an explanation`);
await vitest.close();
process.exit(share < 90 ? 1 : 0);
