// The bench app is served by Django: built files live under /static/, the page itself at /.
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";
import { packedKernel } from "./scripts/bundle-kernel.mjs";
import { leanLibraries, plainImports } from "./scripts/leave-out.mjs";
import { tradePages } from "./scripts/trade-pages.mjs";
import { wordsInPage } from "./scripts/words-in-page.mjs";

const server = process.env.HALFTHOU_SERVER ?? "http://127.0.0.1:8000";

// What the first step needs is one file: it packs better, and the phone reads one. Every other screen, the words and the worker are apart.
const AT_START = /node_modules\/(svelte|idb|clsx|esm-env)\/|src\/(?!kernel\/(worker|python)|screens\/rest|screens\/(?!step\/|settings\/install)\w+\/)/;

export default defineConfig({
  base: "/static/",
  plugins: [packedKernel(), tradePages(), wordsInPage(), leanLibraries(), plainImports(), svelte()],
  resolve: process.env.VITEST ? { conditions: ["browser"] } : undefined,
  worker: { format: "es", plugins: () => [packedKernel()] },
  build: { outDir: "dist", emptyOutDir: true, target: "es2022", assetsInlineLimit: 0, sourcemap: false,
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: "index", test: AT_START }] } } } },
  server: { proxy: { "/api": server, "/serviceworker.js": server, "/manifest.json": server } },
  test: { environment: "node", include: ["src/**/*.test.ts"], setupFiles: ["src/words/in-tests.ts"], testTimeout: 30_000 },
});
