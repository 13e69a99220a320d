/** Every section of a page that depends on a reader's choices, as trees. */

import { viewCurrents } from "./answers.mjs";
import { viewChecks } from "./checks.mjs";
import { viewRoute } from "./hand.mjs";
import { viewMatrix } from "./matrix.mjs";
import { say, tell } from "./saying.mjs";
import { viewDirections, viewEquations, viewJunctions, viewLoops } from "./setup.mjs";

/** For each section, by the id that lessons link to, its view; three of them need an answer. */
const VIEWS = {
  directions: viewDirections,
  junctions: viewJunctions,
  loops: viewLoops,
  equations: viewEquations,
  "by-hand": withAnswer(viewRoute),
  matrix: viewMatrix,
  currents: withAnswer(viewCurrents),
  checks: withAnswer(viewChecks),
};

export const SECTIONS = Object.keys(VIEWS);

/**
 * One section, to be put in place of the element with that `data-section`.
 * @param {string} id
 * @param {import("../laws/meaning.mjs").Worked} worked
 * @returns {import("./saying.mjs").Tree}
 */
export function viewSection(id, worked) {
  return ["div", { "data-section": id }, ...VIEWS[id](worked)];
}

/** A view that says why there is no answer, where the chosen loops do not decide every current. */
function withAnswer(view) {
  return (worked) => (worked.solution ? view(worked) : [["p", { class: "no-answer" }, ...tell("no_answer", sayMissing(worked))]]);
}

function sayMissing({ topology, written, loopSet }) {
  const unknowns = say("count.unknowns", { count: topology.branches.length });
  return { unknowns, equations: say("count.equations", { count: written.equations.length }), count: loopSet.missing };
}
