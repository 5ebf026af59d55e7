// What the build would bring along although this app has no use for it. Each part says what makes it useless here, and stops
// the build where that is no longer so.

/**
 * What of Svelte's runtime is never reached here, and the change to its source that lets the bundler see it.
 *
 * hydration: every screen is drawn on the phone; none is taken over from a page that a server has drawn. Svelte has a flag for
 *   that, to be left out where it is never set, but sets it in functions that stay.
 * waiting templates: `await` inside a template is an experiment that has to be switched on, and is not.
 * deep state: what the screens hold is replaced, never changed inside, so no state needs a proxy: objects are `$state.raw`.
 */
const UNUSED = {
  "dom/hydration.js": [
    ["export let hydrating = false;", "export const hydrating = false;"],
    ["hydrating = value;", ""],
  ],
  "reactivity/async.js": [["if (async.length === 0 && pending.length === 0) {", "{"]],
  "proxy.js": [["export function proxy(value) {", `export function proxy(value) {
    if (typeof value === "object" && value !== null) throw new Error("An object is kept in $state; it has to be $state.raw.");
    return value;`]],
};
/** Called for every element, and idle without hydration. */
const IDLE = ["$.reset", "$.next", "$.remove_textarea_child", "$.remove_input_defaults"];

export function leanSvelte() {
  return {
    name: "lean-svelte",
    apply: "build",
    config: () => ({ build: { rolldownOptions: { treeshake: { manualPureFunctions: IDLE } } } }),
    transform: {
      filter: { id: /svelte\/src\/internal\/client\/(dom\/hydration|reactivity\/async|proxy)\.js$/ },
      handler(code, id) {
        const [file, changes] = Object.entries(UNUSED).find(([name]) => id.endsWith(`client/${name}`));
        const changed = (text, [is, becomes]) => {
          if (text.split(is).length !== 2) throw new Error(`Svelte's ${file} is no longer as this build knows it: “${is}” is not there once. Read it again.`);
          return text.replace(is, () => becomes);
        };
        return { code: changes.reduce(changed, code), map: null };
      },
    },
  };
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
