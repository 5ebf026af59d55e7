// Ids of new builds: readable on a shelf label, and never the same from two phones that are both out of reach.
const ENDING = 6;

/** `b-`, words of the name in a-z0-9-, and an ending by chance; 40 characters at most. */
export function buildId(name: string, chance: Uint8Array = crypto.getRandomValues(new Uint8Array(ENDING))): string {
  const plain = name.normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "");
  const ending = [...chance].map((byte) => "abcdefghijkmnpqrstuvwxyz23456789"[byte % 32]).join("");
  const room = 38 - ENDING - 1;
  return `b-${[plain.slice(0, room).replace(/-+$/, ""), ending].filter(Boolean).join("-")}`;
}
