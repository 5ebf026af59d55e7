// Branch coverage of the phone's log and sync by their own tests: `node scripts/guard-branches.mjs`. Names each branch that no
// test takes, and fails when there is one.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { startVitest } from "vitest/node";
import { branches, counted, FILES, TESTS } from "./guarding.mjs";

const folder = mkdtempSync(join(tmpdir(), "ht-branches-"));
const told = join(folder, "taken");
writeFileSync(told, "");
writeFileSync(join(folder, "note.mjs"), `import { appendFileSync } from "node:fs";
const taken = new Set();
globalThis.__branch = (file, i) => { const key = file + " " + i; if (!taken.has(key)) { taken.add(key); appendFileSync(${JSON.stringify(told)}, key + "\\n"); } };`);

const counting = { name: "count-branches", enforce: "pre", load: (id) => (FILES.includes(id.split("?")[0]) ? counted(id.split("?")[0]) : null) };
const run = await startVitest("test", TESTS, { watch: false, reporters: ["dot"], setupFiles: [join(folder, "note.mjs")] }, { plugins: [counting] });
const failed = run.state.getCountOfFailedTests();
await run.close();
const taken = new Set(readFileSync(told, "utf8").split("\n"));
rmSync(folder, { recursive: true });
let all = 0;
let missed = 0;
for (const file of FILES) {
  branches(file).forEach(({ what }, i) => {
    all++;
    if (taken.has(`${file} ${i}`)) return;
    missed++;
    console.log(`not taken  ${relative(process.cwd(), file)}:${what}`);
  });
}
console.log(`${all - missed} of ${all} branches of the phone's log and sync taken (${(100 * (all - missed) / all).toFixed(1)} %)`);
process.exit(failed || missed ? 1 : 0);
