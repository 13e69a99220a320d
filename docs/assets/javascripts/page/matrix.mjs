/** The matrix form as a formula, as a table and as text to copy. Mirrors view_matrix of page/answers.py. */

import { rowOf } from "../laws/equation.mjs";
import { MINUS, plain } from "../laws/numeral.mjs";
import { displayed, fractionTree, math, name, operator } from "./mathml.mjs";
import { setText } from "./prose.mjs";
import { say, tell } from "./saying.mjs";
import { unitSymbols } from "./setup.mjs";
import { column, frame, numberCell, rowHeading, table } from "./table.mjs";

/**
 * @param {import("../laws/meaning.mjs").Worked} worked
 * @returns {import("./saying.mjs").Tree[]}
 */
export function viewMatrix({ written, units, topology }) {
  const { unknowns, equations } = written;
  if (!equations.length) return [["p", {}, ...tell("matrix.none")]];
  const lines = equations.map((each) => rowOf(each, unknowns));
  const right = equations.map((each) => each.right);
  const symbols = math(["mi", { mathvariant: "normal" }, "A"], ["mspace", { width: "0.15em" }], name("x"), operator("="), name("b"));
  const head = [
    column(say("matrix.equation")),
    ...unknowns.map((current) => ["th", { scope: "col", class: "number" }, ...setText(current, topology)]),
    column(["i", {}, "b"], "number right-side"),
  ];
  return [
    ["p", {}, ...tell("matrix.intro", { formula: symbols, ...unitSymbols(units) })],
    ["div", frame("formula-frame", say("matrix.as_formula")), viewFormula(lines, unknowns, right)],
    table("matrix-table", head, equations.map((each, at) => viewRow(each, at + 1, lines[at])), say("matrix.as_table")),
    copyable(say("matrix.numpy"), numpyText(lines, right)),
    copyable(say("matrix.plain"), lines.map((cells, at) => [...cells, right[at]].map(asciiNumber).join(" ")).join("\n")),
  ];
}

function viewFormula(lines, unknowns, right) {
  return displayed(
    bracketed(lines.map((cells) => cells.map(fractionTree))),
    bracketed(unknowns.map((current) => [name(current)])),
    operator("="),
    bracketed(right.map((value) => [fractionTree(value)])),
  );
}

/** A matrix; its brackets are drawn by the style sheet. */
function bracketed(lines) {
  return ["mtable", { class: "matrix" }, ...lines.map((cells) => ["mtr", {}, ...cells.map((each) => ["mtd", {}, each])])];
}

function viewRow(written, at, cells) {
  const origin = rowHeading(`(${at}) ${say(`equations.${written.rule}`, { name: written.origin })}`);
  return ["tr", {}, origin, ...cells.map((value) => numberCell(plain(value))), ["td", { class: "number right-side" }, plain(written.right)]];
}

const copyable = (title, text) => ["details", { class: "copy" }, ["summary", {}, title], ["pre", {}, ["code", {}, text]]];

/** The equation set as a NumPy expression that gives the currents. */
function numpyText(lines, right) {
  const rows = lines.map((cells) => `        [${cells.map(asciiNumber).join(", ")}]`).join(",\n");
  return `import numpy\nnumpy.linalg.solve(\n    [\n${rows}\n    ],\n    [${right.map(asciiNumber).join(", ")}],\n)`;
}

/** A number as programs read it. */
const asciiNumber = (value) => plain(value).replace(MINUS, "-");
