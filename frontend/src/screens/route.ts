// Addresses live in the hash: they work with no server behind them.
export type Route =
  | { screen: "today" | "practice" | "board" | "settings" | "login" | "lost" }
  | { screen: "build" | "findings" | "sheet" | "parts"; build: string }
  | { screen: "step"; build: string; step: string };

const PLAIN = ["today", "practice", "board", "settings", "login"] as const;

export function parse(hash: string): Route {
  const [head = "", build = "", page = "", step = ""] = hash.replace(/^#\/?/, "").split("/").map(safe);
  if (!head) return { screen: "today" };
  const plain = PLAIN.find((name) => name === head);
  if (plain && !build) return { screen: plain };
  if (head !== "build" || !build) return { screen: "lost" };
  if (!page) return { screen: "build", build };
  if (page === "step" && step) return { screen: "step", build, step };
  if (page === "findings" || page === "sheet" || page === "parts") return { screen: page, build };
  return { screen: "lost" };
}

/** A hand-typed address may hold a broken escape; it is then taken as it stands. */
function safe(part: string): string {
  try { return decodeURIComponent(part); } catch { return part; }
}

const ofBuild = (page: string) => (build: string): string => `#/build/${encodeURIComponent(build)}${page}`;

export const to = {
  today: "#/today", practice: "#/practice", board: "#/board", settings: "#/settings", login: "#/login",
  build: ofBuild(""), findings: ofBuild("/findings"), parts: ofBuild("/parts"), sheet: ofBuild("/sheet"),
  step: (build: string, step: string): string => ofBuild(`/step/${encodeURIComponent(step)}`)(build),
};

/** One up: from a page of a build to the build, from anywhere else to Today. */
export const above = (route: Route): string => ("build" in route && route.screen !== "build" ? to.build(route.build) : to.today);

/** The address of a route; the other way round from `parse`. */
export function address(route: Route): string {
  if (route.screen === "step") return to.step(route.build, route.step);
  if ("build" in route) return to[route.screen](route.build);
  return `#/${route.screen === "lost" ? "today" : route.screen}`;
}
