// Moves documents from a client's database to a server's over HTTP, as the pair does by itself, and counts what it took.
// Run in the folder where the pair is installed: node pair.mjs <documents as JSON lines> <folder for the server>
import { createServer } from "node:http";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const require = createRequire(join(process.cwd(), "package.json"));
const [express, PouchDB, app] = ["express", "pouchdb", "express-pouchdb"].map((name) => require(name));
PouchDB.plugin(require("pouchdb-adapter-memory"));

const docs = readFileSync(process.argv[2], "utf8").trim().split("\n").map((line) => JSON.parse(line));
const Server = PouchDB.defaults({ prefix: process.argv[3] + "/" });
const counted = { requests: 0, bytes: 0 };
const site = express();
site.use((request, _response, next) => { counted.requests++; counted.bytes += Number(request.headers["content-length"] ?? 0); next(); });
site.use("/", app(Server, { mode: "minimumForPouchDB", inMemoryConfig: true, logPath: join(process.argv[3], "log.txt") }));
const server = createServer(site).listen(0);
const there = `http://127.0.0.1:${server.address().port}/record`;

const here = new PouchDB("phone", { adapter: "memory" });
await here.bulkDocs(docs);
const options = { batch_size: 500, batches_limit: 1 };
await PouchDB.replicate(here, there, options);            // makes the database, so that its making is not timed
const first = docs.map((doc) => ({ ...doc, _id: "again-" + doc._id }));
await here.bulkDocs(first);
Object.assign(counted, { requests: 0, bytes: 0 });
const began = performance.now();
const done = await PouchDB.replicate(here, there, options);
const seconds = (performance.now() - began) / 1000;
if (done.docs_written !== docs.length) throw new Error(`${done.docs_written} of ${docs.length} arrived`);
const batch = { ...counted };

Object.assign(counted, { requests: 0, bytes: 0 });
await here.put({ ...docs[0], _id: "one-more" });
await PouchDB.replicate(here, there, options);
const one = counted.requests;
Object.assign(counted, { requests: 0, bytes: 0 });
await PouchDB.replicate(here, there, options);
console.log(JSON.stringify({ seconds, batch, one, none: counted.requests }));
process.exit(0);
