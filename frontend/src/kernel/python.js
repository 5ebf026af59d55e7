// Starts the phone's Python and opens the kernel's one door: a JSON string in, a JSON string out.
// Only strings cross: the bridge cuts integers to 32 bits. Shared by the phone's worker and by the
// test that runs the same requests through Node, so it names no browser thing.
import { loadMicroPython } from "@micropython/micropython-webassembly-pyscript";

const HOME = "/kernel-home";

function write(fs, path, source) {
  const folders = path.split("/").slice(0, -1);
  let here = HOME;
  for (const folder of folders) {
    here = `${here}/${folder}`;
    if (!fs.analyzePath(here).exists) fs.mkdir(here);
  }
  fs.writeFile(`${HOME}/${path}`, source);
}

/**
 * @param {Record<string, string>} files  path -> Python source, as packed by scripts/bundle-kernel.mjs
 * @param {string | undefined} wasmUrl    where the runtime's wasm is; undefined: beside the runtime
 * @param {"call" | "quick"} door         call: canonical answers, for holding against others; quick: for a screen
 * @returns {Promise<(request: string) => string>} the door
 */
export async function openKernel(files, wasmUrl, door = "call") {
  const said = (line) => console.warn(`kernel: ${line}`);
  const python = await loadMicroPython({ url: wasmUrl, stdout: said, stderr: said, heapsize: 4 * 1024 * 1024, pystack: 16384 });
  python.FS.mkdir(HOME);
  for (const [path, source] of Object.entries(files)) write(python.FS, path, source);
  python.runPython(`import sys\nsys.path.insert(0, ${JSON.stringify(HOME)})\nfrom kernel.door import ${door} as _door`);
  const answers = python.globals.get("_door");
  return (request) => answers(request);
}
