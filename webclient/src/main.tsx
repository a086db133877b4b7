import { render } from "preact";
import { openJournal } from "./journal";
import { session } from "./people";
import { address, followAddress, read, type Route } from "./route";
import { SignIn, Me } from "./screens/sign-in/SignIn";
import { Yard } from "./screens/yard/Yard";
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
  const first = ["yard", "me"].includes(read(address.value).screen);
  if (!first) void fetchRest();
  await openJournal();
  const root = document.getElementById("app");
  if (root) render(<App />, root);
  if (first) void fetchRest();
  await startWorker();
}

void start();
