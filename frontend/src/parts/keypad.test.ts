import { describe, expect, it } from "vitest";
import type { Keypad } from "../kernel/types";
import { begin, cells, fromKeyboard, press, restore, send, text, type Key, type Typed } from "./keypad";

const inch: Keypad = { unit: "in", label: "in", fill: "left", whole: 1, decimals: 4, held: "2.44" };
const thou: Keypad = { unit: "thou", label: "thou", fill: "right", whole: 3, decimals: 1, held: "" };
const type = (pad: Keypad, keys: string): Typed => [...keys].reduce((s, k) => press(s, (k === "<" ? "undo" : k) as Key), begin(pad));
const shown = (s: Typed): string => cells(s).map((c) => (c.kind === "gap" || c.kind === "cursor" ? "_" : c.text)).join("");

describe("from the left", () => {
  it("goes on after the held digits", () => expect(text(type(inch, "85"))).toBe("2.4485"));
  it("may leave the last decimal unread", () => expect(text(type(inch, "8"))).toBe("2.448"));
  it("will not tick held digits alone", () => expect(press(begin(inch), "tick").refused).toBe("short"));
  it("takes held digits back one by one", () => expect(text(type(inch, "<<3985"))).toBe("2.3985"));
  it("refuses a digit too many and says so", () => {
    const full = type(inch, "85");
    const more = press(full, "1");
    expect(more.digits).toBe(full.digits);
    expect(more.refused).toBe("full");
    expect(more.nudge).toBe(full.nudge + 1);
  });
  it("shows the gaps", () => expect(shown(type(inch, "8"))).toBe("2.448_"));
});

describe("from the right", () => {
  it("is a till with a leading zero", () => expect(text(type(thou, "4"))).toBe("0.4"));
  it("moves up as digits come", () => expect(text(type(thou, "410"))).toBe("41.0"));
  it("takes nought as a reading", () => expect(text(type(thou, "0"))).toBe("0.0"));
  it("says that a second nought changes nothing", () => expect(type(thou, "00").refused).toBe("zero"));
  it("does not tick when nothing is typed", () => expect(press(begin(thou), "tick").refused).toBe("empty"));
  it("keeps nothing at the edge of the tick, and says so", () => {
    const typed = press(press(begin(thou), "2"), "4");
    expect(press(typed, "brim")).toEqual({ ...typed, refused: "brim", nudge: typed.nudge + 1 });
    expect(press(send(typed, "2.45", "in"), "brim")).toMatchObject({ refused: "brim", sent: { text: "2.45", unit: "in" } });
  });
  it("keeps a text for a second look", () => expect(text(restore(thou, "41.0"))).toBe("41.0"));
});

it("never forms a malformed number, and never ignores a key in silence", () => {
  const keys: Key[] = ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "undo", ".", "tick"];
  let seed = 7;
  const next = (n: number): number => (seed = (seed * 1103515245 + 12345) % 2147483648) % n;
  for (let run = 0; run < 600; run++) {
    const pad = run % 2 ? inch : thou;
    let state = begin(pad);
    for (let i = 0; i < 9; i++) {
      const key = keys[next(keys.length)]!;
      const after = press(state, key);
      const visible = after.digits !== state.digits || after.nudge !== state.nudge;
      if (key !== "tick" && key !== ".") expect(visible).toBe(true);
      const value = text(after);
      if (value) {
        expect(value).toMatch(/^\d+\.\d+$/);
        expect(shown(after).replace(/_+$/, "").replace(/^_\./, "0.").replace(/_/g, "0")).toBe(value);
      }
      state = after;
    }
  }
});

it("knows the keyboard", () => {
  expect(["7", "Backspace", "Enter", ",", "a"].map(fromKeyboard)).toEqual(["7", "undo", "tick", ".", null]);
});
