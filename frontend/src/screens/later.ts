// The step is there sooner when the other screens are read only as they are asked for.
import type { Name, Screen } from "./rest";
import type { Route } from "./route";

const held = new Map<string, Promise<Screen>>();

/** The same promise each time, so that a screen that is there already is not drawn anew. */
export function later(name: Route["screen"]): Promise<Screen> {
  const screen = held.get(name) ?? import("./rest").then((rest) => rest.screenOf(name as Name));
  held.set(name, screen);
  screen.catch(() => held.delete(name));
  return screen;
}
