import { vitePreprocess } from "@sveltejs/vite-plugin-svelte";

const owners = new Map();

/** Three letters mark a component's styles; the usual eight are on the phone with every styled element. */
function cssHash({ hash, name, filename }) {
  const short = `s${hash(name).slice(-3)}`;
  if ((owners.get(short) ?? filename) !== filename) throw new Error(`${filename} and ${owners.get(short)} get the same mark for their styles; rename one.`);
  owners.set(short, filename);
  return short;
}

export default { preprocess: vitePreprocess(), compilerOptions: { cssHash, discloseVersion: false, runes: ({filename}) => filename.includes("node_modules") ? undefined : true } };
