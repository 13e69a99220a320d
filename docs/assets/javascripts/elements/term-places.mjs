/** Where the terms of the equations stand in a page: from an element of the text to its terms, and back. */

import { findEquation } from "../page/terms.mjs";

/**
 * The equation and the terms that an element of the text stands for; null where it stands for none.
 * @param {Element} element a row of a walk, or a `.term` of a formula
 * @param {import("../laws/circuit.mjs").Topology} topology
 * @returns {{equation: import("../laws/equation.mjs").Equation, terms: import("../laws/equation.mjs").Term[]} | null}
 */
export function termsAt(element, topology) {
  const place = element.closest("[data-section] :is(li[data-junction], .loop-walk[data-loop], tr[data-rule])");
  if (!place) return null;
  const { junction, loop, rule, origin } = place.dataset;
  const equation = findEquation(rule ?? (junction ? "junction" : "loop"), origin ?? junction ?? loop, topology);
  if (!equation) return null;
  const row = element.closest("table.walk tbody tr");
  if (row) return { equation, terms: [equation.terms[indexIn(row, row.parentElement.children)]] };
  const term = element.closest(".term");
  return term ? { equation, terms: termsOf(term, equation) } : null;
}

/** In an equation as it is walked every term stands for itself; where they are gathered, for all with its current. */
function termsOf(element, equation) {
  const shown = element.closest("math").querySelectorAll(".term");
  const written = equation.terms.filter((term) => !term.factor.isZero);
  const alike = written.filter((term) => term.current === (element.dataset.current ?? ""));
  const own = written[indexIn(element, shown)];
  return shown.length === written.length && alike.includes(own) ? [own] : alike;
}

const indexIn = (element, list) => [...list].indexOf(element);

/** Every row and every term of the text that stands for a term of this kind. */
export function placesOf(article, topology, isMeant) {
  const all = article.querySelectorAll("[data-section] :is(table.walk tbody tr, li[data-junction] .term, .loop-walk > .equation .term, tr[data-rule] .term)");
  return [...all].filter((element) => termsAt(element, topology)?.terms.some(isMeant));
}
