// docs/trade packed for the phone: every page, whole, and nothing shown as it was typed.
import { expect, it } from "vitest";
import { readFileSync, readdirSync } from "node:fs";
import { packPages, readPage } from "../../scripts/trade-pages.mjs";

const FOLDER = new URL("../../../docs/trade/", import.meta.url);
const pages = packPages();

it("has every page of a fit and no other", () => {
  const files = readdirSync(FOLDER).filter((name) => name.endsWith(".md") && name !== "README.md" && name !== "tables.md");
  expect(Object.keys(pages).sort()).toEqual(files.map((name) => name.slice(0, -3)).sort());
  expect(files.length).toBeGreaterThan(90);
});
it("keeps every word of a page", () => {
  const letters = (text: string): string => text.replace(/[^\p{L}\p{N}]+/gu, "").replace(/pi|π/g, "");
  for (const [name, { title, html }] of Object.entries(pages)) {
    const typed = readFileSync(new URL(`${name}.md`, FOLDER), "utf8").replace(/\]\([\w-]+\.md\)/g, "").replace(/^\d+\. /gm, "").replace(/\*\*([23])/g, (_, n) => (n === "2" ? "²" : "³"));
    const shown = `${title} ${html.replace(/<[^>]+>/g, " ").replace(/&lt;|&gt;|&amp;/g, " ")}`;
    expect(letters(shown), name).toBe(letters(typed));
  }
});
it("shows no marks of typing", () => {
  for (const [name, { html }] of Object.entries(pages)) expect(html.replace(/<[^>]+>/g, ""), name).not.toMatch(/\*\*|`|\]\(|^#|\w_\w/m);
});
it("writes formulas as on paper", () => {
  expect(readPage("# A\n\n## Formula\n`pi / 4 * bore_size**2 - a_b`").html).toBe("<h3>Formula</h3><p><code>π / 4 × bore size² − a b</code></p>");
});
it("lets nothing of a page become markup", () => expect(readPage("# A\n\nless < more & <b>x</b>").html).toBe("<p>less &lt; more &amp; &lt;b&gt;x&lt;/b&gt;</p>"));
it.each(["> said", "### deep", "* star", "![x](y.png)", "- one\ntwo", "| a |\n| b |"])("refuses a form that pages do not use: %s", (text) => expect(() => readPage(`# A\n\n${text}`)).toThrow());
