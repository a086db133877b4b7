import { t } from "../../words";
import { Screen } from "../common";

/** Written next. */
export function Work() {
  return <Screen title={t("yard.back")} over={t("yard.back")} overHref="/">{null}</Screen>;
}
