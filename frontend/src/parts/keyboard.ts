// Work without a finger on the glass: a keyboard, or a gauge and a foot switch that type like one.
// One control of a screen is the next thing to do. With hands on the keys the focus goes there as it comes up, so
// that Enter does it and everybody sees what Enter will do; a thumb on the glass never sees the focus move.
import { tick } from "svelte";
import { Wedge } from "./wedge";

let keyed = false;
let gauge = false;
const wedge = new Wedge();

const IN_TEXT = "input, textarea, select";
const CONTROL = `${IN_TEXT}, button, a, summary`;
const within = (event: Event, what: string): boolean => event.target instanceof Element && event.target.closest(what) !== null;

/** The key is for a field that is being written in. */
export const inText = (event: KeyboardEvent): boolean => within(event, IN_TEXT);

const shown = (node: HTMLElement): boolean => node.offsetParent !== null && getComputedStyle(node).visibility === "visible";
export const idle = (): boolean => !document.activeElement || document.activeElement === document.body;

/** Which input is in use; and a key that is held down does its work once. To be called once, by the shell. */
export function watch(): () => void {
  const key = (event: KeyboardEvent): void => {
    keyed = true;
    gauge = wedge.hear(event.key, event.timeStamp).burst !== null;
    if (event.key === "Enter" && event.repeat && !within(event, "textarea")) { event.preventDefault(); event.stopImmediatePropagation(); }
  };
  const touch = (): void => { keyed = false; };
  addEventListener("keydown", key, true);
  addEventListener("pointerdown", touch, true);
  return () => { removeEventListener("keydown", key, true); removeEventListener("pointerdown", touch, true); };
}

/** Marks the next thing to do. "wait": Enter does it, but the focus is taken only where it stands nowhere. */
export type Next = boolean | "wait";
export function next(node: HTMLElement, is: Next = true): { update: (is: Next) => void } {
  let was: Next = false;
  const mark = (now: Next): void => {
    node.toggleAttribute("data-next", now !== false);
    if (now && !was && keyed) void tick().then(() => { if (now === true || idle()) node.focus(); });
    was = now;
  };
  mark(is);
  return { update: mark };
}

/** This Enter ends what a gauge sent: where no reading is asked for it means nothing. */
export const ofGauge = (): boolean => gauge;

/** Enter with the focus on nothing does the next thing. */
export function enter(event: KeyboardEvent): void {
  if (event.key !== "Enter" || gauge || within(event, CONTROL)) return;
  const found = [...document.querySelectorAll<HTMLElement>("[data-next]")].find(shown);
  if (!found) return;
  event.preventDefault();
  if (found.matches(IN_TEXT)) found.focus();
  else found.click();
}

const ARROWS: Record<string, [number, number]> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export interface Box { x: number; y: number; width: number; height: number }

/** Of controls that lie in a plane: the nearest one the arrow points at, or -1. What lies straight ahead comes before what lies askew. */
export function neighbour(boxes: readonly Box[], from: number, [dx, dy]: [number, number]): number {
  const middle = (b: Box): [number, number] => [b.x + b.width / 2, b.y + b.height / 2];
  const [x, y] = middle(boxes[from]!);
  let best = -1, least = Infinity;
  boxes.forEach((box, i) => {
    const [bx, by] = middle(box), ahead = (bx - x) * dx + (by - y) * dy, aside = Math.abs((bx - x) * dy) + Math.abs((by - y) * dx);
    const far = ahead + 4 * aside;
    if (i !== from && ahead > 1 && far < least) { best = i; least = far; }
  });
  return best;
}

/** Arrows walk among the buttons of a group. From outside those along `axis` come in, at the one that is current. */
export function arrows(node: HTMLElement, axis: "x" | "y"): { destroy: () => void } {
  const other = axis === "x" ? 1 : 0;
  const key = (event: KeyboardEvent): void => {
    const way = ARROWS[event.key];
    if (!way || inText(event)) return;
    const all = [...node.querySelectorAll<HTMLElement>("button:not(:disabled)")].filter(shown);
    const at = all.indexOf(document.activeElement as HTMLElement);
    if (!all.length || (at < 0 && way[other])) return;
    const to = at >= 0 ? neighbour(all.map((button) => button.getBoundingClientRect()), at, way) : Math.max(0, all.findIndex((button) => button.matches("[aria-current]")));
    if (to >= 0) { event.preventDefault(); all[to]!.focus(); }
  };
  addEventListener("keydown", key);
  return { destroy: () => removeEventListener("keydown", key) };
}
