// The phone's own voice reads the verdict, with no network; a newer verdict cuts off an older one.
import type { Language } from "../kernel/types";

const speech = (): SpeechSynthesis | undefined => globalThis.speechSynthesis;

export const hasVoice = (): boolean => speech() !== undefined;

/** A voice that is on the phone goes first. */
export function speak(sentence: string, language: Language): void {
  const voices = speech()?.getVoices().filter((voice) => voice.lang.toLowerCase().startsWith(language)) ?? [];
  const said = new SpeechSynthesisUtterance(sentence);
  said.lang = language;
  said.voice = voices.find((voice) => voice.localService) ?? voices[0] ?? null;
  speech()?.cancel();
  speech()?.speak(said);
}
