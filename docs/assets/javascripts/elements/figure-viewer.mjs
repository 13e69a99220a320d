/**
 * `<figure-viewer>`: a figure that can be opened full screen and enlarged, by pinch, by buttons and by keyboard.
 *
 * Without scripts its content stands as it is. With them a button follows the figure; it opens a dialog with a copy.
 */

const steps = 1.25;
const largest = 6;

/** The scale at which a figure fits into a room, never above twice its natural size. */
export function fitting(size, room) {
  return Math.min(room.width / size.width, room.height / size.height, 2);
}

/** A scale kept between the whole figure and the largest one. */
export function within(scale, least) {
  return Math.min(Math.max(scale, Math.min(least, 1)), largest);
}

/** How far from the middle of an arrow a tap still means it [CSS px]. */
const REACH = 24;

/** The current whose arrow a spot of the screen is nearest to; null where none is near. */
export function findNearArrow(figure, x, y) {
  const arrows = [...figure.querySelectorAll(".arrow")].map((arrow) => {
    const { left, top, width, height } = arrow.querySelector(".head").getBoundingClientRect();
    return { current: arrow.dataset.current, far: Math.hypot(x - left - width / 2, y - top - height / 2) };
  });
  const nearest = arrows.sort((one, other) => one.far - other.far)[0];
  return nearest && nearest.far <= REACH ? nearest.current : null;
}

function make(tag, attributes = {}, text = "") {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.textContent = text;
  return element;
}

export class FigureViewer extends (globalThis.HTMLElement ?? Object) {
  #abort;
  #pointers = new Map();
  #scale = 1;
  /** Whether the page has changed while it was open. */
  #moved = false;
  /** How far the one finger on it has moved [px]. */
  #far = 0;

  connectedCallback() {
    const figure = this.querySelector("svg");
    if (!figure || this.#abort) return;
    this.#abort = new AbortController();
    this.#forget(); // Loaded again, the page has it closed.
    this.size = { width: Number(figure.getAttribute("width")), height: Number(figure.getAttribute("height")) };
    this.opener = this.#button("Full screen", () => this.open());
    this.opener.classList.add("figure-open");
    this.dialog = this.#makeDialog(figure.getAttribute("aria-label") ?? "Circuit diagram");
    this.tools = make("div", { class: "figure-tools" });
    this.tools.append(this.opener);
    this.append(this.tools, this.dialog);
  }

  disconnectedCallback() {
    this.#abort?.abort();
    this.#abort = undefined;
    this.dialog?.remove();
    this.tools?.remove();
  }

  /** Show the figure as it is now, with all that is lit in it, as large as the screen allows. */
  open() {
    this.copy = this.querySelector(".figure-frame svg").cloneNode(true);
    this.stage.replaceChildren(this.copy);
    this.dialog.showModal();
    this.showWhole();
    this.stage.focus();
    // The section that the address named is left: closed, the figure would be far away.
    if (location.hash) history.replaceState(history.state, "", location.pathname + location.search);
    history.pushState({ ...history.state, full: true }, "");
    this.#moved = false;
  }

  /** The page behind has changed, and so does the copy, once what is lit there is lit again. */
  #follow() {
    if (!this.dialog.open) return;
    this.#moved = true;
    requestAnimationFrame(() => this.copy.replaceChildren(...this.querySelector(".figure-frame svg").cloneNode(true).childNodes));
  }

