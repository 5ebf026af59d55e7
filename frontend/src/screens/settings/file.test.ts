import { expect, it, vi } from "vitest";
import { give, nameOf } from "./file";

const failing = (name: string) => vi.fn(async () => { throw Object.assign(new Error("x"), { name }); });

it("goes to the share sheet where there is one that takes files", async () => {
  const share = vi.fn(async (_: ShareData) => {}), save = vi.fn();
  expect(await give("{}\n", "a.jsonl", { share, canShare: () => true }, save)).toBe("shared");
  const [file] = share.mock.calls[0]![0].files!;
  expect([file!.name, await file!.text()]).toEqual(["a.jsonl.txt", "{}\n"]);
  expect(save).not.toHaveBeenCalled();
});
it.each([["no sheet", {}], ["a sheet that takes no files", { share: vi.fn(), canShare: () => false }], ["a sheet that fails", { share: failing("NotAllowedError"), canShare: () => true }]])(
  "is a download with %s", async (_, sheet) => {
    const save = vi.fn();
    expect(await give("{}", "a.jsonl", sheet, save)).toBe("saved");
    expect(save).toHaveBeenCalledWith("{}", "a.jsonl");
  });
it("is no download when the person closed the sheet", async () => {
  const save = vi.fn();
  expect(await give("{}", "a.jsonl", { share: failing("AbortError"), canShare: () => true }, save)).toBe("left");
  expect(save).not.toHaveBeenCalled();
});
it("is named after the day", () => expect(nameOf(new Date("2026-11-25T22:00:00Z"))).toBe("halfthou-2026-11-25.jsonl"));
