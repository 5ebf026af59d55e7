import { expect, it } from "vitest";
import type { Finding } from "../../kernel/types";
import { byLevel } from "./findings";

const finding = (level: Finding["level"], says: string): Finding => ({ check: "c", level, step: "", fit: "", station: "", says, why: "", cure: "" });

it("puts holds first and leaves empty levels out", () =>
  expect(byLevel([finding("note", "a"), finding("hold", "b"), finding("note", "c")]).map((g) => [g.level, g.items.map((f) => f.says)]))
    .toEqual([["hold", ["b"]], ["note", ["a", "c"]]]));
