/**
 * Closed walks: how one lies along the branches, and every simple loop of a circuit. Mirrors laws/loop.py and
 * laws/unused.py; what a set of loops is worth is said in loop-set.mjs.
 */

import { stepEnd, stepStart, turnSteps } from "./circuit.mjs";

/** With more independent loops than this only sums of two are listed, and all of them together. */
const MOST_FULLY_LISTED = 6;

/**
 * For each branch 1 where the walk goes along its assumed direction, -1 against, 0 where it does not go.
 * @param {import("./circuit.mjs").Step[]} walk
 * @param {import("./circuit.mjs").Branch[]} branches
 * @returns {number[]}
 */
export function branchVector(walk, branches) {
  const ways = new Map(walk.map((step) => [step.part.name, step.forward]));
  return branches.map(({ steps: [first] }) => {
    const way = ways.get(first.part.name);
    return way === undefined ? 0 : way === first.forward ? 1 : -1;
  });
}

/** Whether branches form one closed walk that passes no junction twice. */
export function isSimple(members) {
  if (!members.length) return false;
  const meeting = new Map();
  for (const branch of members) for (const end of [branch.start, branch.end]) meeting.set(end, [...(meeting.get(end) ?? []), branch]);
  if ([...meeting.values()].some((ends) => ends.length !== 2)) return false;
  const reached = new Set();
  const open = [members[0].start];
  while (open.length) {
    const here = open.pop();
    if (reached.has(here)) continue;
    reached.add(here);
    open.push(...meeting.get(here).flatMap((branch) => [branch.start, branch.end]));
  }
  return reached.size === meeting.size;
}

/** The closed walk through branches that form one loop, along the first of them. */
export function walkRound(members) {
  const [first, ...rest] = members;
  const walk = [...first.steps];
  let here = first.end;
  while (rest.length) {
    const at = rest.findIndex((branch) => here === branch.start || here === branch.end);
    const [branch] = rest.splice(at, 1);
    const along = branch.start === here;
    walk.push(...(along ? branch.steps : turnSteps(branch.steps)));
    here = along ? branch.end : branch.start;
  }
  return walk;
}

/** The same loop, begun at its first battery (else its first part) and walked forward through it. */
export function turnToFirstPart(walk, parts) {
  const inWalk = new Map(walk.map((step) => [step.part, step]));
  const members = parts.filter((part) => inWalk.has(part));
  const first = members.find((part) => !part.emf.isZero) ?? members[0];
  const turned = inWalk.get(first).forward ? walk : turnSteps(walk);
  const at = turned.findIndex((step) => step.part === first);
  return [...turned.slice(at), ...turned.slice(0, at)];
}

/**
 * Every simple closed loop, those with few parts first; the page's own loops keep their walk and their name.
 * @param {import("./circuit.mjs").Topology} topology with the loops of the page
 * @returns {{name?: string, start: string, steps: import("./circuit.mjs").Step[]}[]}
 */
export function findAllLoops({ branches, loops, parts }) {
  const found = new Map(loops.map((loop) => [memberKey(loop.steps, branches), loop]));
  for (const numbers of findSums(loops.map((loop) => branchVector(loop.steps, branches)))) {
    const members = branches.filter((_, number) => numbers.has(number));
    const key = [...numbers].sort((a, b) => a - b).join();
    if (found.has(key) || !isSimple(members)) continue;
    const steps = turnToFirstPart(walkRound(members), parts);
    found.set(key, { start: stepStart(steps[0]), steps });
  }
  return [...found.values()].sort((one, other) => one.steps.length - other.steps.length);
}

/** The same, each with a name that it keeps whatever is chosen. @returns {import("./circuit.mjs").Loop[]} */
export function nameAllLoops(topology) {
  const free = freeNames(topology);
  return findAllLoops(topology).map((loop) => ({ ...loop, name: loop.name ?? free() }));
}

/** A maker of names for loops: L and the next number that nothing is called by yet. */
export function freeNames({ loops, part, branches, points }) {
  const taken = new Set([...loops.map((loop) => loop.name), ...Object.keys(part), ...branches.map((branch) => branch.current), ...points]);
  let number = 0;
  return () => {
    do number += 1;
    while (taken.has(`L${number}`));
    return `L${number}`;
  };
}

