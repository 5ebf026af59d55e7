// Runs kernel requests under the phone's Python, in Node: one JSON request a line in, one answer a line out.
// Usage: node run_micropython.mjs [folder of the kernel package] [call or quick] < requests.jsonl
import { createInterface } from "node:readline";
import { KERNEL, packKernel } from "../../frontend/scripts/bundle-kernel.mjs";
import { openKernel } from "../../frontend/src/kernel/python.js";

console.warn = (...said) => process.stderr.write(`${said.join(" ")}\n`);
const door = await openKernel(packKernel(process.argv[2] || KERNEL), undefined, process.argv[3]);
for await (const line of createInterface({ input: process.stdin })) {
  if (line.trim()) process.stdout.write(`${door(line)}\n`);
}
