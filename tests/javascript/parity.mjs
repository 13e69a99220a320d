/** Works out every case of a file, one JSON object a line, and prints what came out in the same order: node parity.mjs FILE. */

import { readFileSync } from "node:fs";
import { readTopology } from "../../docs/assets/javascripts/laws/circuit.mjs";
import { readChoices, walkOf, writeChoices } from "../../docs/assets/javascripts/laws/choices.mjs";
import { equationText, workOut } from "../../docs/assets/javascripts/laws/meaning.mjs";
import { rowOf } from "../../docs/assets/javascripts/laws/equation.mjs";
import { takeSet } from "../../docs/assets/javascripts/laws/practice.mjs";
import { tellLine } from "../../docs/assets/javascripts/page/hand.mjs";
import { SECTIONS, viewSection } from "../../docs/assets/javascripts/page/views.mjs";

/** One object for each circuit, as on a page, so that what the laws remember of it is tried too. */
const examples = new Map();

function shareExample(example) {
  const key = JSON.stringify(example);
  if (!examples.has(key)) examples.set(key, example);
  return examples.get(key);
}

const texts = (values) => values.map(String);

function work({ example: given, figure, choices, practice }) {
  const printed = shareExample(given);
  const example = practice ? takeSet(printed, practice) : printed;
  const worked = workOut(example, choices, figure);
  const { written, equations, route, solution, topology } = worked;
  const search = writeChoices(choices);
  const read = readChoices(search, readTopology(example));
  return {
    search,
    example: practice ? example : null,
    read: { ...read.choices, notes: read.notes },
    equations: written.equations.map(equationText),
    matrix: equations.equations.map((equation) => texts(rowOf(equation, equations.unknowns))),
    right: texts(equations.equations.map((equation) => equation.right)),
    currents: Object.fromEntries([...solution.currents].map(([name, value]) => [name, `${value}`])),
    lines: route.lines.map((line) => [line.number, line.action, line.uses, texts(line.multipliers), line.current, line.terms.map(texts), `${line.right}`, `${line.scale}`]),
    said: route.lines.map(tellLine),
    kept: route.kept,
    parts: solution.parts.map((state) => [state.part.name, `${state.current}`, state.voltage && `${state.voltage}`, `${state.power}`, state.role]),
    potentials: [...solution.potentials].map(([point, value]) => [point, value && `${value}`]),
    sums: texts([...solution.checks.junctionSums, ...solution.checks.loopSums, solution.checks.powerBalance]),
    difference: solution.checks.difference,
    all: worked.all.map((loop) => walkOf(loop).through),
    independent: worked.loopSet.independent,
    loops: topology.loops.map((loop) => [loop.name, loop.start, loop.steps.map((step) => [step.part.name, step.forward])]),
    sections: Object.fromEntries(SECTIONS.map((id) => [id, viewSection(id, worked)])),
  };
}

const lines = readFileSync(process.argv[2], "utf8").split("\n").filter(Boolean);
process.stdout.write(lines.map((line) => JSON.stringify(work(JSON.parse(line)))).join("\n"));
