/** A sentence that is said out of sight, shown for a moment at the end of the screen where the hand is not. */

import { build } from "./build.mjs";
import { freeRoom } from "./clear-view.mjs";
import { isSeen } from "./hold-still.mjs";

const gap = 8;
let hand = 0;
globalThis.addEventListener?.("pointerdown", ({ clientY }) => (hand = clientY), { capture: true, passive: true });

/**
 * Shows what an element says, where that cannot be seen. For the eye only: the element itself speaks to a screen reader.
 * Whoever goes by keyboard is not shown it, since it might cover what has the focus.
 * @param {Element} status
 * @returns {Element | undefined} what has to be taken away again
 */
export function glimpse(status) {
  if (isSeen(status) || document.activeElement?.matches(":focus-visible")) return undefined;
  const note = build(["p", { class: "glimpse", "aria-hidden": "true" }]);
  note.append(...[...status.childNodes].map((each) => each.cloneNode(true)));
  const { top, bottom } = freeRoom();
  if (hand > innerHeight / 2) note.style.top = `${top + gap}px`;
  else note.style.bottom = `${innerHeight - bottom + gap}px`;
  status.closest("article").append(note);
  return note;
}
