// The step is there sooner when the other screens are read only as they are asked for.
let held: Promise<typeof import("./rest")> | undefined;

/** Read once; what could not be read is asked for again the next time. */
export function others(): Promise<typeof import("./rest")> {
  held ??= import("./rest").catch((error: unknown) => { held = undefined; throw error; });
  return held;
}