  #forget() {
    if (history.state?.full) history.replaceState({ ...history.state, full: undefined }, "");
  }

  /** Back closes it, and does no more. */
  #onHistory() {
    if (!history.state?.full) this.dialog.close();
  }

  /** An entry of the full screen that was closed by hand, after arrows were turned in it, looks like the one before: it is passed over. */
  #passOver({ navigationType, from }) {
    if (navigationType !== "traverse" || !history.state?.full || this.dialog.open) return;
    history.go(Math.sign(globalThis.navigation.currentEntry.index - from.index));
  }

  /** Scale the whole figure into the screen. */
  showWhole() {
    this.#setScale(this.#fit());
  }

  /** Enlarge by a factor about a spot of the stage, in px from its upper left corner; about its middle by default. */
  enlarge(factor, spot = { x: this.stage.clientWidth / 2, y: this.stage.clientHeight / 2 }) {
    const before = this.copy.getBoundingClientRect();
    const stage = this.stage.getBoundingClientRect();
    const share = { x: (stage.left + spot.x - before.left) / before.width, y: (stage.top + spot.y - before.top) / before.height };
    this.#setScale(this.#scale * factor);
    const after = this.copy.getBoundingClientRect();
    this.stage.scrollLeft += after.left + share.x * after.width - stage.left - spot.x;
    this.stage.scrollTop += after.top + share.y * after.height - stage.top - spot.y;
  }

  #setScale(scale) {
    this.#scale = within(scale, this.#fit());
    this.copy.setAttribute("width", String(Math.floor(this.size.width * this.#scale)));
    this.copy.setAttribute("height", String(Math.floor(this.size.height * this.#scale)));
    this.told.textContent = `${Math.round(100 * this.#scale)}\u00a0%`;
  }

  #fit() {
    return fitting(this.size, { width: this.stage.clientWidth - 4, height: this.stage.clientHeight - 4 });
  }

  #makeDialog(label) {
    const dialog = make("dialog", { class: "figure-dialog", "aria-label": label });
    const bar = make("div", { class: "figure-bar", role: "group", "aria-label": "Size of the figure" });
    this.told = make("output", { class: "figure-scale", "aria-label": "Size" });
    bar.append(
      this.#button("Smaller", () => this.enlarge(1 / steps)),
      this.told,
      this.#button("Larger", () => this.enlarge(steps)),
      this.#button("Whole", () => this.showWhole()),
      this.#button("Close", () => dialog.close()),
    );
    this.stage = make("div", { class: "figure-stage", tabindex: "0", role: "group", "aria-label": "The figure. Keys: plus, minus, 0 for the whole figure, arrows, Escape" });
    dialog.append(bar, this.stage);
    this.#listen(dialog, "keydown", (event) => this.#onKey(event));
    this.#listen(dialog, "close", () => this.#onClose());
    this.#listen(globalThis.window, "popstate", () => this.#onHistory());
    if (globalThis.navigation) this.#listen(globalThis.navigation, "currententrychange", (event) => this.#passOver(event));
    if (this.closest("article")) this.#listen(this.closest("article"), "example-change", () => this.#follow());
    this.#listen(globalThis.window, "resize", () => dialog.open && this.#setScale(this.#scale));
    this.#listen(this.stage, "wheel", (event) => this.#onWheel(event), { passive: false });
    this.#listen(this.stage, "pointerdown", (event) => this.#onDown(event));
    this.#listen(this.stage, "pointermove", (event) => this.#onMove(event));
    this.#listen(this.stage, "pointerup", (event) => this.#onUp(event));
    for (const end of ["pointerup", "pointercancel", "lostpointercapture"]) {
      this.#listen(this.stage, end, (event) => this.#pointers.delete(event.pointerId));
    }
    return dialog;
  }

  #button(text, action) {
    const button = make("button", { type: "button", class: "figure-button" }, text);
    this.#listen(button, "click", action);
    return button;
  }

  #listen(target, kind, action, options = {}) {
    target.addEventListener(kind, action, { ...options, signal: this.#abort.signal });
  }

  #onClose() {
    this.#pointers.clear();
    this.opener.focus();
    if (this.#moved) this.#forget();
    else if (history.state?.full) history.back();
  }

  #onKey(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const actions = { "+": () => this.enlarge(steps), "=": () => this.enlarge(steps), "-": () => this.enlarge(1 / steps), 0: () => this.showWhole() };
    const action = actions[event.key];
    event.stopPropagation(); // The page's own keys mean nothing while the dialog is open.
    if (!action) return;
    event.preventDefault();
    action();
  }

  /** Two fingers on a touch pad arrive as a wheel with the control key. */
  #onWheel(event) {
    if (!event.ctrlKey) return;
    event.preventDefault();
    this.enlarge(Math.exp(-event.deltaY / 200), this.#onStage(event));
  }

  #onDown(event) {
    this.#pointers.set(event.pointerId, this.#onStage(event));
    this.#far = this.#pointers.size > 1 ? Infinity : 0;
    this.stage.setPointerCapture(event.pointerId);
  }

  /** A tap near an arrow turns it on the page, as it would there. */
  #onUp({ clientX, clientY }) {
    const near = this.#far > 8 ? null : findNearArrow(this.copy, clientX, clientY);
    if (near) this.querySelector(`.figure-frame .arrow[data-current="${CSS.escape(near)}"] .head`).dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true }));
  }

  /** One pointer drags; two enlarge by how far they move apart, and drag with their middle. */
  #onMove(event) {
    const before = this.#pointers.get(event.pointerId);
    if (!before) return;
    const here = this.#onStage(event);
    const other = [...this.#pointers].find(([id]) => id !== event.pointerId)?.[1];
    this.#pointers.set(event.pointerId, here);
    this.#far += Math.hypot(here.x - before.x, here.y - before.y);
    const part = other ? 2 : 1;
    this.stage.scrollLeft -= (here.x - before.x) / part;
    this.stage.scrollTop -= (here.y - before.y) / part;
    if (!other) return;
    const apart = (spot) => Math.max(Math.hypot(spot.x - other.x, spot.y - other.y), 1);
    this.enlarge(apart(here) / apart(before), { x: (here.x + other.x) / 2, y: (here.y + other.y) / 2 });
  }

  #onStage(event) {
    const { left, top } = this.stage.getBoundingClientRect();
    return { x: event.clientX - left, y: event.clientY - top };
  }
}
