/**
 * The laws of a circuit written a second way, straight from the object of `solve --json`, and every single slip in them.
 *
 * Nothing here is shared with the check engine but exact fractions, so that a mistake in its rows shows.
 * An equation is a list of terms, in SI units: {part, current (empty for an emf), factor}; their sum is zero.
 */
import { fraction, ONE, parse, ZERO } from "../../docs/assets/javascripts/laws/fraction.mjs";

const TWO = fraction(2n);

/** Every junction and every closed walk that passes no place twice, in the student's directions. */
export function writeLaws(example, flip = []) {
  const branches = example.branches.map((branch) => (flip.includes(branch.current) ? turn(branch) : branch));
  return [...example.junctions.map((junction) => writeJunction(junction, branches)), ...findCycles(branches).map((cycle) => writeLoop(cycle, example))];
}

const turn = (branch) => ({ current: branch.current, from: branch.to, to: branch.from, parts: [...branch.parts].reverse(), forward: [...branch.forward].reverse().map((way) => !way) });

function writeJunction({ name }, branches) {
  const ends = branches.flatMap(({ current, from, to }) => [...(to === name ? [[current, ONE]] : []), ...(from === name ? [[current, ONE.negated()]] : [])]);
  const loose = branches.filter(({ from, to }) => from === to).map(({ current }) => current);
  return { rule: "junction", parts: [], terms: ends.filter(([current]) => !loose.includes(current)).map(([current, factor]) => ({ part: null, current, factor })), origin: name };
}

/** Closed walks found by going on from the lowest branch, never to a place twice. */
function findCycles(branches) {
  const found = [];
  const goOn = (walk, here, seen) => {
    if (here === walk[0].start) return void found.push(walk);
    if (seen.has(here)) return;
    branches.forEach((branch, at) => {
      if (at <= walk[0].at || walk.some((step) => step.at === at)) return;
      if (branch.from === here) goOn([...walk, { at, branch, along: true }], branch.to, new Set([...seen, here]));
      else if (branch.to === here) goOn([...walk, { at, branch, along: false }], branch.from, new Set([...seen, here]));
    });
  };
  branches.forEach((branch, at) => goOn([{ at, branch, along: true, start: branch.from }], branch.to, new Set()));
  return found;
}

function writeLoop(cycle, example) {
  const steps = cycle.flatMap(({ branch, along }) => branch.parts.map((part, at) => ({ part, current: branch.current, along, forward: branch.forward[at] === along })));
  const parts = steps.map(({ part }) => part);
  const known = example.loops.find(({ walk }) => walk.length === parts.length && walk.every((part) => parts.includes(part)));
  return { rule: "loop", parts, terms: steps.flatMap((step) => writeStep(step, example.parts[step.part])), origin: known?.name ?? null };
}

function writeStep({ part, current, along, forward }, { kind, value, internal_resistance: inner }) {
  const resistance = parse((kind === "battery" ? inner : value) ?? "0");
  const drop = { part, current, factor: along ? resistance.negated() : resistance };
  const rise = kind === "battery" ? [{ part, current: "", factor: forward ? parse(value) : parse(value).negated() }] : [];
  return [...rise, drop].filter(({ factor }) => !factor.isZero);
}

/**
 * Every single slip in one law; `anyValue` also one with a value that no part of the circuit has.
 * @returns {{kind: string, part: string | null, current: string | null, terms: object[]}[]}
 */
export function makeSlips(law, laws, example, { anyValue = true } = {}) {
  const { terms } = law;
  const replaced = (term, ...others) => terms.flatMap((each) => (each === term ? others : [each]));
  const signs = terms.map((term) => ({ kind: term.current ? "sign" : "emf sign", ...told(term), terms: replaced(term, { ...term, factor: term.factor.negated() }) }));
  const names = law.rule === "junction" ? [] : [...new Set(terms.map(({ part }) => part))];
  const missing = names.length
    ? names.map((part) => ({ kind: "missing", part, current: null, terms: terms.filter((term) => term.part !== part) }))
    : terms.map((term) => ({ kind: "missing", ...told(term), terms: replaced(term) }));
  const values = terms.filter(() => law.rule === "loop").flatMap((term) => listValues(term, example, anyValue).map((value) => ({
    kind: "value", ...told(term), terms: replaced(term, { ...term, factor: term.factor.isNegative ? value.negated() : value }),
  })));
  return [...signs, ...missing, ...values, ...makeExtras(law, laws, example)];
}

const told = ({ part, current }) => ({ part, current: current || null });

/** The values of other parts, a wrong prefix; where any will do also the double, and one that is nobody's. */
function listValues({ current, factor, part }, example, anyValue) {
  const size = factor.size();
  const others = Object.entries(example.parts).filter(([name, { kind }]) => name !== part && kind !== "capacitor").map(([, other]) => (current ? (other.kind === "battery" ? other.internal_resistance : other.value) : other.kind === "battery" ? other.value : null));
  const resistive = others.filter((value) => value !== null && value !== "0").map(parse);
  const wrong = [...resistive, size.times(fraction(1000n)), size.over(fraction(1000n)), ...(anyValue ? [size.times(TWO), size.times(fraction(7n, 10n))] : [])];
  const texts = new Map(wrong.filter((value) => !value.equals(size)).map((value) => [value.toString(), value]));
  return [...texts.values()];
}

function makeExtras(law, laws, example) {
  if (law.rule === "junction") {
    const here = new Set(law.terms.map(({ current }) => current));
    return example.unknowns.filter((current) => !here.has(current)).flatMap((current) => [ONE, ONE.negated()].map((factor) => ({
      kind: "extra", part: null, current, terms: [...law.terms, { part: null, current, factor }],
    })));
  }
  const others = laws.filter(({ rule }) => rule === "loop").flatMap(({ terms }) => terms).filter(({ part }) => !law.parts.includes(part));
  const each = new Map(others.map((term) => [term.part, others.filter(({ part }) => part === term.part)]));
  return [...each].flatMap(([part, all]) => {
    const once = all.filter((term, at) => all.findIndex(({ current }) => current === term.current) === at);
    const turned = once.map((term) => ({ ...term, factor: term.factor.negated() }));
    return [once, turned].map((more) => ({ kind: "extra", part, current: null, terms: [...law.terms, ...more] }));
  });
}

/** Whether the terms come to zero with the currents of the example. */
export function isTrue(terms, currents) {
  return terms.reduce((sum, { current, factor }) => sum.plus(current ? factor.times(currents[current]) : factor), ZERO).isZero;
}

/** The answer in the student's directions. */
export function answerOf(example, flip = []) {
  return Object.fromEntries(example.currents.map(({ name, exact }) => [name, flip.includes(name) ? parse(exact).negated() : parse(exact)]));
}
