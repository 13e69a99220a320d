/** The example of its page, as its reader chose it, for a check. */

import { asChosen } from "../laws/as-chosen.mjs";
import { turnCurrent } from "../laws/circuit.mjs";
import { tellTurned } from "./choice-controls.mjs";
import { findExample } from "./page-state.mjs";

/**
 * @param {Element} element a check
 * @returns {Promise<import("./check-source.mjs").Source | null>} null where there is no example
 */
export async function findPageSource(element) {
  const live = await findExample(element);
  return live ? makePageSource(live) : null;
}

function makePageSource(live) {
  let known = {};
  const place = () => {
    const { worked, state } = live;
    const { topology, layout, units, written, isOwnSet } = worked;
    const isPrinted = isOwnSet || !(state.leaveOut || state.walk.length);
    if (known.worked !== worked) known = { worked, place: { example: isPrinted ? worked.example : asChosen(worked), flip: state.flip, topology, layout, units, equations: written.equations, base: "" } };
    return known.place;
  };
  return {
    isLesson: false,
    place,
    // What it means for a number is said beside the number: no glimpse of this sentence covers it.
    turn: (current) => {
      live.change({ flip: turnCurrent(live.state.flip, current) });
      live.announce(tellTurned(current, live.worked));
    },
    listen: (tell, signal) => {
      let told = live.worked;
      const onChange = ({ detail: { worked } }) => {
        if (worked === told) return;
        told = worked;
        tell();
      };
      live.addEventListener("example-change", onChange, { signal });
    },
  };
}
