import { t } from "../../words";
import { Screen } from "../common";

/** Written next. */
export function Manage({ page: _p, id: _i }: { page: string; id: string }) {
  return <Screen title={t("yard.back")} over={t("yard.back")} overHref="/">{null}</Screen>;
}
