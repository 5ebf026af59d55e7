// The pair: moves documents from a client's database to a server's over HTTP, as it does by itself, and counts what it took.
// Run in the folder where the pair is installed.
//   node pair.mjs serve <folder>      the server; says its address
//   node pair.mjs durable <folder>    the same, with every write on the disk before it is answered
//   node pair.mjs client <address>    the client; a number of documents a line, each line answered by one
import { createServer } from "node:http";
import { createRequire } from "node:module";
import { join } from "node:path";
import { createInterface } from "node:readline";

const require = createRequire(join(process.cwd(), "package.json"));
const PouchDB = require("pouchdb");
const [, , part, where] = process.argv;

/** Every write of the server waits for the disk, as ours does; the pair by itself does not. */
function durable() {
  const store = require("leveldown").prototype;
  for (const name of ["_batch", "_put"]) {
    const plain = store[name];
    store[name] = function (...given) { given[given.length - 2] = { ...given[given.length - 2], sync: true }; return plain.apply(this, given); };
  }
}

function serve() {
  const [express, app] = [require("express"), require("express-pouchdb")];
  const site = express();
  const counted = { requests: 0, bytes: 0 };
  site.get("/counted", (_request, response) => { response.json(counted); Object.assign(counted, { requests: 0, bytes: 0 }); });
  site.use((request, _response, next) => { counted.requests++; counted.bytes += Number(request.headers["content-length"] ?? 0); next(); });
  site.use("/", app(PouchDB.defaults({ prefix: where + "/" }), { mode: "minimumForPouchDB", inMemoryConfig: true, logPath: join(where, "log.txt") }));
  const server = createServer(site).listen(0, "127.0.0.1", () => console.log(`http://127.0.0.1:${server.address().port}`));
}

async function client() {
  PouchDB.plugin(require("pouchdb-adapter-memory"));
  const here = new PouchDB("phone", { adapter: "memory" });
  const dev = "a".repeat(32);
  let n = 0;
  const doc = () => ({
    _id: `${dev}:${++n}`, dev, n, build: "b-bench", type: "reading", v: 1, at: Date.now(), seen: 0,
    body: { point: "main_bore", station: String(n % 5 + 1), text: "2.4507", unit: "in" },
  });
  const count = async () => (await fetch(`${where}/counted`)).json();
  /** Stores so many documents, which is not timed, and replicates until the server has them. */
  const moved = async (many) => {
    if (many > 0) await here.bulkDocs(Array.from({ length: many }, doc));
    await count();
    const began = performance.now();
    const done = await PouchDB.replicate(here, `${where}/record`, { batch_size: 500 });
    const seconds = (performance.now() - began) / 1000;
    if (done.docs_written !== many) throw new Error(`${done.docs_written} of ${many} arrived`);
    return { seconds, ...(await count()) };
  };
  for await (const line of createInterface({ input: process.stdin })) console.log(JSON.stringify(await moved(Number(line))));
  process.exit(0);
}

if (part === "client") await client();
else {
  if (part === "durable") durable();
  serve();
}