/** Which branches a walk goes through, as one text. */
export function memberKey(walk, branches) {
  return branchVector(walk, branches).flatMap((way, number) => (way ? [number] : [])).join();
}

/** Exclusive-or sums of loops, as sets of branch numbers. */
function findSums(vectors) {
  const sets = vectors.map((vector) => new Set(vector.flatMap((way, number) => (way ? [number] : []))));
  const choices = sets.length > MOST_FULLY_LISTED ? fewAtATime(sets.length) : everyChoice(sets.length);
  return choices.map((choice) => choice.reduce((sum, number) => exclusiveOr(sum, sets[number]), new Set()));
}

function everyChoice(count) {
  return Array.from({ length: 2 ** count - 1 }, (_, mask) => Array.from({ length: count }, (_, bit) => bit).filter((bit) => (mask + 1) & (1 << bit)));
}

function fewAtATime(count) {
  const numbers = Array.from({ length: count }, (_, number) => number);
  return [...numbers.flatMap((one) => numbers.slice(one).map((other) => (one === other ? [one] : [one, other]))), numbers];
}

function exclusiveOr(one, other) {
  return new Set([...[...one].filter((each) => !other.has(each)), ...[...other].filter((each) => !one.has(each))]);
}

/**
 * A simple closed walk that is none of the chosen loops: all of them added up, or else two of them; null for none.
 * @param {import("./circuit.mjs").Topology} topology
 * @returns {import("./circuit.mjs").Loop | null}
 */
export function findUnusedLoop({ branches, loops, parts }) {
  const vectors = loops.map((loop) => branchVector(loop.steps, branches));
  const known = new Set(vectors.flatMap((vector) => [vector.join(), vector.map((way) => -way || 0).join()]));
  for (const vector of findCandidates(vectors)) {
    const members = branches.filter((_, number) => vector[number]);
    if (known.has(vector.join()) || Math.max(0, ...vector.map(Math.abs)) !== 1 || !isSimple(members)) continue;
    const steps = turnToFirstPart(walkRound(members), parts);
    return { name: "", start: stepStart(steps[0]), steps };
  }
  return null;
}

/** Sums of the chosen loops that may be loops again. */
function findCandidates(vectors) {
  if (vectors.length < 2) return [];
  const pairs = vectors.flatMap((one, number) => vectors.slice(number + 1).map((other) => [one, other]));
  const sum = (one, other) => one.map((way, at) => way + other[at]);
  const difference = (one, other) => one.map((way, at) => way - other[at]);
  return [vectors.reduce(sum), ...pairs.map((pair) => sum(...pair)), ...pairs.map((pair) => difference(...pair))];
}

/**
 * The nodes that hang together through branches, piece by piece.
 * @returns {string[][]}
 */
export function findPieces(branches) {
  let pieces = [];
  for (const { start, end } of branches) {
    const touched = pieces.filter((piece) => piece.includes(start) || piece.includes(end));
    const merged = [...new Set([...touched.flat(), start, end])];
    const at = touched.length ? pieces.indexOf(touched[0]) : pieces.length;
    pieces = pieces.filter((piece) => !touched.includes(piece));
    pieces.splice(at, 0, merged);
  }
  return pieces;
}

/** How many loops are independent: branches − junctions + 1 for each connected piece. */
export function countIndependent(branches) {
  return branches.length - new Set(branches.flatMap((branch) => [branch.start, branch.end])).size + findPieces(branches).length;
}

/**
 * The steps of a walk given by its start and its parts, as far as it hangs together.
 * @param {{start: string, through: string[]}} choice
 * @param {import("./circuit.mjs").Topology} topology
 */
export function followChoice({ start, through }, { node, part }) {
  let here = node[start];
  const walk = [];
  for (const name of through) {
    const next = part[name];
    if (here !== node[next.start] && here !== node[next.end]) break;
    walk.push({ part: next, forward: node[next.start] === here });
    here = node[stepEnd(walk.at(-1))];
  }
  return walk;
}
