declare module "@micropython/micropython-webassembly-pyscript" {
  export function loadMicroPython(options: Record<string, unknown>): Promise<unknown>;
}
