import { useEffect, useState } from "preact/hooks";
import { ask, post, Trouble } from "../../ask";
import { state, syncNow } from "../../journal";
import { Confirm, Field, Pick } from "../../parts";
import { to } from "../../route";
import { say, t } from "../../words";
import { moduleView, roomName, Screen, standing, told, when } from "../common";
import { askOffice } from "./saving";

interface Sensor {
  id: string;
  name: string;
  module: string | null;
  room: string | null;
  made_at: string;
  heard_at: string | null;
  revoked_at: string | null;
}
interface Hung {
  name: string;
  /** A module's id, or nothing for outside. */
  module: string;
  room: string;
}
const NOT_HUNG: Hung = { name: "", module: "", room: "" };

/** Sensors that post readings by themselves: each has a key for one place, shown once. */
export function Sensors() {
  const [sensors, setSensors] = useState<Sensor[] | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [hung, setHung] = useState(NOT_HUNG);
  const [made, setMade] = useState<{ sensor: Sensor; key: string } | null>(null);
  const fetched = async (): Promise<void> => {
    try {
      const answer = await ask("/api/sensors");
      setSensors(answer["sensors"] as Sensor[]);
      setProblem(null);
    } catch (error) {
      setProblem(inWords(error));
    }
  };
  useEffect(() => void fetched(), []);
  const make = async (): Promise<void> => {
    told.value = null;
    try {
      setMade(await makeSensor(hung));
      setHung(NOT_HUNG);
      await fetched();
    } catch (error) {
      setProblem(inWords(error));
    }
  };
  const why = hung.name.trim() ? null : t("plant.sensor_name_first");
  const slab = made ? { label: t("plant.sensor_noted"), onPress: () => setMade(null) } : { label: hung.name.trim() ? t("plant.sensor_make_named", { name: hung.name.trim() }) : t("plant.sensor_make"), onPress: () => void make(), why };
  return (
    <Screen problem={problem} title={t("plant.sensors")} over={t("yard.manage")} overHref={to.manage()} slabs={{ main: slab }}>
      {made ? <NewKey made={made} /> : <HungFields hung={hung} put={(part) => setHung({ ...hung, ...part })} />}
      {!sensors && !problem && <p role="status">{t("plant.sensors_fetching")}</p>}
      {sensors && <List sensors={sensors} onChanged={fetched} />}
    </Screen>
  );
}

async function makeSensor({ name, module, room }: Hung): Promise<{ sensor: Sensor; key: string }> {
  if (state.peek().unsent > 0) await syncNow();
  const body = { name: name.trim(), ...(module ? { module } : {}), ...(module && room ? { room } : {}) };
  const answer = await post("/api/sensors", body);
  const { key, ...sensor } = answer as unknown as Sensor & { key: string };
  return { sensor, key };
}

function inWords(error: unknown): string {
  if (!(error instanceof Trouble)) throw error;
  return error.status === 403 ? t("manager.not_yours") : say(error.key);
}

function placeWords({ module, room }: { module: string | null; room: string | null }): string {
  const view = module ? moduleView(module) : null;
  if (!module) return t("air.outside");
  if (!view) return t("plant.sensor_gone");
  return room ? `${view.serial}, ${roomName(view, room)}` : t("air.inside_of", { serial: view.serial });
}

function HungFields({ hung, put }: { hung: Hung; put: (part: Partial<Hung>) => void }) {
  const view = hung.module ? moduleView(hung.module) : null;
  const places = [{ key: "", label: t("air.outside") }, ...standing().map(({ id, serial }) => ({ key: id, label: serial }))];
  return (
    <section class="block">
      <h2>{t("plant.sensor_new")}</h2>
      <p class="second">{t("plant.sensor_what")}</p>
      <Field label={t("plant.sensor_name")} value={hung.name} onInput={(name) => put({ name })} />
      <Pick label={t("air.file_place")} value={hung.module} options={places} onChange={(module) => put({ module, room: "" })} />
      {view && <Pick label={t("air.where")} value={hung.room} options={[{ key: "", label: t("air.inside") }, ...view.rooms.map(({ key }) => ({ key, label: roomName(view, key) }))]} onChange={(room) => put({ room })} />}
    </section>
  );
}

/** The key, once; and one line that tries it. */
function NewKey({ made: { sensor, key } }: { made: { sensor: Sensor; key: string } }) {
  const line = `curl -s ${location.origin}/api/readings -H 'Authorization: Bearer ${key}' -H 'Content-Type: application/json' -d '{"rows": [{"temp_f": 70, "rh": 45}]}'`;
  return (
    <section class="block">
      <h2>{t("plant.sensor_key", { name: sensor.name })}</h2>
      <p>{t("plant.sensor_once")}</p>
      <pre class="code-line">{key}</pre>
      <p>{t("plant.sensor_try")}</p>
      <pre class="code-line">{line}</pre>
    </section>
  );
}

function List({ sensors, onChanged }: { sensors: Sensor[]; onChanged: () => Promise<void> }) {
  const live = sensors.filter((one) => one.revoked_at === null);
  const dead = sensors.filter((one) => one.revoked_at !== null);
  return (
    <section>
      <h2>{t("plant.sensors_now")}</h2>
      {live.length === 0 && <p>{t("plant.sensors_none")}</p>}
      <ul class="rows">
        {live.map((one) => <li key={one.id}><One sensor={one} onChanged={onChanged} /></li>)}
        {dead.map((one) => <li key={one.id} class="decided"><b>{one.name}</b><span class="second">{t("plant.sensor_revoked", { time: when(one.revoked_at ?? one.made_at) })}</span></li>)}
      </ul>
    </section>
  );
}

function One({ sensor, onChanged }: { sensor: Sensor; onChanged: () => Promise<void> }) {
  const [asking, setAsking] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const revoke = async (): Promise<void> => {
    const why = await askOffice(`/api/sensors/${sensor.id}/revoke`, {}, { 404: "plant.sensor_unknown" });
    setProblem(why);
    if (why) return;
    setAsking(false);
    told.value = t("plant.sensor_is_revoked", { name: sensor.name });
    await onChanged();
  };
  return (
    <div class="decided">
      <h3>{sensor.name}</h3>
      <p>{placeWords(sensor)}</p>
      <p class="second">{sensor.heard_at ? t("plant.sensor_heard", { time: when(sensor.heard_at) }) : t("plant.sensor_silent", { time: when(sensor.made_at) })}</p>
      {asking ? (
        <Confirm question={t("plant.sensor_revoke_ask", { name: sensor.name })} yes={t("plant.sensor_revoke_yes")} onYes={() => void revoke()} onNo={() => setAsking(false)} why={problem} />
      ) : (
        <div class="key-row"><button type="button" class="key" aria-label={`${t("plant.sensor_revoke")}: ${sensor.name}`} onClick={() => setAsking(true)}>{t("plant.sensor_revoke")}</button></div>
      )}
    </div>
  );
}
