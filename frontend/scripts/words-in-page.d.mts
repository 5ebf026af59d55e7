import type { Plugin } from "vite";
export function shapes(heard: Record<string, string>): [string, string][];
export function wordsInPage(): Plugin;
