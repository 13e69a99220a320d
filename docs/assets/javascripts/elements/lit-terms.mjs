/**
 * `<lit-terms>`: what is tapped lights up. A term lights its part, its arrow and its loop in the figure, and a sentence
 * beside it says why it has its sign; a part of the figure marks its terms in every equation and lists them.
 *
 * By keyboard: the name of each row of a walk is a button, one stop of the tab key for a table, with the arrow keys
 * between them; a list under the figure chooses a part.
 */

import { setName, setText } from "../page/prose.mjs";
import { say, tell } from "../page/saying.mjs";
import { lightOf, tellTerm } from "../page/terms.mjs";
import { loopWords } from "../page/words.mjs";
import { build } from "./build.mjs";
import { bringIntoRoom } from "./clear-view.mjs";
import { setLight, showLight } from "./light.mjs";
import { findExample } from "./page-state.mjs";
import { placesOf, termsAt } from "./term-places.mjs";
import { openToKeys } from "./wide-formulas.mjs";

const ownUse = "a, button:not(.term-key), summary, input, select, label, textarea, form, dialog";
// A name in a row of a walk stands for its row, however the words break there.
const tappable = "table.walk tbody tr, .term, .name:not(table.walk *), .figure-frame :is([data-part], .loop)";

export class LitTerms extends (globalThis.HTMLElement ?? Object) {
  #abort;
  #tapped = null;
  #measuring;
  /** What is lit again since the page changed is not said again. */
  #isSilent = false;

