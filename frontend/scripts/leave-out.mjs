// What the build would bring along although this app has no use for it. Each part says what makes it useless here, and stops
// the build where that is no longer so.

const FLAG = "export let hydrating = false;";
const SETS = "hydrating = value;";
const IDLE = ["$.reset", "$.next", "$.remove_textarea_child", "$.remove_input_defaults"];

/**
 * Every screen is drawn on the phone; none is taken over from a page that a server has drawn ("hydrated"). Svelte keeps all it
 * needs for that behind one flag, to be left out where it is never set, but sets the flag in functions that stay. Here it is
 * fixed, so the bundler leaves out what is behind it, and the calls that do nothing without it.
 */
export function noHydration() {
  return {
    name: "no-hydration",
    apply: "build",
    config: () => ({ build: { rolldownOptions: { treeshake: { manualPureFunctions: IDLE } } } }),
    transform: {
      filter: { id: /svelte\/src\/internal\/client\/dom\/hydration\.js$/ },
      handler(code) {
        if (!code.includes(FLAG) || !code.includes(SETS)) throw new Error("Svelte keeps its hydration flag some other way now: look at hydration.js again.");
        return { code: code.replace(FLAG, FLAG.replace("let", "const")).replace(SETS, ""), map: null };
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
