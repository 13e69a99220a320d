/** Writing a plan by hand down line by line, each line only when something needs it. Mirrors the Writer of by_hand.py. */

import { Fraction, fraction, total, ZERO } from "./fraction.mjs";
import { ancestry, openIn } from "./hand-rows.mjs";

/**
 * Every line up to the last asked current.
 * @returns {import("./by-hand.mjs").Line[]}
 */
export function writeLines(set, plan, asked) {
  return new Writer(set, plan).lines(asked);
}

class Writer {
  written = [];

  /** The line of each expression (by its current), each row, and each value (by "value " and its current). */
  numberOf = new Map();
  values = new Map();

  constructor(set, plan) {
    this.set = set;
    this.plan = plan;
  }

  lines(asked) {
    const { rows, way, target } = this.plan;
    for (const { row } of rows) if (way.rows.includes(row)) this.expressFor(row);
    for (const row of way.rows) this.writeRow(row);
    this.findFrom(way.last, target);
    for (const current of asked) this.find(current);
    return this.written;
  }

  add(key, action, said) {
    const number = this.set.equations.length + this.written.length + 1;
    this.numberOf.set(key, number);
    this.written.push({ number, action, multipliers: [], current: "", scale: fraction(1), ...said });
  }

  /** The loop equation a first row comes from, with its number in the set counted from 0. */
  loopOf(row) {
    const { number } = this.plan.rows.find((each) => each.row === row);
    return { number, currents: [...this.set.equations[number].factors.keys()] };
  }

  expressFor(row) {
    for (const current of this.loopOf(row).currents) this.express(current);
  }

  /** Writes one current with kept ones, helpers first. */
  express(current) {
    const made = this.plan.expressions.find((each) => each.current === current);
    if (!made || this.numberOf.has(current)) return;
    for (const helper of made.helpers) this.express(helper);
    const form = this.plan.forms.get(current);
    const uses = [made.equation + 1, ...made.helpers.map((helper) => this.numberOf.get(helper))];
    const terms = this.set.unknowns.filter((each) => form.get(each)).map((each) => [each, fraction(form.get(each))]);
    this.add(current, "express", { uses, current, terms, right: ZERO });
  }

  /** Writes a row with kept currents, from a loop or from two rows. */
  writeRow(row) {
    if (this.numberOf.has(row)) return;
    const terms = this.plan.kept.map((current, at) => [current, fraction(row.factors[at])]).filter(([, factor]) => !factor.isZero);
    const scale = row.scale instanceof Fraction ? row.scale : fraction(row.scale);
    const said = { terms, right: fraction(row.right), scale: scale.size() };
    if (row.parents.length) {
      const multipliers = row.multipliers.map((multiplier) => (scale.isNegative ? -BigInt(multiplier) : BigInt(multiplier)));
      this.add(row, "combine", { uses: row.parents.map((parent) => this.numberOf.get(parent)), multipliers, ...said });
      return;
    }
    this.expressFor(row);
    const { number, currents } = this.loopOf(row);
    const helpers = currents.filter((current) => this.numberOf.has(current)).map((current) => this.numberOf.get(current));
    this.add(row, "insert", { uses: [number + 1, ...helpers], isTurned: scale.isNegative, ...said });
  }

  /** Finds one current, with whatever must be found before it. */
  find(current) {
    if (this.values.has(current)) return;
    const { kept, forms, way } = this.plan;
    if (!kept.includes(current)) {
      this.express(current);
      const form = [...forms.get(current)];
      for (const [each] of form) this.find(each);
      const value = total(form.map(([each, share]) => fraction(share).times(this.values.get(each))));
      this.conclude(current, value, [this.numberOf.get(current), ...this.found(form.map(([each]) => each))]);
      return;
    }
    const [column, row] = way.pivots.find(([at]) => kept[at] === current);
    for (const needed of ancestry(row)) this.writeRow(needed);
    this.findFrom(row, column);
  }

  /** Finds a kept current from a row, the others in it first. */
  findFrom(row, column) {
    const { kept } = this.plan;
    const others = openIn(row, new Set([column]));
    for (const other of others) this.find(kept[other]);
    const known = total(others.map((other) => fraction(row.factors[other]).times(this.values.get(kept[other]))));
    const value = fraction(row.right).minus(known).over(fraction(row.factors[column]));
    this.conclude(kept[column], value, [this.numberOf.get(row), ...this.found(others.map((other) => kept[other]))]);
  }

  /** The lines in which currents were found. */
  found(currents) {
    return currents.map((current) => this.numberOf.get(`value ${current}`));
  }

  /** Writes down the value of a current. */
  conclude(current, value, uses) {
    this.values.set(current, value);
    this.add(`value ${current}`, "find", { uses, current, terms: [], right: value });
  }
}
