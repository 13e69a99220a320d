/**
 * What a reader chose, and how it stands in the address of the page.
 *
 *     ?flip=I1.I3&leave-out=a&walk=a.E1.R1.R2_d.R2.W1.R3
 *
 * `flip`: currents whose assumed directions are turned round. `leave-out`: the junction whose equation is not used.
 * `walk`: all loops of the set, each its start and its parts in walking order. Names are letters and digits, so dots and
 * underscores never stand in one. Unknown or broken values are left out, with a quiet note. Mirrors laws/choices.py.
 */

import { stepEnd } from "./circuit.mjs";
import { isLess } from "./hand-rows.mjs";
import { findPieces, followChoice, freeNames, memberKey, nameAllLoops } from "./loop.mjs";

const MOST_LOOPS = 20;

/**
 * @typedef {{start: string, through: string[]}} Walk
 * @typedef {{flip?: string[], leaveOut?: string, walk?: Walk[]}} Choices what is absent or empty is as on the page
 */

/**
 * Reads the choices of an address.
 * @param {string} search the part of the address that begins with "?"
 * @param {import("./circuit.mjs").Topology} topology of the page, without choices
 * @returns {{choices: Required<Choices>, notes: {kind: "flip" | "leave-out" | "walk", value: string}[]}}
 */
export function readChoices(search, topology) {
  const asked = new URLSearchParams(search);
  const notes = [];
  const refuse = (kind, value) => notes.push({ kind, value: value.slice(0, 60) });
  const currents = topology.branches.map((branch) => branch.current);
  const flip = parseList(asked.get("flip")).filter((name) => currents.includes(name) || void refuse("flip", name));
  const leaveOut = findJunction(asked.get("leave-out"), topology);
  if (asked.get("leave-out") && !leaveOut) refuse("leave-out", asked.get("leave-out"));
  const walks = (asked.get("walk") ?? "").split("_").filter(Boolean);
  const sound = walks.filter((text, at) => (at < MOST_LOOPS && isClosedWalk(parseWalk(text), topology)) || void refuse("walk", text));
  return { choices: { flip: currents.filter((name) => flip.includes(name)), leaveOut, walk: sound.map(parseWalk) }, notes };
}

/**
 * The address that carries these choices; other keys of it stay as they are.
 * @param {Choices} choices
 * @param {string} [search] the address before
 * @returns {string} "" or "?..."
 */
export function writeChoices({ flip = [], leaveOut = "", walk = [] }, search = "") {
  const asked = new URLSearchParams(search);
  const values = { flip: flip.join("."), "leave-out": leaveOut, walk: walk.map(formatWalk).join("_") };
  for (const [key, value] of Object.entries(values)) {
    asked.delete(key);
    if (value) asked.set(key, value);
  }
  return asked.size ? `?${asked}` : "";
}

const parseList = (text) => [...new Set((text ?? "").split(".").filter(Boolean))];

/** "a.E1.R1" as a walk. */
export function parseWalk(text) {
  const [start, ...through] = text.split(".");
  return { start, through };
}

/** A walk as "a.E1.R1". */
export const formatWalk = ({ start, through }) => [start, ...through].join(".");

/** A loop of the laws as a walk that an address can carry. */
export const walkOf = ({ start, steps }) => ({ start, through: steps.map((step) => step.part.name) });

/** The name of the junction a point belongs to; empty where it belongs to none. */
function findJunction(point, { node, junctions }) {
  const name = point && Object.hasOwn(node, point) ? node[point] : "";
  return junctions.some((junction) => junction.name === name) ? name : "";
}

/** Whether a walk goes once through each of its parts, all of them alive, and comes back to its start. */
export function isClosedWalk({ start, through }, topology) {
  const { node, branchOf } = topology;
  const isKnown = Object.hasOwn(node, start) && through.length > 0 && through.every((name) => branchOf.has(name));
  if (!isKnown || new Set(through).size < through.length) return false;
  const walk = followChoice({ start, through }, topology);
  return walk.length === through.length && node[stepEnd(walk.at(-1))] === node[start];
}

/**
 * The topology with the chosen junction left out and the chosen loops in place of its own.
 * @param {import("./circuit.mjs").Topology} topology with the directions turned round already
 * @param {Choices} choices
 */
export function applyChoices(topology, { leaveOut = "", walk = [] }) {
  const junctions = leaveOut ? leaveOutJunction(topology, leaveOut) : topology.junctions;
  return { ...topology, junctions, loops: walk.length ? nameLoops(walk, topology) : topology.loops };
}

/** Every junction; in each piece one is left out: the chosen one, else the busiest. */
function leaveOutJunction({ junctions, branches, node, parts }, chosen) {
  const names = junctions.map((junction) => junction.name);
  const leftOut = findPieces(branches).map((piece) => {
    const inside = names.filter((name) => piece.includes(name));
    return inside.includes(node[chosen]) ? node[chosen] : findBusiest(inside, branches, node, parts);
  });
  return junctions.map((junction) => ({ ...junction, used: !leftOut.includes(junction.name) }));
}

/** Where most branches meet; among equals the first battery's minus, else the last. */
function findBusiest(names, branches, node, parts) {
  const ends = branches.flatMap((branch) => [branch.start, branch.end]);
  const minuses = parts.filter((part) => part.kind === "battery").map((part) => node[part.start]);
  const rank = (name) => {
    const at = minuses.indexOf(name);
    return [ends.filter((end) => end === name).length, at < 0 ? 0 : minuses.length - at];
  };
  return names.reduce((best, name) => (isLess(rank(name), rank(best)) ? best : name), names[0]);
}

/**
 * A loop keeps its name whatever else is in the set: the page's loops have theirs, every other one its place among all
 * loops. What is no simple loop, or there a second time, takes a number after them.
 */
function nameLoops(walks, topology) {
  const { branches } = topology;
  const all = nameAllLoops(topology);
  const names = new Map(all.map(({ name, steps }) => [memberKey(steps, branches), name]));
  const free = freeNames({ ...topology, loops: all });
  return walks.map((walk) => {
    const steps = followChoice(walk, topology);
    const key = memberKey(steps, branches);
    const name = names.get(key) ?? free();
    names.delete(key);
    return { name, start: walk.start, steps };
  });
}
