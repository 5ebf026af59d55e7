// The verdict for the ear: one flat tone for in, two falling for under, two rising for over. Nothing relies on it.
import type { FitState } from "../kernel/types";

export interface Note { hertz: number; at: number; lasts: number }

const LOW = 523, MIDDLE = 659, HIGH = 831, LASTS = 0.11, GAP = 0.04;

/** Seconds from now. Silence where there is no verdict. */
export function notes(state: FitState): Note[] {
  const two = (first: number, second: number): Note[] => [{ hertz: first, at: 0, lasts: LASTS }, { hertz: second, at: LASTS + GAP, lasts: LASTS }];
  if (state === "in") return [{ hertz: MIDDLE, at: 0, lasts: LASTS * 1.5 }];
  if (state === "under") return two(MIDDLE, LOW);
  return state === "over" ? two(MIDDLE, HIGH) : [];
}

let ear: AudioContext | null = null;

/** Plays the verdict where the browser lets a page make a sound; it does after the first tap. */
export function sound(state: FitState): void {
  try {
    ear ??= new AudioContext();
    void ear.resume();
    for (const note of notes(state)) play(ear, note);
  } catch { /* a phone without sound is a phone without sound */ }
}

function play(at: AudioContext, { hertz, at: from, lasts }: Note): void {
  const pipe = at.createOscillator(), loudness = at.createGain(), start = at.currentTime + from;
  pipe.type = "triangle";
  pipe.frequency.value = hertz;
  loudness.gain.setValueAtTime(0, start);
  loudness.gain.linearRampToValueAtTime(0.35, start + 0.015);
  loudness.gain.linearRampToValueAtTime(0, start + lasts);
  pipe.connect(loudness).connect(at.destination);
  pipe.start(start);
  pipe.stop(start + lasts);
}
