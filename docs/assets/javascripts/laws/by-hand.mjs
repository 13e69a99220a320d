/**
 * The route by hand: from the equation set to the asked currents, in as little work as can be. Mirrors laws/by_hand.py.
 *
 * Junctions first: some currents are kept, all others are written with them by the junction rule alone; then the loops
 * hold only the kept ones. All sensible sets of kept currents are tried and the cheapest is taken.
 */

import { ZERO } from "./fraction.mjs";
import { eliminate, firstRow, isLess, TooLarge } from "./hand-rows.mjs";
import { writeLines } from "./hand-lines.mjs";
import { memberKey } from "./loop.mjs";
import { NodeSets } from "./node.mjs";

const MOST_SETS = 4000;
const MOST_TRIES = { 1: 40, 2: 80, 3: 80, 4: 30, 5: 6 };

/**
 * @typedef {import("./equation.mjs").Equation} Equation
 * @typedef {{number: number, action: "express" | "insert" | "combine" | "find", uses: number[], multipliers: bigint[],
 *   current: string, terms: [string, Fraction][], right: Fraction, scale: Fraction, isTurned?: boolean}} Line Σ factor × current = right
 * @typedef {import("./fraction.mjs").Fraction} Fraction
 */

/**
 * The cheapest route found to the currents that the question asks for; all of them where it names none.
 * @param {import("./circuit.mjs").Topology} topology
 * @param {{unknowns: string[], equations: Equation[]}} set in the units of the page
 * @returns {{lines: Line[], asked: string[], kept: string[]}}
 */
export function findRoute(topology, set) {
  if (!set.unknowns.length) return { lines: [], asked: [], kept: [] };
  const parts = topology.asked.length ? topology.asked : [...topology.branchOf.keys()];
  const named = new Set(parts.filter((part) => topology.branchOf.has(part)).map((part) => topology.branchOf.get(part).current));
  const asked = set.unknowns.filter((current) => !named.size || named.has(current));
  const plan = findPlan(topology, set, asked);
  remember(topology, plan.kept);
  return { lines: writeLines(set, plan, asked), asked, kept: plan.kept };
}

function findPlan(topology, set, asked) {
  try {
    return findCheapest(topology, set, asked, Number);
  } catch (error) {
    if (!(error instanceof TooLarge)) throw error;
    return findCheapest(topology, set, asked, BigInt);
  }
}

/** The cheapest plan of those for the sets of kept currents worth trying, each for each asked current that is kept. */
function findCheapest(topology, set, asked, whole) {
  const loops = set.equations.flatMap((equation, number) => (equation.rule === "loop" ? [number] : []));
  let best = null;
  for (const { kept, forms, expressions } of findKept(topology, set, asked, loops.length)) {
    const rows = loops.map((number) => ({ number, row: insert(set.equations[number], kept, forms, whole) }));
    const targets = kept.flatMap((current, column) => (asked.includes(current) ? [column] : []));
    const mostTargets = loops.length in MOST_TRIES ? targets.length : 1;
    for (const target of targets.length ? targets.slice(0, mostTargets) : [0]) {
      const way = eliminate(rows.map(({ row }) => row), target);
      const plan = { kept, forms, expressions, rows, way, target, effort: findEffort(rows, forms, expressions, set, way) };
      if (!best || isLess(plan.effort, best.effort)) best = plan;
    }
  }
  return best;
}

/**
 * The currents that were kept before, by the nodes of an example and then by its junctions and loops. Turning a direction
 * round changes signs and never an effort, so the same currents stay the cheapest to keep.
 */
const keptBefore = new WeakMap();

const keyOf = ({ junctions, loops, branches }) =>
  [...junctions.map((junction) => junction.used), ...loops.map((loop) => memberKey(loop.steps, branches))].join(";");

function remember(topology, kept) {
  if (!keptBefore.has(topology.node)) keptBefore.set(topology.node, new Map());
  keptBefore.get(topology.node).set(keyOf(topology), kept);
}

