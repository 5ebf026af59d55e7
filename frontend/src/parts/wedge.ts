// A gauge that acts as a keyboard sends its whole reading within a few hundredths of a second and ends it with Enter.
// No hand types that fast: three keys and the Enter, none more than GAP_MS after the one before. So a burst is told from
// typing by its pace alone, and is the whole reading, whatever stood on the read-out when it began.

export const GAP_MS = 35;
const FEWEST = 2;                          // characters before the Enter; "24" by hand never comes this fast with its Enter

export interface Burst { text: string; unit: string }
export interface Heard {
  first: boolean;                          // a new run begins with this key: what stood before it is worth keeping
  fast: boolean;                           // this key came at a gauge's pace
  burst: Burst | null | "unreadable";      // the run that this Enter ends, when it was a gauge's
}

const READING = /^([+-]?)0*(\d+)(?:[.,](\d+))?\s*(in|mm|thou)?$/i;

/** "+002.4485", "62,19mm": the number as the kernel takes it, and its unit where the gauge says one. Null when it is none. */
export function readingOf(text: string): Burst | null {
  const found = READING.exec(text.trim());
  if (!found) return null;
  const [, sign, whole = "", part, unit = ""] = found;
  return { text: `${sign === "-" ? "-" : ""}${whole}${part === undefined ? "" : `.${part}`}`, unit: unit.toLowerCase() };
}

export class Wedge {
  private run = "";
  private last = -Infinity;

  /** One key of the keyboard, by its name and the time it was pressed. */
  hear(key: string, at: number): Heard {
    const fast = at - this.last <= GAP_MS;
    this.last = at;
    if (key === "Enter" || key === "Tab") return this.ends(fast);
    if (key.length !== 1) return this.begins("");
    if (!fast) return this.begins(key);
    this.run += key;
    return { first: false, fast: true, burst: null };
  }

  private begins(key: string): Heard {
    this.run = key;
    return { first: true, fast: false, burst: null };
  }

  private ends(fast: boolean): Heard {
    const run = this.run;
    this.run = "";
    if (!fast || run.length < FEWEST) return { first: false, fast, burst: null };
    return { first: false, fast, burst: readingOf(run) ?? "unreadable" };
  }
}
