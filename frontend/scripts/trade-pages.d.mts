import type { Plugin } from "vite";
export function readPage(text: string): { title: string; html: string };
export function packPages(folder?: string): Record<string, { title: string; html: string }>;
export function tradePages(): Plugin;
