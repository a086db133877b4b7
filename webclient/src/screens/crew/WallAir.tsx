import { family } from "../../rules";
import { moduleView, placeOfModule } from "../common";
import { forbidsWords } from "../readings/Heat";
import { airForbids } from "../readings/heating";
import type { Clearing } from "./clearing";

/** Where it is too cold or too hot for the compound or texture of a press: as on *Coat on*, said before it. */
export function WallAir({ clearing: { now, ticking, clearingOf } }: { clearing: Clearing }) {
  const said = [...ticking.walls, ...clearingOf.walls].flatMap(({ module, room, coat }) => {
    const place = placeOfModule(module);
    const found = coat && place && airForbids(place, [room], family(coat), now);
    return found ? [`${moduleView(module)?.serial ?? ""}: ${forbidsWords(found)}`] : [];
  });
  return <>{[...new Set(said)].map((words) => <p key={words} class="late strong" role="status">{words}</p>)}</>;
}