  async connectedCallback() {
    this.#abort = new AbortController();
    const { signal } = this.#abort;
    this.example = await findExample(this);
    if (signal.aborted || !this.example) return;
    this.article = this.closest("article");
    this.#fill();
    this.article.addEventListener("click", (event) => this.#onClick(event), { signal });
    this.article.addEventListener("keydown", (event) => this.#onKey(event), { signal });
    this.article.addEventListener("example-change", () => this.#renew(), { signal });
    document.addEventListener("keydown", (event) => event.key === "Escape" && !event.defaultPrevented && this.#putOut(), { signal });
    addEventListener("resize", () => this.#openFormulas(), { signal });
    for (const kind of ["toggle", "contentvisibilityautostatechange"]) this.article.addEventListener(kind, () => this.#openFormulas(), { signal, capture: true });
    this.#setKeys();
    this.#openFormulas();
  }

  disconnectedCallback() {
    this.#abort?.abort();
    this.note?.remove();
  }

  get topology() {
    return this.example.worked.topology;
  }

  /** Nothing that was tapped is lit any more. */
  end() {
    if (!this.#tapped) return;
    this.#tapped = null;
    this.note.remove();
    this.list.replaceChildren(say("light.hint"));
    this.chooser.value = "";
    setLight(this.article, "tap", null);
    this.#showPressed();
  }

  /** The reader wants nothing lit any more. */
  #putOut() {
    if (!this.#tapped) return;
    this.end();
    this.example.announce(say("light.off"));
  }

  /** Light the terms that stand at a place of the text, and say why they have their signs. */
  lightTerms(place, { equation, terms }) {
    const says = terms.map((term) => tellTerm(equation, term, this.topology));
    this.#begin(place, { ...lightOf(equation, terms), marks: [place] }, says.flatMap((each, at) => (at ? [" ", ...each] : each)));
  }

  /** Light a part of the figure, mark its terms in every equation and list them under the figure. */
  lightPart(name, place = this.list) {
    const marks = placesOf(this.article, this.topology, (term) => term.origin === name);
    const rows = marks.filter((mark) => mark.matches("tr") && !isOpenField(mark));
    const part = setName(name, "part");
    this.#begin(place, { part: [name], marks }, place === this.list ? null : tell("light.lit", { name: part }));
    const heading = build(["p", {}, ...tell(rows.length ? "light.terms" : "light.no_terms", { part })]);
    const items = build(["ul", {}, ...rows.map(() => ["li", {}])]);
    [...items.children].forEach((item, at) => item.append(...listRow(rows[at])));
    this.list.replaceChildren(heading, ...(rows.length ? [items] : []));
    this.chooser.value = name;
    if (place === this.list) this.#say(tell(rows.length ? "light.marked" : "light.no_terms", { part, ...(rows.length ? { count: rows.length } : {}) }));
  }

  /** Light the whole walk of a loop, of the set or of the others, and its ring where it has one. */
  lightLoop(name, place) {
    const found = [...this.topology.loops, ...this.example.worked.all].find((each) => each.name === name);
    if (!found) return this.end();
    const isRing = place.matches(".loop");
    const light = { loop: [name], part: found.steps.map((step) => step.part.name), steps: found.steps };
    this.#begin(place, light, isRing ? null : tell("light.lit", { name: setName(name, "loop") }));
    if (!isRing) return;
    const says = [...setText(`${name}: ${loopWords(found, this.example.worked.layout)}`, this.topology), "."];
    this.list.replaceChildren(build(["p", {}, ...says]));
    this.#say(says);
  }

  /** Light the arrow of a current and mark its terms. */
  lightCurrent(name, place) {
    const branch = this.topology.branches.find((each) => each.current === name);
    if (!branch) return;
    const marks = [...this.article.querySelectorAll("[data-section] .term")].filter((term) => term.dataset.current === name);
    const parts = branch.steps.flatMap((step, at) => [...(at ? [", "] : []), setName(step.part.name, "part")]);
    this.#begin(place, { current: [name], marks }, tell("light.current", { current: setName(name, "current"), parts }));
  }

  #fill() {
    const parts = Object.keys(this.example.printed.parts);
    this.chooser = this.querySelector("select");
    this.chooser.replaceChildren(new Option(say("light.nothing"), ""), ...parts.map((name) => new Option(name, name)));
    this.chooser.addEventListener("change", () => (this.chooser.value ? this.lightPart(this.chooser.value) : this.#putOut()), { signal: this.#abort.signal });
    this.list = this.querySelector(".light-list");
    this.note = build(["div", { class: "light-note" }]);
  }

  #begin(place, light, says) {
    this.end();
    this.#tapped = { place, light };
    setLight(this.article, "tap", light);
    this.#showPressed();
    if (!says) return;
    this.note.replaceChildren(build(["p", {}, ...says]));
    this.#offerPin();
    besides(place).after(this.note);
    this.#say(says);
  }

  /** Where the figure is out of sight the note offers to pin it. */
  #offerPin() {
    const pin = this.article.querySelector("figure-pin");
    if (!pin || pin.isPinned || pin.isInSight) return;
    const button = build(["button", { type: "button", class: "figure-button" }, say("pin.pin")]);
    button.addEventListener("click", () => {
      pin.pinByHand(true);
      button.remove();
      bringIntoRoom(this.note);
    });
    this.note.append(button);
  }

  #onClick(event) {
    if (event.target.closest("[data-do=again]")) return this.end();
    const key = event.target.closest(".term-key");
    if (event.defaultPrevented || (!key && event.target.closest(ownUse)) || event.target.closest("lit-terms, .light-note")) return;
    const place = (key ?? event.target).closest(tappable);
    const again = place && (place === this.#tapped?.place || (place.closest(".figure-frame") && place.dataset.part === this.chooser.value));
    if (!place || again || getSelection()?.toString()) return this.#putOut();
    this.#tap(key?.closest("tr") ?? place);
  }

  #tap(place) {
    const { part, current, loop } = place.dataset;
    const found = !isOpenField(place) && termsAt(place, this.topology);
    if (found) return this.lightTerms(place, found);
    if (loop) return this.lightLoop(loop, place);
    if (place.closest(".figure-frame")) return this.lightPart(part);
    if (part && this.topology.part[part]) return this.lightPart(part, place);
    if (current) return this.lightCurrent(current, place);
    return this.end();
  }

  /** The name of each row of a walk becomes a button. */
  #setKeys() {
    for (const table of this.article.querySelectorAll("table.walk")) {
      if (table.querySelector(".term-key")) continue;
      [...table.tBodies[0].rows].forEach((row, at) => {
        const key = build(["button", { type: "button", class: "term-key", "aria-pressed": "false", tabindex: at ? "-1" : "0" }]);
        key.append(...row.cells[0].childNodes);
        row.cells[0].append(key);
      });
    }
  }

  /** Measured when the page has been painted, so that no change waits for it. */
  #openFormulas() {
    clearTimeout(this.#measuring);
    this.#measuring = setTimeout(() => this.isConnected && openToKeys(this.article), 100);
  }

  #showPressed() {
    for (const key of this.article.querySelectorAll(".term-key")) {
      key.setAttribute("aria-pressed", String(key.closest("tr").classList.contains("lit")));
    }
  }

  #onKey(event) {
    const key = event.target.closest(".term-key");
    const keys = key ? [...key.closest("tbody").querySelectorAll(".term-key")].filter((each) => each.checkVisibility()) : [];
    const at = keys.indexOf(key);
    const next = { ArrowDown: keys[at + 1], ArrowUp: keys[at - 1], Home: keys[0], End: keys.at(-1) }[event.key];
    if (!next) return;
    event.preventDefault();
    for (const each of keys) each.tabIndex = each === next ? 0 : -1;
    next.focus();
  }

  /** What was listed of a part or a loop is listed anew: signs, values and loops may be others now. */
  #lightAgain(place) {
    const part = this.chooser.value;
    this.#isSilent = true;
    if (part) this.lightPart(part, place);
    else if (place.matches(".loop")) this.lightLoop(place.dataset.loop, place);
    this.#isSilent = false;
  }

  #say(says) {
    if (!this.#isSilent) this.example.announce(says);
  }

  /** After a change the sections are new: what was tapped in them is gone, buttons are set again. */
  #renew() {
    const { place } = this.#tapped ?? {};
    if (place && !place.isConnected) this.end();
    else if (place) this.#lightAgain(place);
    this.#setKeys();
    this.#openFormulas();
    showLight(this.article);
  }
}

/** The element after which a note about a place stands: never inside a table or a formula. */
function besides(place) {
  return place.closest(".table-frame, .equation, li, p, h3") ?? place;
}

/** A row that is still to be filled in: to say why its term has its sign would give it away. */
const isOpenField = (row) => Boolean(row.querySelector(".your-term"));

/** One row of a walk, as a line of a list with a link to its loop. */
function listRow(row) {
  const loop = row.closest(".loop-walk");
  const [, why, term] = row.cells;
  const link = build(["a", { href: `#${loop.getAttribute("aria-labelledby")}` }]);
  link.append(...loop.querySelector("h3 .name").cloneNode(true).childNodes);
  return [link, ": ", ...term.cloneNode(true).childNodes, ", ", ...why.cloneNode(true).childNodes];
}
