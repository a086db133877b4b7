import type { Route } from "../route";
import { Coats } from "./coats/Coats";
import { Work } from "./crew/Work";
import { Gate } from "./gate/Gate";
import { Sheet } from "./sheet/Sheet";
import { Recheck } from "./recheck/Recheck";
import { Manage } from "./manage/Manage";

/** The screens that are not needed for the first paint. */
export function later(route: Route) {
  switch (route.screen) {
    case "work":
      return <Work />;
    case "gate":
      return <Gate key={route.module} id={route.module} />;
    case "coats":
      return <Coats key={route.module} id={route.module} />;
    case "sheet":
      return <Sheet key={`${route.module} ${route.sheet}`} module={route.module} sheet={route.sheet} />;
    case "recheck":
      return <Recheck key={`${route.module} ${route.room}`} module={route.module} room={route.room} />;
    case "manage":
      return <Manage page={route.page} id={route.id} />;
    default:
      return null;
  }
}
