/**
 * The names that may stand in an equation: currents, parts (as their values), and internal resistances.
 *
 * A name may be typed with a subscript in any of the usual ways: I1, I_1, I_{1}, I 1, i1. Which name is meant must be
 * unambiguous, else it is not read.
 */
import { keep } from "./keep.mjs";

/** @typedef {{current: number} | {part: string, quantity: "resistance" | "emf"}} Meaning */

const split = (name) => /^(.[A-Za-z]*?)_?(\d+|[A-Za-z]?\d*)$/.exec(name)?.slice(1) ?? [name, ""];

/**
 * Every name with what it means, in the order in which readings are preferred.
 * @param {object} circuit as circuit-of-laws gives it: unknowns and parts
 * @param {boolean} [plainInner] read r1 as R1 even where it may be an internal resistance
 * @returns {{pattern: RegExp, meaning: Meaning, name: string}[]}
 */
export function listNames(circuit, plainInner = false) {
  return keep(kept, circuit, () => [false, true].map((plain) => makeNames(circuit, plain)))[Number(plainInner)];
}

const kept = new WeakMap();

function makeNames(circuit, plainInner) {
  const exact = [...nameCurrents(circuit), ...nameParts(circuit)];
  const inner = nameInner(circuit);
  const others = [...(plainInner ? [] : inner), ...exact.map(loosen), ...(plainInner ? inner : []), ...nameEmfs(circuit), ...nameOnly(circuit)];
  const taken = new Set();
  return [...exact, ...others].filter(({ name }) => !taken.has(name) && taken.add(name)).map(withPattern);
}

const nameCurrents = ({ unknowns }) => unknowns.map((name, current) => ({ name, meaning: { current } }));

const nameParts = ({ parts }) =>
  parts.filter(({ kind }) => kind !== "capacitor").map(({ name, kind }) => ({ name, meaning: { part: name, quantity: kind === "battery" ? "emf" : "resistance" } }));

const nameInner = ({ parts }) => {
  const real = parts.filter(({ kind, resistance }) => kind === "battery" && resistance);
  const forms = real.flatMap(({ name }) => [`r${split(name)[1]}`, `r${name}`, `ri${split(name)[1]}`].map((form) => ({ name: form, meaning: { part: name, quantity: "resistance" } })));
  const alone = real.length === 1 ? [{ name: "r", meaning: forms[0].meaning }] : [];
  return onlyOnce([...forms, ...alone]);
};

const nameEmfs = ({ parts }) => {
  const batteries = parts.filter(({ kind }) => kind === "battery");
  const forms = batteries.flatMap(({ name }) => ["\u03b5", "E", "V", "U", "emf"].map((letter) => ({ name: letter + split(name)[1], meaning: { part: name, quantity: "emf" } })));
  return onlyOnce(forms);
};

const nameOnly = ({ unknowns }) => (unknowns.length === 1 ? ["I", "i"].map((name) => ({ name, meaning: { current: 0 } })) : []);

const loosen = ({ name, meaning }) => ({ name: swapCase(name), meaning });

const swapCase = (name) => (name[0] === name[0].toLowerCase() ? name[0].toUpperCase() : name[0].toLowerCase()) + name.slice(1);

// Two batteries of one number leave it open which is meant.
const onlyOnce = (forms) => forms.filter(({ name }) => forms.filter((other) => other.name === name).length === 1);

function withPattern({ name, meaning }) {
  const [letters, rest] = split(name);
  // On a phone a capital I, a small l and a bar look the same.
  const head = letters === "I" && rest ? "[Il|]" : letters;
  const gap = /^\d/.test(rest) ? " {0,2}_? {0,2}" : "_?";
  const foot = rest ? `${gap}(?:\\(${rest}\\)|${rest})` : "";
  const bare = rest ? `(?:${head}_\\(${rest}\\)|${head}${gap}${rest})` : letters;
  return { name, meaning, pattern: new RegExp(`${foot ? bare : letters}${/\d$/.test(name) ? "(?!\\d)" : "(?![\\d_])"}`, "y") };
}

/**
 * The longest name that begins at a place; among equals the one that comes first.
 * @returns {{meaning: Meaning, length: number} | null}
 */
export function readName(text, at, names) {
  let best = null;
  for (const { pattern, meaning } of names) {
    pattern.lastIndex = at;
    const length = pattern.exec(text)?.[0].length ?? 0;
    if (length > (best?.length ?? 0)) best = { meaning, length };
  }
  return best;
}

/** Whether r1 may be the internal resistance of a battery or the resistor R1. */
export const hasTwoInner = (text, circuit) => text.includes("r") && nameInner(circuit).some(({ name }) => nameParts(circuit).some((part) => swapCase(part.name) === name));
