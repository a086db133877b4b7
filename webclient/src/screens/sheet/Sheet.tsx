import { t } from "../../words";
import { Screen } from "../common";

/** Written next. */
export function Sheet({ module: _m, sheet: _s }: { module: string; sheet: string }) {
  return <Screen title={t("yard.back")} over={t("yard.back")} overHref="/">{null}</Screen>;
}
