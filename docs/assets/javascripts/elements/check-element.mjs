/** What both checks share: a form with its verdict, the laws fetched when they are needed, the verdict brought into view. */

import { say } from "../page/check-saying.mjs";
import { build } from "./build.mjs";
import { findSource } from "./check-source.mjs";
import { keepTyped, keptOf } from "./typed.mjs";

/** Browsers let the history be written a hundred times in half a minute: so often for each form and letter at once, then in pauses [ms]. */
const [MOST, WHILE, PAUSE] = [30, 30000, 400];

/** Idle time for one more piece of work [ms]. */
const ENOUGH = 15;

let made = 0;

export class CheckElement extends (globalThis.HTMLElement ?? Object) {
  #abort;
  #pause;
  #written = [];

  async connectedCallback() {
    this.#abort = new AbortController();
    const { signal } = this.#abort;
    this.source ??= await findSource(this);
    if (signal.aborted || !this.source) return;
    made += 1;
    this.stem = `check-${made}`;
    this.replaceChildren(...this.view(this.source.place()).map((tree) => build(tree)));
    this.form = this.querySelector("form");
    this.form.addEventListener("submit", (event) => this.#submit(event), { signal });
    this.form.addEventListener("focusin", () => this.#prepare(), { signal, once: true });
    this.source.listen(() => this.follow(), signal);
    this.start(signal);
    this.#keepTyped(signal);
  }

  disconnectedCallback() {
    this.#abort?.abort();
    clearTimeout(this.#pause);
  }

  /** The verdict of the form, for the eye and for a screen reader. */
  get status() {
    return this.form.querySelector("[role=status]");
  }

  /**
   * Say the verdict, and bring it into view, above a keyboard too.
   * @param {import("../page/saying.mjs").Tree[]} trees
   * @param {string[]} [faulty] the fields that it is about
   */
  tell(trees, faulty = []) {
    for (const input of this.form.querySelectorAll("input")) {
      if (faulty.includes(input.name)) input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
    }
    this.status.replaceChildren(...trees.map((tree) => build(tree)));
    if (trees.length) bringIntoView(this.status);
  }

  /** Take back a verdict that is old. */
  forget() {
    this.tell([]);
  }

  /**
   * Bring back what was typed; keep it with every letter, since a page that is left has no time to, and when another entry
   * of the history is the present one. A form in which nothing was typed yet takes what that entry has.
   */
  #keepTyped(signal) {
    this.own = `${this.localName} ${[...document.querySelectorAll(this.localName)].indexOf(this)}`;
    const bringBack = () => {
      const kept = keptOf(this.own);
      if (kept) this.typed = kept;
      return Boolean(kept);
    };
    let isTheirs = bringBack();
    const keepTheirs = () => {
      isTheirs = true;
      this.#keepSoon();
    };
    this.form.addEventListener("input", keepTheirs, { signal });
    this.form.addEventListener("change", () => this.keep(), { signal });
    addEventListener("popstate", () => (isTheirs ? this.keep() : (isTheirs = bringBack())), { signal });
  }

  #keepSoon() {
    clearTimeout(this.#pause);
    this.#written = this.#written.filter((time) => time > performance.now() - WHILE);
    if (this.#written.length < MOST) this.keep();
    else this.#pause = setTimeout(() => this.keep(), PAUSE);
  }

  keep() {
    clearTimeout(this.#pause);
    this.#written.push(performance.now());
    keepTyped(this.own, this.typed);
  }

  /** Fetch the laws and write them down for this circuit while the student types, piece by piece between two keys. */
  async #prepare() {
    const laws = await this.fetchLaws().catch(() => null);
    const whenIdle = globalThis.requestIdleCallback ?? setTimeout;
    const work = laws?.prepare(this.source.place());
    const goOn = (idle) => {
      do if (work.next().done) return;
      while (idle?.timeRemaining?.() > ENOUGH);
      whenIdle(goOn);
    };
    if (work) whenIdle(goOn);
  }

  async #submit(event) {
    event.preventDefault();
    try {
      this.check(await this.fetchLaws());
      this.keep();
    } catch (error) {
      this.tell([["p", {}, say("check.failed")]]);
      throw error;
    }
  }
}

/** The head of a check: a heading on the page of its example, a plain line in a lesson. */
export function viewTitle(key, id, isLesson) {
  return isLesson ? ["p", { class: "check-title" }, say(key)] : ["h3", { id }, say(key)];
}

/** Scroll as little as shows all of an element between what stands at the top and the keyboard, or else its top. */
export function bringIntoView(element) {
  const { offsetTop, height } = globalThis.visualViewport ?? { offsetTop: 0, height: innerHeight };
  const header = document.querySelector(".md-header")?.getBoundingClientRect().bottom ?? 0;
  const pinned = Number.parseFloat(document.documentElement.style.scrollPaddingTop) || 0;
  const below = element.getBoundingClientRect().bottom - (offsetTop + height) + 8;
  if (below > 0) scrollBy(0, below);
  const above = Math.max(offsetTop, header, pinned) - element.getBoundingClientRect().top + 8;
  if (above > 0) scrollBy(0, -above);
}
