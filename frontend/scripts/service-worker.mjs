// Makes dist/sw.js: it holds the shell of the app (page, code, Python runtime, kernel) and nothing else.
// Answers of the server are never kept by it; what the phone must remember lies in the log.
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { generateSW } from "workbox-build";

const dist = resolve(fileURLToPath(import.meta.url), "../../dist");
const page = createHash("sha256").update(readFileSync(resolve(dist, "index.html"))).digest("hex").slice(0, 16);

const { count, size, warnings } = await generateSW({
  globDirectory: dist,
  globPatterns: ["assets/**/*.{js,css,wasm,json,woff2,svg}"],
  globIgnores: ["assets/trade-*"],
  // The trade pages: kept as soon as they were fetched once, this version's and for a while the one before.
  runtimeCaching: [{ urlPattern: /\/static\/assets\/trade-/, handler: "CacheFirst", options: { cacheName: "halfthou-trade", expiration: { maxEntries: 2 } } }],
  modifyURLPrefix: { "": "/static/" },
  dontCacheBustURLsMatching: /\/assets\//,           // Vite's names already carry a hash
  additionalManifestEntries: [{ url: "/", revision: page }],   // Django serves the page at /, not under /static/
  navigateFallback: "/",
  navigateFallbackDenylist: [/^\/api(\/|$)/, /^\/admin(\/|$)/, /^\/static\//, /^\/serviceworker\.js$/, /^\/manifest\.json$/],
  maximumFileSizeToCacheInBytes: 2 * 1024 * 1024,
  cacheId: "halfthou",
  cleanupOutdatedCaches: true,
  clientsClaim: true,                                // the first visit is offline-safe without a reload
  skipWaiting: false,                                // a new version waits for a tap
  inlineWorkboxRuntime: true,
  sourcemap: false,
  mode: "production",
  swDest: resolve(dist, "sw.js"),
});
for (const warning of warnings) console.warn(warning);
console.log(`sw.js holds ${count} files, ${Math.round(size / 1024)} kB before compression`);
