export function openKernel(files: Record<string, string>, wasmUrl?: string): Promise<(request: string) => string>;
