import { all } from "../../journal";
import { degreesBoth } from "../../parts";
import { to } from "../../route";
import { instant, streamId } from "../../rules";
import { t } from "../../words";
import { when, type ModuleView } from "../common";
import { lastOf } from "./measuring";

/** The air inside a module as it was read last; leads to its screen. */
export function AirRow({ view }: { view: ModuleView }) {
  const last = lastOf(all("air").value, streamId(view.id));
  const air = last && t("air.both", { temp: degreesBoth(last[1]), rh: last[2] });
  return (
    <section class="block">
      <ul class="rows">
        <li>
          <a class="module-row" href={to.air(view.id)}>
            <b>{t("air.open")}</b>
            <span class="wide second">{last ? t("air.row_of", { air: air ?? "", time: when(instant(last[0])) }) : t("air.row_never")}</span>
          </a>
        </li>
      </ul>
    </section>
  );
}
