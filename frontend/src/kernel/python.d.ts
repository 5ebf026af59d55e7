export function openKernel(files: Record<string, string>, wasmUrl?: string, door?: "call" | "quick"): Promise<(request: string) => string>;
