// Entries as a file: out through the phone's own share sheet where it has one, else as a download.
export const MIME = "application/x-ndjson";

type Sheet = Pick<Navigator, "share" | "canShare">;

export const nameOf = (day: Date): string => `halfthou-${day.toISOString().slice(0, 10)}.jsonl`;

/** As the share sheet takes it: browsers pass on text files, but not every kind of ending (from memory; a refusal means a download). */
export const shareable = (text: string, name: string): File => new File([text], `${name}.txt`, { type: "text/plain" });

/** How the file went, or that the person closed the sheet. `save` is the way without one. */
export async function give(text: string, name: string, sheet: Partial<Sheet>, save: (text: string, name: string) => void): Promise<"shared" | "saved" | "left"> {
  const files = [shareable(text, name)];
  if (sheet.share && sheet.canShare?.({ files })) {
    try { await sheet.share({ files, title: name }); return "shared"; }
    catch (error) { if ((error as Error).name === "AbortError") return "left"; }      // any other failure: the other way
  }
  save(text, name);
  return "saved";
}

export function save(text: string, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: MIME }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
