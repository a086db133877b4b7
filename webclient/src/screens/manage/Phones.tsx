import { useState } from "preact/hooks";
import { all } from "../../journal";
import { session } from "../../people";
import { to } from "../../route";
import type { DevicePart } from "../../rules";
import { t, tn } from "../../words";
import { devices, moduleView, nameOf, Screen, told, when } from "../common";
import { AskReason } from "./AskReason";
import { askOffice } from "./saving";

const GROUPS = ["manager.group_behind", "manager.group_heard", "manager.group_off"] as const;
const groupOf = (one: DevicePart): number => (one.written_off ? 2 : one.behind ? 0 : 1);

/** Every phone that ever joined: those not heard from first, those written off last. */
export function Phones() {
  const found = [...devices()].sort((a, b) => nameOf(a.person).localeCompare(nameOf(b.person)));
  const behind = found.filter((one) => groupOf(one) === 0).length;
  return (
    <Screen title={t("manager.phones")} line={behind > 0 ? tn("manager.phones_behind", behind) : t("manager.phones_heard")} over={t("yard.manage")} overHref={to.manage()}>
      <p class="second">{t("manager.write_off_what")}</p>
      {GROUPS.map((title, group) => (
        <Group key={title} title={t(title)} phones={found.filter((one) => groupOf(one) === group)} />
      ))}
    </Screen>
  );
}

function Group({ title, phones }: { title: string; phones: DevicePart[] }) {
  if (phones.length === 0) return null;
  return (
    <section>
      <h2>{title}</h2>
      <ul class="rows">
        {phones.map((one) => (
          <li key={one.id}>
            <Phone device={one} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Stands({ device }: { device: DevicePart }) {
  const { behind, written_off: off } = device;
  const missing = all("photo").value.filter((photo) => photo.device === device.id && !photo.arrived).length;
  const serials = (behind?.modules ?? []).map((id) => moduleView(id)?.serial).filter(Boolean).join(", ");
  if (off) return <p>{t("manager.written_off_by", { name: nameOf(off.by), time: when(off.time), reason: off.reason })}</p>;
  return (
    <>
      {behind && <p class="late">{t("manager.behind_since", { time: when(behind.time), serials })}</p>}
      {missing > 0 && <p class="late">{tn("manager.photos_on_it", missing)}</p>}
      {!behind && missing === 0 && <p>{t("manager.heard")}</p>}
    </>
  );
}

function Phone({ device }: { device: DevicePart }) {
  const [asking, setAsking] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const mine = device.id === session.value.device;
  const name = nameOf(device.person);
  const writeOff = async (reason: string): Promise<void> => {
    const why = await askOffice(`/api/devices/${device.id}/write-off`, { reason }, { 404: "manager.phone_unknown" });
    setProblem(why);
    if (why) return;
    setAsking(false);
    told.value = t("manager.write_off_done", { name });
  };
  return (
    <div class="decided">
      <h3>{t("manager.phone_of", { name })}</h3>
      <p class="second">{mine ? t("manager.this_phone") : t("manager.joined", { time: when(device.since) })}</p>
      <Stands device={device} />
      {problem && <p class="late" role="alert">{problem}</p>}
      {asking && <AskReason question={t("manager.write_off_ask", { name })} label={t("manager.write_off_why")} yes={t("manager.write_off_yes")} onYes={(reason) => void writeOff(reason)} onNo={() => setAsking(false)} />}
      {!asking && !mine && !device.written_off && (
        <div class="key-row">
          <button type="button" class="key" aria-label={`${t("manager.write_off")}: ${t("manager.phone_of", { name })}`} onClick={() => setAsking(true)}>
            {t("manager.write_off")}
          </button>
        </div>
      )}
    </div>
  );
}
