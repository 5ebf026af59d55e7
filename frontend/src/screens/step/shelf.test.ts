import { describe, expect, it } from "vitest";
import type { SlotView, StepView } from "../../kernel/types";
import { choices, toggle } from "./shelf";

const slot = (kind: string, holds: SlotView["holds"]): SlotView => ({ slot: "s", station: "", kind, holds, title: "slot", parts: [{ id: "in", title: "in", size: "" }] });
const view = { shelf: [{ id: "u", kind: "upper_shell", title: "upper", size: "" }, { id: "l", kind: "lower_shell", title: "lower", size: "" }] } as unknown as StepView;

describe("the shelf beside a slot", () => {
  it("offers what the slot takes and nothing else", () => {
    expect(choices(view, slot("upper_shell", "one")).map((p) => p.id)).toEqual(["in", "u"]);
  });
  it("puts the last one tapped into a slot for one part", () => {
    expect(toggle(slot("upper_shell", "one"), ["in"], "u")).toEqual(["u"]);
  });
  it("stacks shims, and takes one out again with a second tap", () => {
    expect(toggle(slot("cam_shim", "many"), ["in"], "s1")).toEqual(["in", "s1"]);
    expect(toggle(slot("cam_shim", "many"), ["in", "s1"], "in")).toEqual(["s1"]);
  });
});
