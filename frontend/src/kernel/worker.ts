// The kernel's worker: keeps folding off the thread that paints. It answers numbered requests in the
// order they came and knows nothing of what they mean. Only this file loads the Python runtime.
import wasmUrl from "@micropython/micropython-webassembly-pyscript/micropython.wasm?url";
import kernelUrl from "virtual:kernel-source";
import { openKernel } from "./python";

export interface Asked { id: number; request: string }
export interface Answered { id: number; answer?: string; broken?: string }

async function start(): Promise<(request: string) => string> {
  const files = (await (await fetch(kernelUrl)).json()) as Record<string, string>;
  return openKernel(files, new URL(wasmUrl, self.location.href).href, "quick");
}

const door = start();
door.catch((error: unknown) => self.postMessage({ id: 0, broken: String(error) } satisfies Answered));

self.onmessage = async (message: MessageEvent<Asked>) => {
  const { id, request } = message.data;
  try {
    self.postMessage({ id, answer: (await door)(request) } satisfies Answered);
  } catch (error) {
    self.postMessage({ id, broken: error instanceof Error ? error.message : String(error) } satisfies Answered);
  }
};
