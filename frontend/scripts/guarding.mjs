// The code on the phone that guards the record, and two ways of looking at it through the TypeScript syntax tree:
// its branches, each with a counter, and the small changes that a test should notice.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import ts from "typescript";

const at = (name) => fileURLToPath(new URL(`../src/${name}`, import.meta.url));
export const FILES = ["sync/core.ts", "sync/runner.ts", "sync/network.ts", "log/log.ts", "log/apply.ts", "log/database.ts"].map(at);
export const TESTS = ["src/sync", "src/log"];

const parse = (file) => ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);
const nodes = (root) => { const all = []; const walk = (node) => { all.push(node); node.forEachChild(walk); }; walk(root); return all; };
const SHORT = new Set([ts.SyntaxKind.AmpersandAmpersandToken, ts.SyntaxKind.BarBarToken, ts.SyntaxKind.QuestionQuestionToken]);

/** Where each branch begins: both ways of an if or a choice, the second half of a short circuit, each case, each function. */
export function branches(file) {
  const source = parse(file);
  const found = [];
  const note = (node, what, before, after) => found.push({ from: node.getStart(source), to: node.end, before, after, what: `${line(source, node)} ${what}` });
  const statement = (node, what, mark) => (ts.isBlock(node) ? found.push({ from: node.getStart(source) + 1, to: node.getStart(source) + 1, before: `${mark};`, after: "", what: `${line(source, node)} ${what}` })
    : note(node, what, `{${mark};`, "}"));
  const value = (node, what, mark) => note(node, what, `(${mark},(`, "))");
  for (const node of nodes(source)) {
    const mark = () => `globalThis.__branch?.(${JSON.stringify(file)},${found.length})`;
    if (ts.isIfStatement(node)) {
      statement(node.thenStatement, "then", mark());
      if (node.elseStatement) statement(node.elseStatement, "else", mark());
      else {
        const closing = ts.isBlock(node.thenStatement) ? null : found.at(-1);
        const after = ` else {${mark()};}`;
        if (closing) closing.after += after;
        found.push({ from: node.end, to: node.end, before: "", after: closing ? "" : after, what: `${line(source, node)} else, not written` });
      }
    } else if (ts.isConditionalExpression(node)) {
      value(node.whenTrue, "? chosen", mark());
      value(node.whenFalse, ": chosen", mark());
    } else if (ts.isBinaryExpression(node) && SHORT.has(node.operatorToken.kind)) value(node.right, `right of ${node.operatorToken.getText()}`, mark());
    else if (ts.isCaseClause(node) && node.statements.length) note(node.statements[0], "case", `${mark()};`, "");
    else if (ts.isCatchClause(node)) statement(node.block, "catch", mark());
    else if ((ts.isFunctionLike(node)) && node.body && ts.isBlock(node.body)) statement(node.body, "function", mark());
    else if (ts.isArrowFunction(node)) value(node.body, "function", mark());
  }
  return found;
}

const line = (source, node) => source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1;

export function counted(file) {
  const edits = branches(file).flatMap(({ from, to, before, after }, i) => [{ at: from, text: before, order: i }, { at: to, text: after, order: -i }]);
  return edited(readFileSync(file, "utf8"), edits);
}

/** Edits at one place: what closes comes before what opens; outer ones open first and close last. */
function edited(text, edits) {
  const sorted = edits.filter((e) => e.text).sort((one, other) => one.at - other.at || one.order - other.order);
  let out = "";
  let done = 0;
  for (const edit of sorted) { out += text.slice(done, edit.at) + edit.text; done = edit.at; }
  return out + text.slice(done);
}

const K = ts.SyntaxKind;
const SWAPS = new Map([
  [K.EqualsEqualsEqualsToken, "!=="], [K.ExclamationEqualsEqualsToken, "==="], [K.LessThanToken, "<="], [K.LessThanEqualsToken, "<"],
  [K.GreaterThanToken, ">="], [K.GreaterThanEqualsToken, ">"], [K.PlusToken, "-"], [K.MinusToken, "+"], [K.AsteriskToken, "/"],
  [K.AmpersandAmpersandToken, "||"], [K.BarBarToken, "&&"], [K.QuestionQuestionToken, "&&"],
]);

/** `{line, what, code}` for every small change there is to make. */
export function changes(file) {
  const source = parse(file);
  const text = source.text;
  const out = [];
  const put = (node, from, to, what, by) => out.push({ line: line(source, node), what, code: text.slice(0, from) + by + text.slice(to) });
  const over = (node, what, by) => put(node, node.getStart(source), node.end, what, by);
  for (const node of nodes(source)) {
    if (inType(node)) continue;
    if (ts.isBinaryExpression(node) && SWAPS.has(node.operatorToken.kind)) {
      const by = SWAPS.get(node.operatorToken.kind);
      if (node.operatorToken.kind === K.PlusToken && /["`]/.test(node.getText(source))) continue;
      // In brackets, since && and || may not stand beside ??.
      over(node, `${node.operatorToken.getText(source)} to ${by}`, `((${node.left.getText(source)}) ${by} (${node.right.getText(source)}))`);
    }
    if (ts.isPrefixUnaryExpression(node) && node.operator === K.ExclamationToken) over(node, "not left out", node.operand.getText(source));
    if (node.kind === K.TrueKeyword) over(node, "true to false", "false");
    if (node.kind === K.FalseKeyword) over(node, "false to true", "true");
    if (ts.isNumericLiteral(node)) over(node, `${node.text} to ${Number(node.text) + 1}`, String(Number(node.text) + 1));
    if (ts.isIfStatement(node)) { over(node.expression, "if to always", "true"); over(node.expression, "if to never", "false"); }
    if (ts.isConditionalExpression(node)) { over(node, "always the first", `(${node.whenTrue.getText(source)})`); over(node, "always the second", `(${node.whenFalse.getText(source)})`); }
    if (ts.isReturnStatement(node) && node.expression) over(node.expression, "returns nothing", "(undefined as never)");
    if (ts.isExpressionStatement(node)) over(node, "left out", ";");
    if (ts.isAwaitExpression(node)) over(node, "not waited for", node.expression.getText(source));
  }
  return out;
}

function inType(node) {
  for (let each = node; each; each = each.parent) if (ts.isTypeNode(each) || ts.isInterfaceDeclaration(each) || ts.isTypeAliasDeclaration(each) || ts.isImportDeclaration(each)) return true;
  return false;
}
