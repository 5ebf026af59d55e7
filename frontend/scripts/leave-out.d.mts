import type { Plugin } from "vite";
export function noHydration(): Plugin;
export function plainImports(): Plugin;
