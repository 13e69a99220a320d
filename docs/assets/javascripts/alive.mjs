// What works a page: fetched as one with the first sign of a reader's hand.

import { FigurePin } from "./elements/figure-pin.mjs";
import { FigureViewer } from "./elements/figure-viewer.mjs";
import { LitTerms } from "./elements/lit-terms.mjs";
import { LiveExample } from "./elements/live-example.mjs";

export const working = { "live-example": LiveExample, "figure-viewer": FigureViewer, "figure-pin": FigurePin, "lit-terms": LitTerms };
