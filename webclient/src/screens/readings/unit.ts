/** In which unit a person types temperatures; what is shown has the other one beside it. At first the yard's own, the US one. */

import { remembered } from "../../remembered";
import type { Unit } from "./measuring";

export const [unit, measureIn] = remembered<Unit>("unit", (kept) => (kept === "C" ? "C" : "F"));
