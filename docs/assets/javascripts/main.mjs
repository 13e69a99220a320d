// Brings every element of the site to life, each when its time has come. This is the only script that the pages load
// themselves: who only reads a page fetches hardly more than this.

/** What stands further down, or on few pages: fetched when a reader comes near it. */
const whenNear = {
  "figure-viewer": async () => (await import("./elements/figure-viewer.mjs")).FigureViewer,
  "example-filter": async () => (await import("./elements/example-filter.mjs")).ExampleFilter,
  "loop-chooser": async () => (await import("./elements/loop-chooser.mjs")).LoopChooser,
  "check-equation": async () => (await import("./elements/check-equation.mjs")).CheckEquation,
  "check-numbers": async () => (await import("./elements/check-numbers.mjs")).CheckNumbers,
};

/** Which of these work with the page: they wait for what works it, and who begins to read far down has given no sign yet. */
const WORKING = ["loop-chooser", "check-equation", "check-numbers"];

/** The modes of reading: fetched when a reader, or the address, asks for one. Each has its key in the address. */
const whenAsked = {
  "step-reader": { key: "step", fetch: async () => (await import("./elements/step-reader.mjs")).StepReader },
  "fading-help": { key: "help", fetch: async () => (await import("./elements/fading.mjs")).FadingHelp },
};

/** What tells that somebody is about to work with the page. */
const SIGNS = ["scroll", "pointerdown", "pointermove", "keydown", "focusin"];

/** Whoever stays so long reads on, perhaps with a screen reader, which gives no sign [ms]. */
const PATIENCE = 4000;

/** How soon a page that was loaded anew in vain may be so again [ms]. */
const ANEW_AFTER = 4000;

/** Where a tap means something to an element that may not be there yet. */
const ANSWERING = "live-example, step-reader, fading-help, [data-set], .figure-frame, .term, .name, table.walk";

const define = (name, element) => customElements.get(name) ?? customElements.define(name, element);

async function bringNear({ target }) {
  watcher.unobserve(target);
  if (WORKING.includes(target.localName) && document.querySelector("live-example")) bringAlive();
  try {
    define(target.localName, await whenNear[target.localName]());
  } catch (error) {
    watcher.observe(target); // It comes near again.
    throw error;
  }
}

let alive;

/** Everything that works an example's page, once; where the network fails, the next tap tries again. */
function bringAlive() {
  alive ??= import("./alive.mjs").then(
    ({ working }) => {
      Object.entries(working).forEach((each) => define(...each));
      noteAnew(undefined);
    },
    (error) => {
      alive = undefined;
      throw error;
    },
  );
  return alive;
}

/** An entry of the history knows when its page was loaded anew [ms], so that a page that stays broken is not at every tap. */
function noteAnew(anew) {
  if (history.state?.anew !== anew) history.replaceState({ ...history.state, anew }, "");
}

/** Many browsers ask only once for a script while a page is open. Where the network is back, the page is loaded anew. */
async function loadAnew(error) {
  const isBack = await fetch(import.meta.url, { method: "HEAD", cache: "no-store" }).then(({ ok }) => ok, () => false);
  const now = Date.now();
  if (!isBack || now - (history.state?.anew ?? 0) < ANEW_AFTER) throw error;
  noteAnew(now);
  location.reload();
}

async function bringAsked(name) {
  if (name) define(name, await whenAsked[name].fetch());
  await new Promise((done) => setTimeout(done)); // An element begins to work when those it waits for are there.
}

/** Do something that takes its time; a place of the page says so until then. */
async function showWaiting(place, action) {
  place.setAttribute("aria-busy", "true");
  await action().finally(() => place.removeAttribute("aria-busy"));
}

/** A tap that came before the element that answers it waits for it, and is then made again. */
async function onClick(event) {
  const { target } = event;
  const place = target.closest(ANSWERING);
  const asked = Object.keys(whenAsked).find((name) => target.closest(name));
  if (!place || customElements.get(asked ?? "live-example")) return;
  await showWaiting(place, async () => {
    try {
      await bringAlive();
      await bringAsked(asked);
    } catch (error) {
      return loadAnew(error);
    }
    if (target.matches("[type=radio]")) target.click();
    else target.dispatchEvent(new MouseEvent("click", event));
  });
}

function onChange({ detail: { state } }) {
  for (const [name, { key }] of Object.entries(whenAsked)) {
    if (state[key] && !customElements.get(name)) showWaiting(document.querySelector(name), () => bringAsked(name));
  }
}

function waitForSign() {
  const waiting = new AbortController();
  const begin = () => {
    waiting.abort();
    bringAlive();
  };
  for (const sign of SIGNS) addEventListener(sign, begin, { signal: waiting.signal, passive: true });
  if (!navigator.connection?.saveData) setTimeout(begin, PATIENCE);
}

/** What was typed comes along to another place of the page, also where no form has read it yet. */
let { typed } = history.state ?? {};
addEventListener("popstate", () => {
  if (typed && !history.state?.typed) history.replaceState({ ...history.state, typed }, "");
  typed = history.state?.typed;
});

/** While the drawer lies over a page, the tab key reaches nothing behind it. */
const drawer = document.getElementById("__drawer");
drawer?.addEventListener("change", () => {
  for (const behind of document.querySelectorAll(".md-content, .md-footer")) behind.inert = drawer.checked;
});

const watcher = new IntersectionObserver((entries) => entries.filter((entry) => entry.isIntersecting).forEach(bringNear), { rootMargin: "100%" });
for (const element of document.querySelectorAll(Object.keys(whenNear).join())) watcher.observe(element);

if (document.querySelector("live-example")) {
  document.addEventListener("click", onClick, { capture: true });
  document.addEventListener("example-change", onChange);
  if (location.search || history.state?.anew) bringAlive();
  else waitForSign();
}
