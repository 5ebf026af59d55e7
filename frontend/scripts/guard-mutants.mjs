// Changes the phone's log and sync in small ways, one at a time, and sees whether their tests notice:
// `node scripts/guard-mutants.mjs [how many] [part of a file's name …]`. Survivors that are explained lie in tests/mutants.json.
import { fork } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { basename, dirname } from "node:path";
import { setTimeout } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { changes, FILES } from "./guarding.mjs";

const TESTS_RUN = fileURLToPath(new URL("guard-tests.mjs", import.meta.url));
const LEAST_PATIENCE_MS = 20_000;
const BETWEEN_PROOFS = 100;

const known = JSON.parse(readFileSync(new URL("../../tests/mutants.json", import.meta.url), "utf8"));
const most = Number(process.argv.slice(2).find((arg) => /^\d+$/.test(arg)) ?? 0);
const named = process.argv.slice(2).filter((arg) => !/^\d+$/.test(arg));
const short = (file) => `${basename(dirname(file))}/${basename(file)}`;
const chosen = FILES.filter((file) => !named.length || named.some((name) => file.includes(name)));
const all = chosen.flatMap((file) => changes(file).map((change) => ({ file, ...change })));
const tried = most && most < all.length ? all.filter((_, i) => Math.floor((i * most) / all.length) !== Math.floor(((i + 1) * most) / all.length)) : all;
const began = Date.now();
const seconds = () => Math.round((Date.now() - began) / 1000);

/** Runs the tests in a process group of its own, so that one kill ends whatever a change set off. */
class Lane {
  child = null;
  patience = LEAST_PATIENCE_MS;

  async start() {
    this.child = fork(TESTS_RUN, { detached: true });
    await Promise.race([once(this.child, "message"), once(this.child, "exit").then(() => { throw new Error("the tests could not be started"); })]);
  }

  end() {
    try { process.kill(-this.child.pid, "SIGKILL"); } catch { /* it is gone */ }
    this.child = null;
  }

  /** "passed", "failed", or "hung" for what did not come to an end in time. */
  async outcome(change) {
    if (this.child === null) await this.start();
    const { child } = this;
    child.send(change && { file: change.file, code: change.code });
    const settled = new AbortController();
    const { signal } = settled;
    const answer = await Promise.race([
      once(child, "message", { signal }).then(([said]) => said),
      once(child, "exit", { signal }).then(() => "gone"),
      setTimeout(this.patience, "hung", { signal }),
    ]);
    settled.abort();
    if (answer === "gone") throw new Error(`the tests' process ended by itself${change ? ` at ${short(change.file)}:${change.line} ${change.what}` : ""}`);
    // One that waited in vain may have left something running behind it.
    if (answer === "hung") this.end();
    return answer;
  }

  async mustBe(expected, change, what) {
    const found = await this.outcome(change);
    if (found !== expected) throw new Error(`the run is void: ${what}: ${found}`);
  }

  /** Nothing that this run finds means anything unless it tells a change that breaks all from one that breaks nothing. */
  async prove() {
    await this.mustBe("passed", null, "the tests without a change");
    const from = Date.now();
    await this.mustBe("passed", null, "the tests without a change, again");
    this.patience = Math.max(LEAST_PATIENCE_MS, 10 * (Date.now() - from));
    for (const file of chosen) {
      const code = readFileSync(file, "utf8");
      await this.mustBe("failed", { file, code: `throw new Error("planted");\n${code}` }, `${short(file)} that throws`);
      await this.mustBe("passed", { file, code: `${code}\nvoid 0;\n` }, `${short(file)} with a line that does nothing`);
    }
  }
}

const survivors = [];
const counts = new Map(FILES.map((file) => [file, { all: 0, failed: 0, hung: 0, passed: 0, unexplained: 0 }]));
let next = 0;

function note(each, outcome) {
  const count = counts.get(each.file);
  count.all++;
  count[outcome]++;
  const words = readFileSync(each.file, "utf8").split("\n")[each.line - 1].trim();
  const place = `${short(each.file)}:${each.line}  ${each.what}  ${words.slice(0, 140)}`;
  if (outcome === "hung") console.log(`hung      ${place}`);
  if (outcome !== "passed") return;
  const why = known[`${short(each.file)}: ${words}: ${each.what}`];
  if (!why) count.unexplained++;
  survivors.push(each);
  console.log(`survived  ${place}  ${why ? `(${why})` : ""}`);
}

async function work(lane) {
  let since = 0;
  while (next < tried.length) {
    if (next && next % 25 === 0) console.log(`${next} of ${tried.length} begun, ${survivors.length} survived, ${seconds()} s`);
    const each = tried[next++];
    note(each, await lane.outcome(each));
    if (++since % BETWEEN_PROOFS === 0) await lane.mustBe("passed", null, "the tests without a change, in between");
  }
  await lane.mustBe("passed", null, "the tests without a change, at the end");
}

const lanes = Array.from({ length: Math.min(2, availableParallelism()) }, () => new Lane());
const endAll = () => lanes.forEach((lane) => lane.child && lane.end());
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => { endAll(); process.exit(1); });
try {
  await Promise.all(lanes.map((lane) => lane.prove()));
  const endless = { file: chosen[0], line: 1, what: "planted", code: "for (;;);\n" };
  await lanes[0].mustBe("hung", endless, "an endless loop");
  console.log(`told apart: no change, one that does nothing, one that throws, one without an end (given up after ${Math.round(lanes[0].patience / 1000)} s); ${seconds()} s`);
  await Promise.all(lanes.map(work));
} finally {
  endAll();
}

const sum = (what, of = [...counts.values()]) => of.reduce((total, count) => total + count[what], 0);
console.log(`${"".padEnd(18)}mutants  failed  hung  survived, explained  unexplained   caught`);
for (const [name, of] of [...chosen.map((file) => [short(file), [counts.get(file)]]), ["all", [...counts.values()]]]) {
  const [total, failed, hung, passed, unexplained] = ["all", "failed", "hung", "passed", "unexplained"].map((what) => sum(what, of));
  console.log(`${name.padEnd(18)}${[total, failed, hung, passed - unexplained, unexplained].map((n, i) => String(n).padStart([7, 8, 6, 21, 13][i])).join("")}${((100 * (failed + hung)) / total).toFixed(1).padStart(7)} %`);
}
const share = (100 * (sum("failed") + sum("hung"))) / tried.length;
console.log(`${sum("failed") + sum("hung")} of ${tried.length} mutants of the phone's log and sync caught (${share.toFixed(1)} %), ${seconds()} s; ${sum("unexplained")} survivors without an explanation`);
process.exit(share < 90 ? 1 : 0);
