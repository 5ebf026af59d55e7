import type { Plugin } from "vite";
export const KERNEL: string;
export function packKernel(folder?: string): Record<string, string>;
export function packedKernel(): Plugin;
