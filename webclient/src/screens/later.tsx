import type { Route } from "../route";
import "../words-rest";
import { Coats } from "./coats/Coats";
import { Work } from "./crew/Work";
import { Gate } from "./gate/Gate";
import { Item } from "./item/Item";
import { Sheet } from "./sheet/Sheet";
import { Recheck } from "./recheck/Recheck";
import { Manage } from "./manage/Manage";
import { Module } from "./module/Module";
import { Paint } from "./paint/Paint";
import { FilePage } from "./readings/FilePage";
import { ModuleAir, OutsideAir } from "./readings/PlaceAir";
import { Walk } from "./readings/Walk";
import { Ready } from "./ready/Ready";
import { Room } from "./room/Room";
import { Wall } from "./wall/Wall";

/** The screens that are not needed for the first paint. */
export function later(route: Route) {
  switch (route.screen) {
    case "module":
      return <Module id={route.module} />;
    case "room":
      return <Room module={route.module} room={route.room} />;
    case "wall":
      return <Wall module={route.module} room={route.room} surface={route.surface} />;
    case "item":
      return <Item module={route.module} item={route.item} />;
    case "work":
      return <Work />;
    case "gate":
      return <Gate key={route.module} id={route.module} />;
    case "coats":
      return <Coats key={route.module} id={route.module} />;
    case "ready":
      return <Ready />;
    case "walk":
      return <Walk />;
    case "outside":
      return <OutsideAir />;
    case "file":
      return <FilePage key={route.what} what={route.what} />;
    case "air":
      return <ModuleAir key={`${route.module} ${route.room}`} id={route.module} room={route.room} />;
    case "paint":
      return <Paint key={`${route.module} ${route.room}`} module={route.module} room={route.room} />;
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
