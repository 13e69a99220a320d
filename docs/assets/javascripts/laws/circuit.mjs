/**
 * From the object of `solve --json` to what the laws work on: parts, branches with their steps, junctions and loops.
 * Mirrors circuit/circuit.py and laws/topology.py. What is read here is never changed: a choice makes new objects.
 */

import { parse, ZERO } from "./fraction.mjs";

/**
 * @typedef {{name: string, kind: string, start: string, end: string, value: Fraction | null, state: string,
 *   emf: Fraction, resistance: Fraction | null}} Part forward means from `start` to `end`; resistance is null where no
 *   steady current can pass
 * @typedef {{part: Part, forward: boolean}} Step
 * @typedef {{current: string, start: string, end: string, steps: Step[]}} Branch start and end are junctions
 * @typedef {{name: string, points: string[], used: boolean}} Junction
 * @typedef {{name: string, start: string, steps: Step[]}} Loop
 * @typedef {{asked: string[], points: string[], node: Record<string, string>, parts: Part[], part: Record<string, Part>,
 *   branches: Branch[], junctions: Junction[], loops: Loop[], idle: Part[], branchOf: Map<string, Branch>,
 *   stepOf: Map<string, Step>}} Topology
 * @typedef {import("./fraction.mjs").Fraction} Fraction
 */

/**
 * The topology of an example, as its page shows it.
 * @param {object} example what `solve --json` prints
 * @param {{flip?: string[]}} [choices] currents whose assumed directions are turned round
 * @returns {Topology}
 */
export function readTopology(example, { flip = [] } = {}) {
  const parts = Object.entries(example.parts).map(([name, said]) => readPart(name, said));
  const part = Object.fromEntries(parts.map((each) => [each.name, each]));
  const branches = example.branches.map((said) => readBranch(said, part));
  return buildTopology({
    asked: example.asked,
    points: Object.keys(example.nodes),
    node: example.nodes,
    parts,
    part,
    branches: branches.map((branch) => (flip.includes(branch.current) ? turnBranch(branch) : branch)),
    junctions: example.junctions,
    loops: example.loops.map((said) => ({ name: said.name, start: said.start, steps: readSteps(said.walk, said.forward, part) })),
  });
}

/** The same topology with some of it replaced, and what follows from its branches found again. */
export function buildTopology(topology) {
  const { branches, parts } = topology;
  const lying = branches.flatMap((branch) => branch.steps.map((step) => ({ name: step.part.name, branch, step })));
  const branchOf = new Map(lying.map(({ name, branch }) => [name, branch]));
  const stepOf = new Map(lying.map(({ name, step }) => [name, step]));
  return { ...topology, branchOf, stepOf, idle: parts.filter((part) => !branchOf.has(part.name)) };
}

/** The point where a step begins. */
export const stepStart = ({ part, forward }) => (forward ? part.start : part.end);

/** The point where a step ends. */
export const stepEnd = ({ part, forward }) => (forward ? part.end : part.start);

/** The same part, walked the other way. */
export const turnStep = ({ part, forward }) => ({ part, forward: !forward });

/** The same walk, the other way. */
export const turnSteps = (steps) => steps.map(turnStep).reverse();

/** The same branch with its assumed direction turned round. */
export const turnBranch = ({ current, start, end, steps }) => ({ current, start: end, end: start, steps: turnSteps(steps) });

/** The currents that are turned round, with this one turned round as well, or back again. */
export const turnCurrent = (flip, current) => (flip.includes(current) ? flip.filter((name) => name !== current) : [...flip, current]);

function readPart(name, said) {
  const value = said.value === null ? null : parse(said.value);
  const part = { name, kind: said.kind, start: said.from, end: said.to, value, state: said.state ?? "" };
  return { ...part, emf: part.kind === "battery" && value ? value : ZERO, resistance: findResistance(part, said.internal_resistance) };
}

/** Resistance to a steady current [Ω]; 0 for a bare wire, null where no steady current can pass. */
function findResistance({ kind, state, value }, internal) {
  if (kind === "capacitor" || state === "open" || (kind === "voltmeter" && state === "ideal")) return null;
  if (kind === "battery") return internal === null ? ZERO : parse(internal);
  return value ?? ZERO;
}

function readBranch(said, part) {
  return { current: said.current, start: said.from, end: said.to, steps: readSteps(said.parts, said.forward, part) };
}

function readSteps(names, forward, part) {
  return names.map((name, at) => ({ part: part[name], forward: forward[at] }));
}

/** The currents that the question asks for, each once. */
export const askedCurrents = ({ asked, branchOf, branches }) => branches.filter((branch) => asked.some((part) => branchOf.get(part) === branch)).map(({ current }) => current);
