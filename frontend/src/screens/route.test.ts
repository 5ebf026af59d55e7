import { describe, expect, it } from "vitest";
import { above, address, parse, to } from "./route";

describe("addresses", () => {
  it("go there and back", () => {
    for (const at of [to.today, to.practice, to.board, to.settings, to.login, to.build("b-1"), to.step("b-1", "cam_in"), to.findings("b-1"), to.sheet("b-1")]) {
      expect(address(parse(at))).toBe(at);
    }
  });
  it("start at today", () => expect(parse("")).toEqual({ screen: "today" }));
  it("say so when there is nothing", () => expect(parse("#/nowhere/x")).toEqual({ screen: "lost" }));
  it("lead up by one", () => {
    expect(above(parse(to.parts("b-1")))).toBe(to.build("b-1"));
    expect(above(parse(to.build("b-1")))).toBe(to.today);
    expect(above(parse(to.settings))).toBe(to.today);
  });
  it("survive a broken escape", () => expect(parse("#/build/%E0%A4%A")).toEqual({ screen: "build", build: "%E0%A4%A" }));
});
