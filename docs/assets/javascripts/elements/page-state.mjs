/** The state of a living page: what its reader chose, how it stands in the address, and who holds it. */

import { formatWalk, readChoices, walkOf, writeChoices } from "../laws/choices.mjs";

/**
 * @typedef {Required<import("../laws/choices.mjs").Choices> & {set: number, step: string, help: string}} State
 *   set: which practice values, 0 for the page's own; step and help: what the modes make of them
 */

/** A page on which nothing is chosen. */
export const AS_PRINTED = Object.freeze({ flip: [], leaveOut: "", walk: [], set: 0, step: "", help: "" });

/** How many sets of practice values an example has. */
export const SETS = 99;

/** What is a choice; the rest is how it is looked at. */
export const CHOICES = ["flip", "leaveOut", "walk", "set"];

/**
 * The controller of the page that an element stands on; null where the page has none.
 * @param {Element} element
 * @returns {Promise<import("./live-example.mjs").LiveExample | null>}
 */
export async function findExample(element) {
  await customElements.whenDefined("live-example");
  return element.closest("article")?.querySelector("live-example") ?? null;
}

/**
 * Reads the state of an address.
 * @param {string} search the part of the address that begins with "?"
 * @param {import("../laws/circuit.mjs").Topology} topology of the page, without choices
 * @param {number} sets how many sets of practice values there are
 * @returns {{state: State, notes: {kind: string, value: string}[]}}
 */
export function readState(search, topology, sets) {
  const { choices, notes } = readChoices(search, topology);
  const asked = new URLSearchParams(search);
  const [set, step, help] = ["set", "step", "help"].map((key) => asked.get(key) ?? "");
  const isSet = /^[1-9]\d{0,2}$/.test(set) && Number(set) <= sets;
  if (set && !isSet) notes.push({ kind: "set", value: set.slice(0, 60) });
  const modes = { set: isSet ? Number(set) : 0, step: step.slice(0, 60), help: help.slice(0, 60) };
  return { state: tidy({ ...choices, ...modes }, topology), notes };
}

/** The address that carries a state; keys of others stay as they are. */
export function writeState({ set, step, help, ...choices }, search) {
  const asked = new URLSearchParams(writeChoices(choices, search));
  for (const [key, value] of Object.entries({ set: set || "", step, help })) {
    asked.delete(key);
    if (value) asked.set(key, String(value));
  }
  return asked.size ? `?${asked}` : "";
}

/** The same state, with what is as printed left out and the currents in the page's order. */
export function tidy(state, { branches, junctions, loops }) {
  const currents = branches.map((branch) => branch.current);
  const isPrinted = junctions.some((junction) => junction.name === state.leaveOut && !junction.used);
  const isOwn = sameWalks(state.walk, loops.map(walkOf));
  return {
    ...state,
    flip: currents.filter((current) => state.flip.includes(current)),
    leaveOut: isPrinted ? "" : state.leaveOut,
    walk: isOwn ? [] : state.walk,
  };
}

const sameWalks = (some, others) => some.map(formatWalk).join("_") === others.map(formatWalk).join("_");

/** Whether two states differ in one of these. */
export function differ(one, other, keys = Object.keys(AS_PRINTED)) {
  return keys.some((key) => JSON.stringify(one[key]) !== JSON.stringify(other[key]));
}
