// The check of own work on a light page for other sites: the only script that such a page loads itself.

import { CheckEquation } from "./elements/check-equation.mjs";
import { CheckNumbers } from "./elements/check-numbers.mjs";

customElements.define("check-equation", CheckEquation);
customElements.define("check-numbers", CheckNumbers);
