// The sheet as the server gives it, with only the parts that are printed here.
import type { Concession, Finding } from "../../kernel/types";
import type { BoardFit } from "../../bench";

export interface Reading { event: string; spot: string; text: string; unit: string; who: string; at: number; counts: boolean; struck: boolean; seq: number }
export interface SheetData {
  build: { name: string; duty: string; title: string; revision: number; digest: string };
  shop: { name: string }; people: Record<string, { name: string } | string>;
  readings: Reading[]; fits: BoardFit[]; concessions: (Concession & { review: string })[]; findings: Finding[];
  holds: { title: string; sentence: string }[]; head: number; head_hash: string;
}

export const nameOf = (sheet: SheetData, who: string): string => {
  const person = sheet.people[who];
  return typeof person === "string" ? person : (person?.name ?? who);
};

/** "main_bore@3" as people write it; the title of a point is not on the sheet, so its name is made readable. */
export const spotWords = (spot: string): string => {
  const [point = "", station = ""] = spot.split("@");
  return `${point.replace(/_/g, " ")}${station ? ` ${station}` : ""}`;
};

export type Mark = "counts" | "superseded" | "struck";
export const mark = (r: Reading): Mark => (r.struck ? "struck" : r.counts ? "counts" : "superseded");
