/** One coherent choice of units for all equations of a page. Mirrors laws/units.py. */

import { fraction } from "./fraction.mjs";

const CHOICES = [
  ["V", "Ω", "A", "W"],
  ["V", "kΩ", "mA", "mW"],
  ["V", "MΩ", "µA", "µW"],
  ["mV", "Ω", "mA", "µW"],
];

const PREFIXES = { k: fraction(1000), M: fraction(10 ** 6), m: fraction(1, 1000), µ: fraction(1, 10 ** 6) };

/**
 * The units of a page with their sizes in SI units.
 * @param {{voltage: string, resistance: string, current: string}} said the `units` of the example
 * @returns {{voltage: string, resistance: string, current: string, power: string, size: Record<string, import("./fraction.mjs").Fraction>}}
 */
export function readUnits({ voltage, resistance, current }) {
  const symbols = CHOICES.find((choice) => choice.slice(0, 3).join() === [voltage, resistance, current].join());
  const size = Object.fromEntries(symbols.map((symbol) => [symbol, symbol.length > 1 ? PREFIXES[symbol[0]] : fraction(1)]));
  return { voltage, resistance, current, power: symbols[3], size };
}

/** A value [SI unit] in one of the page's units. */
export const toUnits = (value, unit, units) => value.over(units.size[unit]);
