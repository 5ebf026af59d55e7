// Packs the kernel's Python source into one JSON text, {path: source}, for the phone's Python runtime.
// The phone runs the same files as the server; nothing is translated. Two stub modules stand in for
// standard modules that only matter to type checkers.
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join, relative, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";

export const KERNEL = resolve(fileURLToPath(import.meta.url), "../../../backend/kernel");
const VIRTUAL = "virtual:kernel-source";
const STUBS = {
  "__future__.py": "annotations = None\n",
  "typing.py": [
    "TYPE_CHECKING = False", "class _Any:", "    def __getitem__(self, key): return self",
    "    def __call__(self, *args, **kwargs): return self", "Any = _Any()",
    "Callable = Iterable = Iterator = Sequence = Mapping = Optional = Union = Literal = Final = Any",
    "NamedTuple = TypedDict = Protocol = object", "def cast(kind, value): return value", "",
  ].join("\n"),
};

function pythonFiles(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === "__pycache__" ? [] : pythonFiles(path);
    return entry.name.endsWith(".py") && entry.name !== "__main__.py" ? [path] : [];
  });
}

/** {"kernel/door.py": source, …} with the stubs first. `folder` is the package itself. */
export function packKernel(folder = KERNEL) {
  const files = { ...STUBS };
  for (const path of pythonFiles(folder).sort()) {
    const name = relative(resolve(folder, ".."), path).split(sep).join("/");
    files[name] = readFileSync(path, "utf8");
  }
  return files;
}

/** The same statements without what only people and type checkers read: a third less to fetch and to start. */
export function bareKernel(files) {
  const said = execFileSync("python3", [resolve(fileURLToPath(import.meta.url), "../bare.py")], { input: JSON.stringify(files), maxBuffer: 1 << 26 });
  return JSON.parse(said.toString("utf8"));
}

/** Vite: `virtual:kernel-source?url`-free. In a build the text becomes a hashed asset; elsewhere it is inlined. */
export function packedKernel() {
  let building = false;
  return {
    name: "packed-kernel",
    configResolved(config) { building = config.command === "build"; },
    resolveId(id) { return id === VIRTUAL ? `\0${VIRTUAL}` : null; },
    load(id) {
      if (id !== `\0${VIRTUAL}`) return null;
      const text = JSON.stringify(building ? bareKernel(packKernel()) : packKernel());
      if (!building) return `export default ${JSON.stringify(`data:application/json;base64,${Buffer.from(text).toString("base64")}`)}`;
      const ref = this.emitFile({ type: "asset", name: "kernel.json", source: text });
      return `export default import.meta.ROLLUP_FILE_URL_${ref}`;
    },
  };
}
