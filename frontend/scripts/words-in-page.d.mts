import type { Plugin } from "vite";
export function wordsInPage(): Plugin;
