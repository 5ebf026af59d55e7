// The bench the screens work at, handed down once by the app.
import { getContext, setContext } from "svelte";
import type { BenchApi } from "../bench";
import { words } from "../words";

const KEY = Symbol("bench");
export const provide = (bench: BenchApi): void => { setContext(KEY, bench); };
export const here = (): BenchApi => getContext<BenchApi>(KEY);

/** The sentence of a failure; rejections of the bench are made to be shown. A build that is nowhere has one in every language. */
export const sentence = (error: unknown): string => (!(error instanceof Error) ? String(error) : error.cause === "lost" ? words.common.lost : error.message);
