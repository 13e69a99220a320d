// Every element of the site, by its name. This is the only script that the pages load themselves.

import { ExampleFilter } from "./elements/example-filter.mjs";
import { FadingHelp } from "./elements/fading.mjs";
import { FigurePin } from "./elements/figure-pin.mjs";
import { FigureViewer } from "./elements/figure-viewer.mjs";
import { LiveExample } from "./elements/live-example.mjs";
import { LitTerms } from "./elements/lit-terms.mjs";
import { StepReader } from "./elements/step-reader.mjs";

const atOnce = {
  "live-example": LiveExample,
  "figure-viewer": FigureViewer,
  "figure-pin": FigurePin,
  "lit-terms": LitTerms,
  "step-reader": StepReader,
  "fading-help": FadingHelp,
  "example-filter": ExampleFilter,
};

/** What stands further down: fetched when a reader comes near it. */
const whenNear = {
  "loop-chooser": async () => (await import("./elements/loop-chooser.mjs")).LoopChooser,
  "check-equation": async () => (await import("./elements/check-equation.mjs")).CheckEquation,
  "check-numbers": async () => (await import("./elements/check-numbers.mjs")).CheckNumbers,
};

const watcher = new IntersectionObserver((entries) => entries.filter((entry) => entry.isIntersecting).forEach(bringToLife), { rootMargin: "100%" });

async function bringToLife({ target }) {
  watcher.unobserve(target);
  const { localName: name } = target;
  const made = await whenNear[name]();
  if (!customElements.get(name)) customElements.define(name, made);
}

for (const [name, element] of Object.entries(atOnce)) customElements.define(name, element);
for (const element of document.querySelectorAll(Object.keys(whenNear).join())) watcher.observe(element);
