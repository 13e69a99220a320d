// Every element of the site, by its name. This is the only script that the pages load themselves.

import { CheckEquation } from "./elements/check-equation.mjs";
import { CheckNumbers } from "./elements/check-numbers.mjs";
import { ExampleFilter } from "./elements/example-filter.mjs";
import { FadingHelp } from "./elements/fading.mjs";
import { FigurePin } from "./elements/figure-pin.mjs";
import { FigureViewer } from "./elements/figure-viewer.mjs";
import { LiveExample } from "./elements/live-example.mjs";
import { LitTerms } from "./elements/lit-terms.mjs";
import { LoopChooser } from "./elements/loop-chooser.mjs";
import { StepReader } from "./elements/step-reader.mjs";

const elements = {
  "live-example": LiveExample,
  "loop-chooser": LoopChooser,
  "figure-viewer": FigureViewer,
  "figure-pin": FigurePin,
  "lit-terms": LitTerms,
  "step-reader": StepReader,
  "fading-help": FadingHelp,
  "check-equation": CheckEquation,
  "check-numbers": CheckNumbers,
  "example-filter": ExampleFilter,
};

for (const [name, element] of Object.entries(elements)) {
  if (!customElements.get(name)) customElements.define(name, element);
}
