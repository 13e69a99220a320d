/** Who comes back to an example by a link, in the tab in which they worked on it, may go on where they stopped. */

import { say, tell } from "../page/saying.mjs";

/** Whose the work is; a tab that is closed forgets it. */
const nameOfWork = () => `work ${location.pathname}`;

/** Whether anything was typed or filled in; that a panel was open is no work. */
const isWork = (typed = {}) => Object.entries(typed).some(([name, value]) => value && name !== "loop-chooser");

/**
 * Keep the work when the page is left, with what was chosen; offer it where a page is opened without any.
 * @param {import("./live-example.mjs").LiveExample} example
 * @param {AbortSignal} signal
 * @returns {import("../page/saying.mjs").Tree[]} the offer; empty where there is nothing to go on with
 */
export function offerToGoOn(example, signal) {
  addEventListener("pagehide", keep, { signal });
  const kept = isWork(history.state?.typed) ? null : read();
  if (!kept) return [];
  example.addEventListener("click", (event) => event.target.closest(".go-on") && goOn(event, kept), { signal });
  return tell("live.worked", { link: ["a", { href: location.pathname + kept.search, class: "go-on" }, say("live.go_on")] });
}

function keep() {
  const { typed } = history.state ?? {};
  try {
    if (isWork(typed)) sessionStorage.setItem(nameOfWork(), JSON.stringify({ typed, search: location.search }));
  } catch {
    // A browser that lets nothing be kept.
  }
}

function read() {
  try {
    return JSON.parse(sessionStorage.getItem(nameOfWork()));
  } catch {
    return null;
  }
}

/** The same page anew, with what was typed as if it had never been left. */
function goOn(event, { typed, search }) {
  event.preventDefault();
  history.replaceState({ ...history.state, typed }, "", location.pathname + search);
  location.reload();
}
