// Starts the app: the page first, then everything that may take a moment.
// App gets one property, `bench` (BenchApi): its methods wait by themselves until the log is open.
import { mount } from "svelte";
import App from "./App.svelte";
import { startKernel } from "./kernel/door";
import { Bench } from "./session/bench";
import { glimpse } from "./session/glimpse";
import "./screens/settings/install";
import { register } from "./sw/register";
import { stockPages } from "./sw/trade";
import { painted } from "./screens/frame";
import { post } from "./sync/network";

// Where a step was left on the screen it is painted before the log and the kernel are opened.
const begin = glimpse() ? painted() : Promise.resolve();
const bench = new Bench({ kernel: begin.then(() => startKernel()), begin, post });
const target = document.getElementById("app");
if (target) mount(App, { target, props: { bench } });

// Ways a phone says it may be back in reach. None is relied on alone; a timer runs as well.
document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") bench.nudge("visible"); });
addEventListener("online", () => bench.nudge("online"));
// The first step on the screen goes before the first talk with the server.
const TALK_AFTER_MS = 400;
setTimeout(() => bench.nudge("start"), TALK_AFTER_MS);

void begin.then(() => {
  void register();
  stockPages();
  // Asked for so that a full phone does not take the log away; a refusal changes nothing else.
  void navigator.storage?.persist?.().catch(() => false);
});
