import { expect, it } from "vitest";
import { clock } from "../words/time";
import { sendWords } from "./send";

const calm = { waiting: 0, oldest_at: null, last_synced: null, busy: false, failing: null, need_login: null };

it("says how many are waiting, and that there is no network", () =>
  expect(sendWords({ ...calm, waiting: 12, oldest_at: 0 }, false, true, 0).line).toBe("offline · 12 to send"));
it("gives the reason of a failed send", () =>
  expect(sendWords({ ...calm, failing: "The server did not answer." }, true, true, 0).trouble).toContain("did not answer"));
it("says loudly that an address is not offline-safe", () => {
  const said = sendWords(calm, true, false, 0);
  expect(said.line).toContain("Not offline-safe");
  expect(said.tone).toBe("warn");
});
it("says that a log-in has run out, where nothing else is in the way", () =>
  expect(sendWords({ ...calm, waiting: 1, need_login: "marek" }, true, true, 0).trouble).toBe("A log-in has run out."));
it("has one line for how many and since when, and one for the most pressing reason", () => {
  const said = (more: object, online = true, safe = true) => { const { count, reason } = sendWords({ ...calm, waiting: 2, last_synced: 1, ...more }, online, safe, 0); return [count, reason]; };
  const count = `2 to send · last ${clock(1)}`;
  expect(said({})).toEqual([count, ""]);
  expect(said({ failing: "The server is busy. It will be tried again.", need_login: "marek" })).toEqual([count, "The server is busy"]);
  expect(said({ need_login: "marek" }, false, false)).toEqual([count, "A log-in has run out."]);
  expect(said({}, false, false)).toEqual([count, "Not offline-safe"]);
  expect(said({}, false)).toEqual([count, "offline"]);
});
