import { signal } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { settledAt } from "../journal";
import { to, type Route } from "../route";
import { t } from "../words";
import { Screen } from "./common";

/** The screens that the first paint does without: fetched behind it, and kept with the others for when there is no signal. */
const rest = signal<typeof import("./later") | "coming" | "missing">("coming");

/** Fetches them; call once: behind the first screen, or at once where the address is one of them. */
export async function fetchRest(): Promise<void> {
  try {
    rest.value = await import("./later");
  } catch {
    // The screen says so, with what to do.
    rest.value = "missing";
  }
}

export function Rest({ route }: { route: Route }) {
  const here = rest.value;
  // Nothing of the yard is here, or nothing that this version reads: what a screen would say of it is not so.
  if (settledAt.value.cursor === 0) {
    return (
      <Screen title={t("yard.back")} over={t("yard.back")} overHref={to.yard()}>
        <p>{t("yard.fetching")}</p>
      </Screen>
    );
  }
  if (typeof here === "object") return here.later(route);
  return (
    <Screen title={t("yard.back")} over={t("yard.back")} overHref={to.yard()}>
      {here === "coming" && <Coming />}
      {here === "missing" && <p role="alert">{t("frame.not_here_yet")}</p>}
      {here === "missing" && <button type="button" class="key" onClick={() => location.reload()}>{t("frame.load_again")}</button>}
    </Screen>
  );
}

/** Long enough that nobody sees it where the screens are on the phone already (ms). */
const SOON = 700;

function Coming() {
  const [long, setLong] = useState(false);
  useEffect(() => {
    const waiting = setTimeout(() => setLong(true), SOON);
    return () => clearTimeout(waiting);
  }, []);
  return long ? <p role="status">{t("yard.coming")}</p> : null;
}
