/** The sections of a page that depend on choices, written anew one after the other, each once and only where it differs. */

import { viewSection } from "../page/views.mjs";
import { patch } from "./patch.mjs";

export class Rewriting {
  #trees;
  #older;
  #newer;
  #left;
  #changed = [];

  /**
   * @param {Element[]} places the sections
   * @param {Map<string, import("../page/saying.mjs").Tree>} trees what each section shows, where that is known; kept up to date
   * @param {import("../laws/meaning.mjs").Worked} older what the page shows
   * @param {import("../laws/meaning.mjs").Worked} newer what it is to show
   */
  constructor(places, trees, older, newer) {
    this.#trees = trees;
    this.#older = older;
    this.#newer = newer;
    this.#left = places;
  }

  /** Write the sections that are not written yet, or those of them that are chosen. */
  write(isChosen = () => true) {
    const places = this.#left.filter(isChosen);
    this.#left = this.#left.filter((place) => !places.includes(place));
    for (const place of places) this.#writeSection(place);
  }

  /** The sections that have changed since this was last asked. */
  takeChanged() {
    return this.#changed.splice(0);
  }

  #writeSection(place) {
    const id = place.dataset.section;
    const older = this.#trees.get(id) ?? viewSection(id, this.#older);
    const newer = viewSection(id, this.#newer);
    this.#trees.set(id, newer);
    if (patch(place, older, newer)) this.#changed.push(id);
  }
}
