// The words of each language lie in the page, as data beside the code, so there is nothing to wait for.
import type { Language } from "../kernel/types";
import type { Words } from ".";

export const table = (language: Language): Words => JSON.parse(document.getElementById(`words-${language}`)!.textContent) as Words;
