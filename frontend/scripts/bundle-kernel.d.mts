import type { Plugin } from "vite";
export const KERNEL: string;
export function packKernel(folder?: string): Record<string, string>;
export function packedKernel(): Plugin;
export function bareKernel(files: Record<string, string>): Record<string, string>;
