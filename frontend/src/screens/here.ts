// The bench the screens work at, handed down once by the app.
import type { BenchApi } from "../bench";
import { heard } from "../words/heard";

let bench: BenchApi;
export const provide = (given: BenchApi): void => { bench = given; };
export const here = (): BenchApi => bench;

/** The sentence of a failure; rejections of the bench are made to be shown. */
export const sentence = (error: unknown): string => heard(error instanceof Error ? error.message : String(error));
