// Packs docs/trade for the phone: {page: {title, html}}. The pages keep to a few plain forms (headings, paragraphs, lists,
// tables, code, bold, links among themselves); a line of any other form fails the build rather than showing as it is typed.
import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";

const TRADE = resolve(fileURLToPath(import.meta.url), "../../../docs/trade");
const NOT_A_FIT = new Set(["README.md", "tables.md"]);
const VIRTUAL = "virtual:trade-pages";

const plain = (text) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");

/** A formula as one writes it on paper: no underscores, signs for times and less, small figures for powers. */
const formula = (text) => text.replace(/_/g, " ").replace(/\*\*2/g, "²").replace(/\*\*3/g, "³").replace(/\*/g, "×").replace(/ - /g, " − ").replace(/\bpi\b/g, "π");

/** In the rest, bold is bold and a link is its words: on the phone one page is shown at a time. */
function inline(text) {
  return text.split(/(`[^`]*`)/).map((piece) => (piece.startsWith("`")
    ? `<code>${plain(formula(piece.slice(1, -1)))}</code>`
    : plain(piece).replace(/\[([^\]]+)\]\([\w-]+\.md\)/g, "$1").replace(/\*\*([^*]+)\*\*/g, "<b>$1</b>"))).join("");
}

const cells = (line, tag) => `<tr>${line.split("|").slice(1, -1).map((cell) => `<${tag}>${inline(cell.trim())}</${tag}>`).join("")}</tr>`;

function table([head, rule, ...rows]) {
  if (!/^\|(-+\|)+$/.test(rule ?? "")) throw new Error(`a table without its rule: ${head}`);
  return `<table>${cells(head, "th")}${rows.map((row) => cells(row, "td")).join("")}</table>`;
}

/** Items begin with their mark; what follows indented goes on with the one before. */
function list(tag, mark, lines) {
  const items = [];
  for (const line of lines) {
    if (mark.test(line)) items.push(line.replace(mark, ""));
    else if (/^ {2,}\S/.test(line)) items[items.length - 1] += ` ${line.trim()}`;
    else throw new Error(`neither a point of the list nor its continuation: ${line}`);
  }
  return `<${tag}>${items.map((item) => `<li>${inline(item)}</li>`).join("")}</${tag}>`;
}

function block(lines) {
  const [first] = lines;
  if (first.startsWith("## ") && lines.length === 1) return `<h3>${inline(first.slice(3))}</h3>`;
  if (first.startsWith("|")) return table(lines);
  if (first.startsWith("- ")) return list("ul", /^- /, lines);
  if (/^1\. /.test(first)) return list("ol", /^\d+\. /, lines);
  if (/^([#>+]|\* |={3}|-{3}|!\[| {4}|<)/.test(first) || lines.some((line) => /^([-|] ?|\d+\. )/.test(line))) throw new Error(`a form that pages do not use: ${first}`);
  return `<p>${inline(lines.join(" "))}</p>`;
}

/** {title, html} of one page. */
export function readPage(text) {
  const blocks = text.replace(/^(## .*)\n/gm, "$1\n\n").split(/\n{2,}/).map((one) => one.split("\n").filter(Boolean)).filter((one) => one.length);
  const [[title], ...rest] = blocks;
  if (!title.startsWith("# ")) throw new Error("a page without a title");
  return { title: title.slice(2), html: rest.map(block).join("") };
}

export function packPages(folder = TRADE) {
  const names = readdirSync(folder).filter((name) => name.endsWith(".md") && !NOT_A_FIT.has(name)).sort();
  return Object.fromEntries(names.map((name) => {
    try { return [name.slice(0, -3), readPage(readFileSync(resolve(folder, name), "utf8"))]; }
    catch (error) { throw new Error(`docs/trade/${name}: ${error.message}`); }
  }));
}

/** Vite: `virtual:trade-pages` is the address of the pack; the service worker keeps it apart from the shell. */
export function tradePages() {
  let building = false;
  return {
    name: "trade-pages",
    configResolved(config) { building = config.command === "build"; },
    resolveId(id) { return id === VIRTUAL ? `\0${VIRTUAL}` : null; },
    load(id) {
      if (id !== `\0${VIRTUAL}`) return null;
      const text = JSON.stringify(packPages());
      if (!building) return `export default ${JSON.stringify(`data:application/json;base64,${Buffer.from(text).toString("base64")}`)}`;
      const ref = this.emitFile({ type: "asset", name: "trade.json", source: text });
      return `export default import.meta.ROLLUP_FILE_URL_${ref}`;
    },
  };
}
