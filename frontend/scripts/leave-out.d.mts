import type { Plugin } from "vite";
export function leanLibraries(): Plugin[];
export function plainImports(): Plugin;
