import { useEffect, useState } from "preact/hooks";
import { ask, Trouble } from "../../ask";
import { placeInWords, surfaceInWords } from "../../parts";
import { to } from "../../route";
import type { SetAsidePart } from "../../rules";
import { known, say, t } from "../../words";
import { coatName, defectOf, marked, moduleView, roomName, roomsInWords, spotOf, type ModuleView } from "../common";

/** What is read of an entry that nobody has judged: anything may be missing or wrong. */
interface Came {
  about?: unknown;
  body?: Record<string, unknown>;
}

/** What a set-aside entry is about, and its own words: nobody decides on what they cannot see. Nothing without signal. */
export function About({ entry }: { entry: SetAsidePart }) {
  const [came, setCame] = useState<Came | null>(null);
  useEffect(() => {
    const look = async (): Promise<void> => {
      try {
        const found = await ask(`/api/set-aside/${entry.sha256}`);
        setCame(found["entry"] as Came | null);
      } catch (error) {
        if (!(error instanceof Trouble)) throw error;
      }
    };
    void look();
  }, [entry.sha256]);
  const view = entry.module ? moduleView(entry.module) : null;
  if (!came || !view) return null;
  return (
    <>
      <Thing view={view} came={came} />
      {ownWords(came).map((words) => <p key={words}>{t("manager.aside_said", { words })}</p>)}
    </>
  );
}

/** The item or the coat, with its place. */
function Thing({ view, came: { about, body = {} } }: { view: ModuleView; came: Came }) {
  const item = view.items.find(({ id }) => id === about);
  if (item) {
    const spot = spotOf(item);
    const words = [`${item.number} ${defectOf(item)}`, spot && roomName(view, spot.room), spot && surfaceInWords(spot.surface), placeInWords(marked(item))];
    return <p><a class="key key-link" href={to.item(view.id, item.id)}>{words.filter(Boolean).join(", ")}</a></p>;
  }
  const words = [named("defects", body["defect"]), coatOf(body["coat"]), typeof body["room"] === "string" ? roomName(view, body["room"]) : "", Array.isArray(body["rooms"]) ? roomsInWords(view, body["rooms"].map(String)) : ""];
  const said = words.filter(Boolean).join(", ");
  return said ? <p>{said}</p> : null;
}

const named = (table: "defects", key: unknown): string => (typeof key === "string" && known(`${table}.${key}`) ? say(`${table}.${key}`) : "");
const coatOf = (coat: unknown): string => (typeof coat === "string" && known(`coats.name.${coat}`) ? coatName(coat as Parameters<typeof coatName>[0]) : "");

/** The reason and the text that its author gave: one of ours in the reader's words. */
function ownWords({ body = {} }: Came): string[] {
  const given = [body["reason"], body["text"], body["wish"], body["early"]].filter((one): one is string => typeof one === "string" && one !== "");
  return given.map((one) => (known(`reasons.${one}`) ? say(`reasons.${one}`) : one));
}
