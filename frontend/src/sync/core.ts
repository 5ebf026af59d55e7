// When to talk to the server, and what to make of how it went: state and happening in, state and effects
// out. No clock, store or network in here; all three are handed in, so every fault can be played in a test.

export const MOST_EVENTS = 500;
export const POLL_MS = 30_000;
// A request that was hanging when the network healed is given up after 15 s; with the longest wait after it, what is
// waiting goes out within 30 s of the healing.
export const LONGEST_WAIT_MS = 12_000;
const FIRST_WAIT_MS = 2_000;
const ELSEWHERE_MS = 3_000;

export interface SyncState {
  busy: boolean;                 // one request at a time
  again: boolean;                // something happened meanwhile
  failures: number;              // in a row
  not_before: number;            // back-off ends
  limit: number;                 // events in a request
  last_synced: number | null;
  failing: string | null;
  need_login: string[];          // people whose log-in ran out; their events wait, others' go on
}

export type Outcome =
  | { kind: "taken"; more: boolean }
  | { kind: "nothing" }                              // nobody to sync for
  | { kind: "elsewhere" }                            // another tab is at it
  | { kind: "too_big"; sent: number; hopeless: boolean }   // hopeless: one entry alone, larger than any server takes
  | { kind: "login"; who: string }
  | { kind: "failed"; why: string };

export type Happening =
  | { what: "nudge"; why: "start" | "visible" | "online" | "append" | "clock" | "asked"; now: number }
  | { what: "login"; who: string; now: number }
  | { what: "over"; outcome: Outcome; now: number; luck: number };    // luck: 0..1, spreads the phones out

export type Effect = { do: "send"; limit: number; skip: string[] } | { do: "wake"; at: number } | { do: "set_aside" };

export function firstState(): SyncState {
  return { busy: false, again: false, failures: 0, not_before: 0, limit: MOST_EVENTS, last_synced: null, failing: null, need_login: [] };
}

const TOO_BIG_FOR_SOMETHING = "Something on the way calls a small entry too big. It will be tried again.";

type Next = [SyncState, Effect[]];

function send(state: SyncState): Next {
  return [{ ...state, busy: true, again: false }, [{ do: "send", limit: state.limit, skip: state.need_login }]];
}

function rest(state: SyncState, at: number): Next {
  return [{ ...state, busy: false }, [{ do: "wake", at }]];
}

/** A person who asks, comes back or regains the network is not made to sit out a back-off. */
function nudged(state: SyncState, why: string, now: number): Next {
  if (state.busy) return [{ ...state, again: true }, []];
  const patient = why === "append" || why === "clock";
  const wait = state.not_before - now;
  // A wait longer than any back-off means that the phone's clock was put back meanwhile.
  return patient && wait > 0 && wait <= LONGEST_WAIT_MS ? [state, [{ do: "wake", at: state.not_before }]] : send(state);
}

export function backOff(failures: number, luck: number): number {
  const wait = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (failures - 1));
  return Math.round(wait * (0.5 + luck / 2));
}

function over(state: SyncState, outcome: Outcome, now: number, luck: number): Next {
  switch (outcome.kind) {
    case "taken": {
      const limit = Math.min(MOST_EVENTS, state.limit * 2);
      const well = { ...state, limit, failures: 0, not_before: 0, failing: null, last_synced: now };
      return outcome.more || state.again ? send(well) : rest({ ...well, limit: MOST_EVENTS }, now + POLL_MS);
    }
    case "nothing":
      return state.again ? send(state) : rest(state, now + POLL_MS);
    case "elsewhere":
      return rest({ ...state, again: false }, now + ELSEWHERE_MS);
    case "too_big": {
      if (outcome.sent > 1) return send({ ...state, limit: Math.max(1, Math.floor(outcome.sent / 2)) });
      // Something between here and the server may call anything too big; only what truly is gets set aside.
      if (!outcome.hopeless) return over(state, { kind: "failed", why: TOO_BIG_FOR_SOMETHING }, now, luck);
      const [next, effects] = send(state);
      return [next, [{ do: "set_aside" }, ...effects]];
    }
    case "login": {
      const need_login = [...new Set([...state.need_login, outcome.who])];
      return send({ ...state, need_login });
    }
    case "failed": {
      const failures = state.failures + 1;
      const not_before = now + backOff(failures, luck);
      return rest({ ...state, failures, not_before, failing: outcome.why, again: false }, not_before);
    }
  }
}

export function step(state: SyncState, happening: Happening): Next {
  switch (happening.what) {
    case "nudge": return nudged(state, happening.why, happening.now);
    case "login": {
      const need_login = state.need_login.filter((who) => who !== happening.who);
      return nudged({ ...state, need_login }, "asked", happening.now);
    }
    case "over": return over(state, happening.outcome, happening.now, happening.luck);
  }
}
