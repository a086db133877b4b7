import { t } from "../../words";
import { Screen } from "../common";

/** Written next. */
export function Recheck({ module: _m, room: _r }: { module: string; room: string }) {
  return <Screen title={t("yard.back")} over={t("yard.back")} overHref="/">{null}</Screen>;
}
