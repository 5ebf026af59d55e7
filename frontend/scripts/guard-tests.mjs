// The process in which the tests of the phone's log and sync run with one change after another. Told `{file, code}`, it answers
// how they went. Nothing in here can break off a change that runs on for ever: guard-mutants.mjs ends this process then.
import { createVitest } from "vitest/node";
import { TESTS } from "./guarding.mjs";

let change = null;
let inForce = false;
const changed = { name: "one-change", enforce: "pre", load: (id) => {
  if (id.split("?")[0] !== change?.file) return null;
  inForce = true;
  return change.code;
} };
const options = {
  watch: true, reporters: [{ onInit() {} }], bail: 1, testTimeout: 5_000, hookTimeout: 5_000,
  pool: "forks", maxWorkers: 1, isolate: false, execArgv: ["--max-old-space-size=512"],
};
const vitest = await createVitest("test", options, { plugins: [changed], server: { watch: null } });
const specs = await vitest.globTestSpecifications(TESTS);

async function outcome(next) {
  // What was loaded with the change before is forgotten.
  for (const each of [change, next]) if (each) vitest.invalidateFile(each.file);
  change = next;
  inForce = next === null;
  vitest.state.filesMap.clear();
  vitest.state.clearErrors();
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications(specs);
  if (!inForce) throw new Error("no test loaded the changed file, so they say nothing of the change");
  if (testModules.length === specs.length && unhandledErrors.length === 0 && testModules.every((module) => module.ok())) return "passed";
  const failures = testModules.flatMap((module) => [...module.children.allTests("failed")]).flatMap((test) => test.result().errors);
  return failures.some((error) => /^Test timed out/.test(error.message)) ? "hung" : "failed";
}

process.on("message", async (next) => process.send(await outcome(next)));
// Whoever asks is gone: this process and what it started go too.
process.on("disconnect", () => process.kill(-process.pid, "SIGKILL"));
process.send("ready");
