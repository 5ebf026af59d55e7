// Findings, the gravest first; within a level as the kernel gave them.
import type { Finding } from "../../kernel/types";

const ORDER: Finding["level"][] = ["hold", "look", "note"];
export const byLevel = (findings: readonly Finding[]): { level: Finding["level"]; items: Finding[] }[] =>
  ORDER.map((level) => ({ level, items: findings.filter((f) => f.level === level) })).filter((g) => g.items.length);
