/** Names in running text. Mirrors page/prose.py and name_runs of figure/lettering.py. */

import { keep } from "../laws/keep.mjs";

/** How a name is set: its letter italic, the rest an upright subscript; a word without a digit is set whole. */
export function nameRuns(name) {
  const isWord = name.length === 1 || /^\p{Ll}\p{L}*$/u.test(name);
  return isWord ? [name] : [name[0], name.slice(1)];
}

/** One name as a tree. */
export function setName(name, kind) {
  const [first, below] = nameRuns(name);
  return ["span", { class: "name", [`data-${kind}`]: name }, ["i", {}, first], ...(below ? [["sub", {}, below]] : [])];
}

const ANNOUNCING = new Set(["from", "to", "at", "point", "junction", "points"]);

/**
 * A sentence of ours with every name in it set as a name; a point only after a word that announces one.
 * @param {string} text
 * @param {import("../laws/circuit.mjs").Topology} topology
 * @returns {import("./saying.mjs").Tree[]}
 */
export function setText(text, topology) {
  const kinds = findNames(topology);
  const made = [];
  let [at, before] = [0, ""];
  for (const found of text.matchAll(/[\p{L}\p{N}_]+/gu)) {
    const [word] = found;
    const isAnnounced = ANNOUNCING.has(before) && text[found.index - 1] === " " && text.slice(0, found.index - 1).endsWith(before);
    const kind = kinds.get(word) ?? (isAnnounced && Object.hasOwn(topology.node, word) ? "point" : "");
    before = word;
    if (!kind) continue;
    if (found.index > at) made.push(text.slice(at, found.index));
    made.push(setName(word, kind));
    at = found.index + word.length;
  }
  return at < text.length ? [...made, text.slice(at)] : made;
}

const kept = new WeakMap();

/** For every name that text may mention what it names; a part before a loop before a current. */
const findNames = (topology) => keep(kept, topology, () => new Map(listNames(topology)));

const listNames = ({ branches, loops, parts }) => [
  ...branches.map((branch) => [branch.current, "current"]),
  ...loops.map((loop) => [loop.name, "loop"]),
  ...parts.map((part) => [part.name, "part"]),
];
