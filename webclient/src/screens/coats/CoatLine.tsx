import { to } from "../../route";
import { t, tn } from "../../words";
import { coatName, placeOfView, roomsInWords, useSeconds, type ModuleView } from "../common";
import { CoatStrip } from "./CoatStrip";
import { at, flagWords, nextWords, wallWords, type Told } from "./sentences";
import { standing, standings, type Standing } from "./standing";

/** The module's coats in a few sentences, what waits longest first; leads to their screen. */
export function CoatsRow({ view }: { view: ModuleView }) {
  const now = useSeconds();
  const told = moduleWords(view, standings(placeOfView(view), now));
  return (
    <section class="block">
      <h2>{t("coats.title")}</h2>
      <ul class="rows">
        <li>
          <a class="module-row" href={to.coats(view.id)}>
            <b>{t("coats.open")}</b>
            {told.map(({ words, tone }) => (
              <span key={words} class={`wide ${tone === "plain" ? "second" : tone}`}>{words}</span>
            ))}
          </a>
        </li>
      </ul>
    </section>
  );
}

function moduleWords(view: ModuleView, stands: readonly Standing[]): Told[] {
  if (stands.every(({ tops }) => tops.length === 0)) return [{ words: t("coats.line.none"), tone: "plain" }];
  const where = (rooms: string[]): string => (rooms.length > 2 ? tn("coats.rooms", rooms.length) : roomsInWords(view, rooms));
  const found = [...looks(stands, where), ...wets(stands, where), ...cans(stands, where)];
  return found.length > 0 ? found : [{ words: t("coats.line.done"), tone: "met" }];
}

type Where = (rooms: string[]) => string;

/** Coats of one kind together: *Texture not dry in 4 rooms, by the table 4 pm*. */
function byCoat(stands: readonly Standing[], states: readonly string[]): Map<string, { rooms: string[]; ends: (number | null)[]; doubted: boolean }> {
  const found = new Map<string, { rooms: string[]; ends: (number | null)[]; doubted: boolean }>();
  for (const { tops, rooms } of stands) {
    for (const { coat, clock } of tops) {
      if (!states.includes(clock.state)) continue;
      const name = coatName(coat.coat);
      const before = found.get(name) ?? { rooms: [], ends: [], doubted: false };
      found.set(name, { rooms: [...new Set([...before.rooms, ...rooms])], ends: [...before.ends, clock.by_table], doubted: before.doubted || flagWords(clock).doubts.length > 0 });
    }
  }
  return found;
}

const looks = (stands: readonly Standing[], where: Where): Told[] =>
  [...byCoat(stands, ["not_dry", "unsure"])].map(([coat, { rooms }]) => ({ words: t("coats.line.look", { coat, rooms: where(rooms) }), tone: "late" }));

const wets = (stands: readonly Standing[], where: Where): Told[] =>
  [...byCoat(stands, ["wet", "likely"])].map(([coat, { rooms, ends, doubted }]) => {
    const known = ends.filter((end): end is number => end !== null);
    const last = known.length === ends.length ? Math.max(...known) : null;
    const values = { coat, rooms: where(rooms), by_table: at(last) };
    return { words: t(last === null ? "coats.line.never" : doubted ? "coats.line.doubted" : "coats.line.wet", values), tone: "plain" };
  });

function cans(stands: readonly Standing[], where: Where): Told[] {
  const found = new Map<string, string[]>();
  for (const { next, ready, rooms, tops } of stands) if (next && ready?.ready && tops.length > 0) found.set(coatName(next), [...(found.get(coatName(next)) ?? []), ...rooms]);
  return [...found].map(([next, rooms]) => ({ words: t("coats.line.can", { next, rooms: where(rooms) }), tone: "met" }));
}

/** What lies on top in one room: how it stands, its strip, who laid it. */
export function RoomCoats({ view, room }: { view: ModuleView; room: string }) {
  const now = useSeconds();
  const stand = standing(placeOfView(view), room, now);
  if (stand.tops.length === 0 && !stand.known) return null;
  const next = nextWords(stand);
  return (
    <section class="block">
      {stand.tops.map((top) => (
        <div key={top.coat.id} class="coat-top">
          {top.surface && <h2>{wallWords(view, room, top.surface)}</h2>}
          <CoatStrip top={top} room={room} next={top.surface ? null : stand.next} now={now} />
        </div>
      ))}
      <p>
        {next && `${next.words}. `}<a class="coat-link" href={to.coats(view.id)}>{t("coats.open")}</a>
      </p>
    </section>
  );
}
