import { to } from "../../route";
import { t } from "../../words";
import { has, Screen } from "../common";
import { Aside } from "./Aside";
import { CoatsOffice } from "./CoatsOffice";
import { ModulePage } from "./ModulePage";
import { Office } from "./Office";
import { People } from "./People";
import { Phones } from "./Phones";
import { PlanPage } from "./PlanPage";
import { Sensors } from "./Sensors";
import { YardFacts } from "./YardFacts";
import "./manage.css";

/** Who may open a page; an office page that is not theirs says whose it is. */
const WHO: Record<string, string[]> = {
  "": ["manager", "administrator", "shipping"],
  module: ["manager", "shipping"],
  plan: ["manager"],
  people: ["manager", "administrator"],
  yard: ["manager"],
  aside: ["manager"],
  phones: ["manager"],
  coats: ["manager"],
  sensors: ["manager"],
};

/** The office's screens: what the yard, its modules, plans, people and phones are. */
export function Manage({ page, id }: { page: string; id: string }) {
  const who = WHO[page];
  if (!who?.some(has)) return <NotYours />;
  switch (page) {
    case "module":
      return <ModulePage key={id} id={id} />;
    case "plan":
      return <PlanPage key={id} id={id} />;
    case "people":
      return <People key={id} id={id} />;
    case "yard":
      return <YardFacts />;
    case "aside":
      return <Aside />;
    case "phones":
      return <Phones />;
    case "coats":
      return <CoatsOffice />;
    case "sensors":
      return <Sensors />;
    default:
      return <Office />;
  }
}

function NotYours() {
  return (
    <Screen title={t("yard.manage")} over={t("yard.back")} overHref={to.yard()}>
      <p>{t("manager.not_yours")}</p>
    </Screen>
  );
}
