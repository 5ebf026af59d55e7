// What the build would bring along although this app has no use for it. Each part says what makes it useless here, and stops
// the build where that is no longer so.

/**
 * What of Svelte's runtime and of idb is never reached here, and the change to its source that lets the bundler see it.
 *
 * hydration: every screen is drawn on the phone; none is taken over from a page that a server has drawn. Svelte has a flag for
 *   that, to be left out where it is never set, but sets it in functions that stay.
 * waiting: `await` inside a template is an experiment that has to be switched on, and is not, and nothing is tried out aside
 *   (`fork`): no change is ever put off, and none counts what it waits for.
 * deep state: what the screens hold is replaced, never changed inside, so no state needs a proxy: objects are `$state.raw`.
 * boundaries: no part of a screen catches another's failure (`<svelte:boundary>`); what fails is said in words where it is asked for.
 * cursors: stores and indexes are read whole; none is walked.
 */
const UNUSED = {
  "svelte/src/internal/client/dom/hydration.js": [
    ["export let hydrating = false;", "export const hydrating = false;"],
    ["hydrating = value;", ""],
  ],
  "svelte/src/internal/client/reactivity/async.js": [["if (async.length === 0 && pending.length === 0) {", "{"]],
  "svelte/src/internal/client/proxy.js": [["export function proxy(value) {", `export function proxy(value) {
    if (typeof value === "object" && value !== null) throw new Error("An object is kept in $state; it has to be $state.raw.");
    return value;`]],
  "svelte/src/internal/client/reactivity/batch.js": [
    ["#is_deferred() {", "#is_deferred() { return false;"],
    [/increment\(blocking, effect\) \{[^]*(?=\ttransfer_reactions\()/, ""],
  ],
  "svelte/src/internal/client/dom/blocks/boundary.js": [
    ["if (!this.#props.onerror && !this.#props.failed) {", "{"],
    [/#effect_pending_subscriber = createSubscriber[^]*?\n\t\}\);/, ""],
    [/#update_pending_count\(d, batch\) \{[^]*(?=\terror\(error\) \{)/, ""],
  ],
  "idb/build/index.js": [
    [/const advanceMethodProps = [^]*(?=export \{)/, ""],
    [/if \(getCursorAdvanceMethods\(\)\.includes\(func\)\) \{[^]*?\n {4}\}/, ""],
  ],
};
/** Called for every element, and idle without hydration. */
const IDLE = ["$.reset", "$.next", "$.remove_textarea_child", "$.remove_input_defaults"];

const neither = {
  name: "no-boundary-no-fork",
  apply: "build",
  enforce: "post",
  transform: {
    filter: { id: /\.svelte$/, code: /\$\.boundary\(|\bfork\(/ },
    handler() { this.error("this screen has a boundary or a fork, and the build leaves out what makes them work: see leave-out.mjs"); },
  },
};

export function leanLibraries() {
  const changedFiles = new Set();
  return [neither, {
    name: "lean-libraries",
    apply: "build",
    config: () => ({ build: { rolldownOptions: { treeshake: { manualPureFunctions: IDLE } } } }),
    transform: {
      filter: { id: Object.keys(UNUSED).map((file) => `**/node_modules/${file}`) },
      handler(code, id) {
        const [file, changes] = Object.entries(UNUSED).find(([name]) => id.endsWith(name));
        const changed = (text, [is, becomes]) => {
          if (text.split(is).length !== 2) throw new Error(`${file} is no longer as this build knows it: “${is}” is not there once. Read it again.`);
          return text.replace(is, () => becomes);
        };
        changedFiles.add(file);
        return { code: changes.reduce(changed, code), map: null };
      },
    },
    generateBundle() {
      const unseen = Object.keys(UNUSED).filter((file) => !changedFiles.has(file));
      if (unseen.length > 0) this.error(`${unseen.join(" and ")} did not come by, so what this app never uses is still there`);
    },
  }];
}

/** Styles are one file, there from the start, so what is imported later has none to wait for, nor Vite's code that waits. */
export function plainImports() {
  return {
    name: "plain-imports",
    apply: "build",
    enforce: "pre",
    config: () => ({ build: { cssCodeSplit: false, modulePreload: false } }),
    load: {
      filter: { id: /^\0vite\/preload-helper/ },
      handler: () => ({ code: "export const __vitePreload = (load) => load();", moduleSideEffects: false }),
    },
    generateBundle(_, bundle) {
      const styles = Object.keys(bundle).filter((name) => name.endsWith(".css"));
      if (styles.length > 1) this.error(`styles in ${styles.join(" and ")}: a screen read later would be drawn without its own`);
    },
  };
}