/** Sets of kept currents worth working through, each with every current written with them. */
function findKept(topology, set, asked, count) {
  const most = MOST_TRIES[count] ?? 1;
  const junctions = set.equations.filter((equation) => equation.rule === "junction");
  const before = keptBefore.get(topology.node)?.get(keyOf(topology));
  if (before) return [{ kept: before, ...writeWith(before, junctions, set.unknowns.length) }];
  const found = [];
  let looked = 0;
  for (const kept of combinations(set.unknowns, count)) {
    if (found.length === most || (looked += 1) > MOST_SETS) break;
    const made = kept.some((current) => asked.includes(current)) && writeWith(kept, junctions, set.unknowns.length);
    if (made) found.push({ kept, ...made });
  }
  if (found.length) return found;
  const kept = keepAny(topology, asked);
  return [{ kept, ...writeWith(kept, junctions, set.unknowns.length) }];
}

/** Every choice of so many items, in their order. */
function* combinations(items, count) {
  if (!count) yield [];
  for (let at = 0; count && at <= items.length - count; at += 1) {
    for (const rest of combinations(items.slice(at + 1), count - 1)) yield [items[at], ...rest];
  }
}

/** One set of kept currents, with as many of those asked as can be: the branches outside a spanning tree. */
function keepAny({ branches }, asked) {
  const sets = new NodeSets(branches.flatMap((branch) => [branch.start, branch.end]));
  const kept = new Set();
  const isAsked = (branch) => asked.includes(branch.current);
  for (const branch of [...branches.filter((each) => !isAsked(each)), ...branches.filter(isAsked)]) {
    if (sets.find(branch.start) === sets.find(branch.end)) kept.add(branch.current);
    sets.join(branch.start, branch.end);
  }
  return branches.map((branch) => branch.current).filter((current) => kept.has(current));
}

/** Every current written with the kept ones, one junction equation each; null where the junctions do not allow it. */
function writeWith(kept, junctions, unknowns) {
  const forms = new Map(kept.map((current) => [current, new Map([[current, 1]])]));
  const expressions = [];
  let open = junctions.map((equation, number) => ({ equation, number, currents: [...equation.factors.keys()] }));
  const missing = ({ currents }) => currents.filter((current) => !forms.has(current));
  while (open.length) {
    const ready = open.filter((each) => missing(each).length === 1);
    if (!ready.length) return null;
    for (const each of ready) {
      const [current, ...others] = missing(each);
      if (!current || others.length) continue;
      open = open.filter((other) => other !== each);
      const helpers = each.currents.filter((other) => forms.has(other) && !kept.includes(other));
      forms.set(current, express(current, each.equation, forms));
      expressions.push({ current, equation: each.number, helpers });
    }
  }
  return forms.size === unknowns ? { forms, expressions } : null;
}

/** Solves a junction equation for one current, with all others written with kept ones. */
function express(current, equation, forms) {
  const sign = equation.factors.get(current).isNegative ? 1 : -1;
  const form = new Map();
  for (const [other, factor] of equation.factors) {
    if (other === current) continue;
    const way = sign * Number(factor.numerator);
    for (const [kept, share] of forms.get(other)) form.set(kept, (form.get(kept) ?? 0) + way * share);
  }
  return new Map([...form].filter(([, share]) => share));
}

/** A loop equation written with kept currents only. */
function insert(equation, kept, forms, whole) {
  const factors = new Map(kept.map((current) => [current, ZERO]));
  let effort = 0;
  for (const [current, factor] of equation.factors) {
    for (const [name, share] of forms.get(current)) {
      const before = factors.get(name);
      if (!before.isZero) effort += 1;
      factors.set(name, before.plus(share === 1 ? factor : share === -1 ? factor.negated() : factor.times({ numerator: BigInt(share), denominator: 1n })));
    }
  }
  return firstRow([...factors.values()], equation.right, effort, whole);
}

/** What a plan costs, and how large its numbers get. */
function findEffort(rows, forms, expressions, set, way) {
  const needed = rows.filter(({ row }) => way.rows.includes(row));
  const used = new Set(needed.flatMap(({ number }) => [...set.equations[number].factors.keys()]));
  const inserting = needed.reduce((sum, { row }) => sum + row.effort, 0);
  const expressing = expressions.reduce((sum, { current }) => sum + (used.has(current) ? forms.get(current).size : 0), 0);
  return [way.effort[0] + inserting + expressing, way.effort[1]];
}
