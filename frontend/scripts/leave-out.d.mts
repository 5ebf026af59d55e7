import type { Plugin } from "vite";
export function leanSvelte(): Plugin;
export function plainImports(): Plugin;
