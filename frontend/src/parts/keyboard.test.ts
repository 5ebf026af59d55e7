import { describe, expect, it } from "vitest";
import { neighbour } from "./keyboard";

const LEFT = [-1, 0] as const, RIGHT = [1, 0] as const, UP = [0, -1] as const, DOWN = [0, 1] as const;
const box = (x: number, y: number): { x: number; y: number; width: number; height: number } => ({ x, y, width: 64, height: 64 });
const go = (boxes: ReturnType<typeof box>[], from: number, way: readonly [number, number]): number => neighbour(boxes, from, [...way]);

describe("an arrow among the places of an engine", () => {
  const row = [0, 1, 2, 3, 4].map((i) => box(i * 70, 0));
  const lanes = [...row, ...[0, 1, 2, 3].map((i) => box(35 + i * 70, 80))];

  it("goes to the next one along the row, whatever the order they are written in", () => {
    expect(go(row, 1, RIGHT)).toBe(2);
    expect(go(row, 1, LEFT)).toBe(0);
    expect(go([row[2]!, row[0]!, row[1]!], 1, RIGHT)).toBe(2);
  });

  it("stays in its own row while there is one further on, and does not jump lanes for a nearer one askew", () => {
    expect(go(lanes, 2, RIGHT)).toBe(3);
    expect(go(lanes, 6, LEFT)).toBe(5);
  });

  it("changes lanes up and down, to the nearest there", () => {
    expect([5, 6]).toContain(go(lanes, 1, DOWN));
    expect(go(lanes, 8, UP)).toBeGreaterThanOrEqual(3);
    expect(go(lanes, 8, UP)).toBeLessThanOrEqual(4);
  });

  it("goes nowhere where nothing lies that way", () => {
    expect(go(row, 4, RIGHT)).toBe(-1);
    expect(go(row, 0, UP)).toBe(-1);
  });
});
