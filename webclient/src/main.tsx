import { render } from "preact";
import { openJournal } from "./journal";
import { session } from "./people";
import type { Surface } from "./parts";
import { address, followAddress, read, type Route } from "./route";
import { SignIn, Me } from "./screens/sign-in/SignIn";
import { Yard } from "./screens/yard/Yard";
import { Module } from "./screens/module/Module";
import { Room } from "./screens/room/Room";
import { Wall } from "./screens/wall/Wall";
import { Item } from "./screens/item/Item";
import { endMessages } from "./screens/common";
import { fetchRest, Rest } from "./screens/Rest";
import { startWorker } from "./update";
import "./theme.css";

function Now({ route }: { route: Route }) {
  switch (route.screen) {
    case "yard":
      return <Yard />;
    case "me":
      return <Me />;
    case "module":
      return <Module id={route.module} />;
    case "room":
      return <Room module={route.module} room={route.room} />;
    case "wall":
      return <Wall module={route.module} room={route.room} surface={route.surface as Surface} />;
    case "item":
      return <Item module={route.module} item={route.item} />;
    default:
      return <Rest route={route} />;
  }
}

function App() {
  return session.value.holder ? <Now route={read(address.value)} /> : <SignIn />;
}

async function start(): Promise<void> {
  followAddress();
  endMessages();
  await openJournal();
  const root = document.getElementById("app");
  if (root) render(<App />, root);
  void fetchRest();
  await startWorker();
}

void start();
