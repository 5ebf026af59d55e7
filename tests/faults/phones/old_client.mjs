// The phone's log and sync as the first version shipped them, bundled once and never changed: phones in the field
// may still run it, with entries of theirs unsent. Plays the old client in tests/faults.
// src/log/log.ts
/** The event alone, without what the phone notes beside it. */
function bare(row) {
	const { waiting: _waiting, refused: _refused, ...event } = row;
	return event;
}
/** Order of the fold: the server's positions first, then what is pending, by the device's own count. */
function inFoldOrder(one, other) {
	const last = Number.MAX_SAFE_INTEGER;
	return (one.seq ?? last) - (other.seq ?? last) || one.n - other.n || (one.dev < other.dev ? -1 : 1);
}
function newBuild(id, body) {
	return {
		id,
		name: String(body.name ?? id),
		procedure: String(body.procedure ?? ""),
		revision: Number(body.revision ?? 0),
		head: 0,
		findings: [],
		reviewed: 0,
		last_at: null
	};
}
var BenchLog = class {
	database;
	clock;
	constructor(database, clock = Date.now) {
		this.database = database;
		this.clock = clock;
	}
	dev() {
		return this.database.read(async (db) => (await db.get("device", "this")).dev);
	}
	epoch() {
		return this.database.read(async (db) => (await db.get("device", "this")).epoch);
	}
	/**
	* Durable when it resolves. The count is given in the same transaction, so it has no gaps and no twins: the
	* browser lets one writer at a time at these stores, whichever tab it is in.
	*/
	append(build, draft, who, role) {
		const at = this.clock();
		return this.database.write([
			"device",
			"events",
			"builds"
		], (change) => this.add(change, build, draft, {
			who,
			role,
			at
		}));
	}
	/** Two trips to the disk and no more: what is read is asked for together, and so is what is written. */
	async add(change, id, draft, by) {
		const [held, known] = await Promise.all([change.objectStore("device").get("this"), change.objectStore("builds").get(id)]);
		const device = held;
		const build = known ?? (draft.type === "build.opened" ? newBuild(id, draft.body) : null);
		if (build === null) throw new Error("This build is not on this phone. Open it from the list first.");
		const event = {
			dev: device.dev,
			n: device.next,
			build: id,
			type: draft.type,
			v: 1,
			at: by.at,
			seen: build.head,
			who: by.who,
			role: by.role,
			body: draft.body
		};
		await Promise.all([
			change.objectStore("events").add({
				...event,
				waiting: by.who
			}),
			change.objectStore("device").put({
				...device,
				next: device.next + 1
			}, "this"),
			change.objectStore("builds").put({
				...build,
				last_at: by.at
			})
		]);
		return event;
	}
	/** In fold order. What the server set aside stays in the log but not in the fold: every device must agree. */
	async eventsOf(build) {
		return (await this.database.read((db) => db.getAllFromIndex("events", "build", build))).filter((row) => row.refused === void 0).map(bare).sort(inFoldOrder);
	}
	async pending(who, limit = Number.MAX_SAFE_INTEGER) {
		const range = IDBKeyRange.bound([who, 0], [who, Number.MAX_SAFE_INTEGER]);
		return (await this.database.read((db) => db.getAllFromIndex("events", "waiting", range, limit > 65535 ? void 0 : limit))).map(bare);
	}
	async waiting() {
		const rows = await this.database.read((db) => db.getAllFromIndex("events", "waiting"));
		const builds = {};
		for (const row of rows) builds[row.build] = (builds[row.build] ?? 0) + 1;
		const oldest = rows.reduce((least, row) => least === null || row.at < least ? row.at : least, null);
		return {
			count: rows.length,
			oldest_at: oldest,
			people: [...new Set(rows.map((row) => row.waiting))],
			builds
		};
	}
	/** What the server set aside. It reads the whole log, so it is asked for after news only, never after a tick. */
	async refused() {
		return (await this.database.read((db) => db.getAll("events"))).filter((row) => row.refused !== void 0).map((row) => ({
			event: bare(row),
			why: row.refused
		}));
	}
	build(id) {
		return this.database.read((db) => db.get("builds", id));
	}
	builds() {
		return this.database.read((db) => db.getAll("builds"));
	}
	/** Everything this phone made and the server has not, as it would be sent, one event a line. */
	async exportLines() {
		return (await this.database.read((db) => db.getAllFromIndex("events", "waiting"))).map((row) => `${JSON.stringify(bare(row))}\n`).join("");
	}
};
// src/log/apply.ts
const WHY = { fork: "The server already has another entry under this number." };
async function take(change, verdict, dev) {
	const events = change.objectStore("events");
	const row = await events.get([dev, verdict.n]);
	if (row === void 0) return null;
	delete row.waiting;
	if (typeof verdict.seq === "number" && (verdict.verdict === "stored" || verdict.verdict === "duplicate")) row.seq = verdict.seq;
	else row.refused = verdict.why || WHY[verdict.verdict] || "The server set this entry aside.";
	await events.put(row);
	return row.build;
}
/** Stores the events that follow on without a gap from what we hold; anything beyond a gap is left for the next call. */
async function takeNews(change, id, news) {
	const builds = change.objectStore("builds");
	const build = await builds.get(id) ?? newBuild(id, {});
	let { head, last_at } = build;
	const before = head;
	for (const event of [...news.events].sort((one, other) => one.seq - other.seq)) {
		if (event.seq !== head + 1) continue;
		await change.objectStore("events").put(event);
		head = event.seq;
		last_at = Math.max(last_at ?? 0, event.at);
	}
	const { name, procedure, revision, findings, reviewed } = news;
	await builds.put({
		...build,
		name,
		procedure,
		revision,
		findings,
		reviewed,
		head,
		last_at
	});
	return head !== before || reviewed !== build.reviewed;
}
/** The server was put back from an older copy: it may have lost what it once acknowledged, so all of ours goes again. */
async function startOver(change, dev) {
	const events = change.objectStore("events");
	for (const row of await events.getAll()) {
		delete row.seq;
		if (row.dev === dev && row.refused === void 0) row.waiting = row.who;
		await events.put(row);
	}
	for (const build of await change.objectStore("builds").getAll()) await change.objectStore("builds").put({
		...build,
		head: 0,
		reviewed: 0,
		findings: []
	});
}
async function takeAll(change, answer) {
	const device = await change.objectStore("device").get("this");
	const renewed = device.epoch !== null && device.epoch !== answer.epoch;
	if (renewed) await startOver(change, device.dev);
	await change.objectStore("device").put({
		...device,
		epoch: answer.epoch
	}, "this");
	const changed = /* @__PURE__ */ new Set();
	for (const verdict of answer.verdicts) {
		const build = await take(change, verdict, device.dev);
		if (build !== null) changed.add(build);
	}
	for (const [id, news] of renewed ? [] : Object.entries(answer.builds)) if (await takeNews(change, id, news)) changed.add(id);
	if (renewed) for (const build of await change.objectStore("builds").getAll()) changed.add(build.id);
	await change.objectStore("kept").put(answer.people, "names");
	await change.objectStore("kept").put(answer.shop.name, "shop");
	const more = renewed || Object.values(answer.builds).some((news) => news.more);
	return {
		changed: [...changed],
		more,
		renewed
	};
}
function applySync(database, answer) {
	return database.write([
		"device",
		"events",
		"builds",
		"kept"
	], (change) => takeAll(change, answer));
}
/** An entry the server will never take even on its own: it stays here, marked, and stops holding up the rest. */
function setAside(database, n, why) {
	return database.write(["device", "events"], async (change) => {
		const { dev } = await change.objectStore("device").get("this");
		await take(change, {
			n,
			verdict: "quarantined",
			why
		}, dev);
	});
}
const POLL_MS = 3e4;
const FIRST_WAIT_MS = 2e3;
const LONGEST_WAIT_MS = 45e3;
function firstState() {
	return {
		busy: false,
		again: false,
		failures: 0,
		not_before: 0,
		limit: 500,
		last_synced: null,
		failing: null,
		need_login: []
	};
}
function send(state) {
	return [{
		...state,
		busy: true,
		again: false
	}, [{
		do: "send",
		limit: state.limit,
		skip: state.need_login
	}]];
}
function rest(state, at) {
	return [{
		...state,
		busy: false
	}, [{
		do: "wake",
		at
	}]];
}
/** A person who asks, comes back or regains the network is not made to sit out a back-off. */
function nudged(state, why, now) {
	if (state.busy) return [{
		...state,
		again: true
	}, []];
	return (why === "append" || why === "clock") && now < state.not_before ? [state, []] : send(state);
}
function backOff(failures, luck) {
	const wait = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (failures - 1));
	return Math.round(wait * (.5 + luck / 2));
}
function over(state, outcome, now, luck) {
	switch (outcome.kind) {
		case "taken": {
			const well = {
				...state,
				failures: 0,
				not_before: 0,
				failing: null,
				last_synced: now
			};
			return outcome.more || state.again ? send(well) : rest({
				...well,
				limit: 500
			}, now + POLL_MS);
		}
		case "nothing": return state.again ? send(state) : rest(state, now + POLL_MS);
		case "too_big": {
			if (outcome.sent > 1) return send({
				...state,
				limit: Math.max(1, Math.floor(outcome.sent / 2))
			});
			const [next, effects] = send(state);
			return [next, [{ do: "set_aside" }, ...effects]];
		}
		case "login": {
			const need_login = [.../* @__PURE__ */ new Set([...state.need_login, outcome.who])];
			return send({
				...state,
				need_login
			});
		}
		case "failed": {
			const failures = state.failures + 1;
			const not_before = now + backOff(failures, luck);
			return rest({
				...state,
				failures,
				not_before,
				failing: outcome.why,
				again: false
			}, not_before);
		}
	}
}
function step(state, happening) {
	switch (happening.what) {
		case "nudge": return nudged(state, happening.why, happening.now);
		case "login": {
			const need_login = state.need_login.filter((who) => who !== happening.who);
			return nudged({
				...state,
				need_login
			}, "asked", happening.now);
		}
		case "over": return over(state, happening.outcome, happening.now, happening.luck);
	}
}
// src/sync/network.ts
const PATIENCE_MS = 15e3;
const MOST_BYTES = 25e4;
const NO_SERVER = "The shop's server did not answer.";
const NOT_OURS = "Something other than the shop's server answered. If this network has a log-in page, open it first.";
const SLOW = "The shop's server took too long to answer.";
/** The part of an event that the phone says; the server stamps the rest. */
function spoken({ dev, n, build, type, v, at, seen, body }) {
	return {
		dev,
		n,
		build,
		type,
		v,
		at,
		seen,
		body
	};
}
/** As many of the events, in order, as fit one request; one at least. */
function fitting(events, most = MOST_BYTES) {
	let bytes = 0;
	const last = events.findIndex((event) => (bytes += new TextEncoder().encode(JSON.stringify(spoken(event))).length + 1) > most);
	return last < 0 ? events : events.slice(0, Math.max(1, last));
}
function isAnswer(value) {
	const answer = value;
	return typeof answer === "object" && answer !== null && typeof answer.epoch === "string" && Array.isArray(answer.verdicts) && typeof answer.builds === "object" && answer.builds !== null;
}
async function read(response) {
	if (response.status === 413) return { kind: "too_big" };
	if (response.status === 401 || response.status === 403) return { kind: "login" };
	if (response.status >= 500) return {
		kind: "failed",
		why: `The shop's server has a fault (${response.status}). It will be tried again.`
	};
	if (response.status === 429) return {
		kind: "failed",
		why: "The shop's server is busy. It will be tried again."
	};
	if (!(response.headers.get("content-type") ?? "").includes("json")) return {
		kind: "failed",
		why: NOT_OURS
	};
	const value = await response.json().catch(() => null);
	if (response.ok && isAnswer(value)) return {
		kind: "answer",
		answer: value
	};
	return {
		kind: "failed",
		why: response.ok ? NOT_OURS : `The shop's server refused to take the entries (${response.status}).`
	};
}
/** Aborts by itself; never throws. */
async function ask(path, init, patience = PATIENCE_MS) {
	const control = new AbortController();
	const timer = setTimeout(() => control.abort(), patience);
	try {
		return await fetch(path, {
			...init,
			cache: "no-store",
			redirect: "manual",
			signal: control.signal
		});
	} catch {
		return control.signal.aborted ? SLOW : NO_SERVER;
	} finally {
		clearTimeout(timer);
	}
}
const post = async (token, events, rest, waiting) => {
	const body = {
		...rest,
		events: events.map(spoken)
	};
	const response = await ask("/api/sync", {
		method: "POST",
		body: JSON.stringify(body),
		headers: {
			"Content-Type": "application/json",
			Authorization: `Device ${token}`,
			"Halfthou-Waiting": String(waiting)
		}
	});
	if (typeof response === "string") return {
		kind: "failed",
		why: response
	};
	return read(response).catch(() => ({
		kind: "failed",
		why: NO_SERVER
	}));
};
// src/sync/runner.ts
const TOO_BIG = "The server will not take an entry this big.";
const TOO_MUCH = "The shop's server says the request is too big, though nothing was sent.";
/** Where the browser has locks, one tab talks to the server; the others leave it to that one. */
async function oneTab(work) {
	const locks = globalThis.navigator?.locks;
	if (!locks) return work();
	return await locks.request("halfthou-sync", { ifAvailable: true }, (lock) => lock ? work() : { kind: "nothing" });
}
var SyncRunner = class {
	around;
	state = firstState();
	rounds = Promise.resolve();
	sent = null;
	constructor(around) {
		this.around = around;
	}
	nudge(why) {
		return this.happened({
			what: "nudge",
			why,
			now: this.around.now()
		});
	}
	loggedIn(who) {
		return this.happened({
			what: "login",
			who,
			now: this.around.now()
		});
	}
	/** Resolves when the talking that this started, or joined, has come to rest. */
	happened(happening) {
		const [state, effects] = step(this.state, happening);
		this.state = state;
		this.around.told(state);
		if (effects.length > 0) this.rounds = this.carryOut(effects);
		return this.rounds;
	}
	async carryOut(effects) {
		for (const effect of effects) {
			if (effect.do === "wake") this.around.wakeAt(effect.at, () => void this.nudge("clock"));
			if (effect.do === "set_aside" && this.sent !== null) await setAside(this.around.log.database, this.sent, TOO_BIG);
			if (effect.do === "send") {
				const outcome = await oneTab(() => this.round(effect.limit, effect.skip)).catch(failed);
				const [state, next] = step(this.state, {
					what: "over",
					outcome,
					now: this.around.now(),
					luck: this.around.luck()
				});
				this.state = state;
				this.around.told(state);
				await this.carryOut(next);
			}
		}
	}
	/** People with something to send go first; the person at the bench asks for news even with nothing to send. */
	async whose(skip) {
		const able = (await this.around.people()).filter((person) => person.token !== null && !skip.includes(person.id));
		const { people } = await this.around.log.waiting();
		const sending = able.filter((person) => people.includes(person.id));
		const person = sending[0] ?? able[0];
		return person ? {
			person,
			others: sending.length > 1
		} : null;
	}
	async round(limit, skip) {
		const { log } = this.around;
		const turn = await this.whose(skip);
		if (turn === null) return { kind: "nothing" };
		const pending = await log.pending(turn.person.id, limit + 1);
		const events = fitting(pending.slice(0, limit));
		const [dev, epoch, builds, waiting] = await Promise.all([
			log.dev(),
			log.epoch(),
			log.builds(),
			log.waiting()
		]);
		const follow = Object.fromEntries(builds.map((build) => [build.id, build.head]));
		const reply = await this.around.post(turn.person.token, events, {
			dev,
			epoch,
			follow
		}, waiting.count);
		this.sent = events.length === 1 ? events[0].n : null;
		if (reply.kind === "too_big") return events.length > 0 ? {
			kind: "too_big",
			sent: events.length
		} : {
			kind: "failed",
			why: TOO_MUCH
		};
		if (reply.kind === "login") return {
			kind: "login",
			who: turn.person.id
		};
		if (reply.kind === "failed") return reply;
		const applied = await applySync(log.database, reply.answer);
		await this.around.changed(applied.changed);
		return {
			kind: "taken",
			more: (reply.answer.verdicts.length > 0 || applied.changed.length > 0) && (applied.more || pending.length > events.length || turn.others)
		};
	}
};
function failed(error) {
	return {
		kind: "failed",
		why: error instanceof Error ? error.message : String(error)
	};
}
export { BenchLog, SyncRunner, post };
