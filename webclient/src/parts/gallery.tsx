/**
 * The parts to look at while working on them: `npm run dev`, then /src/parts/gallery.html?show=room|face|long|words|work|gate|fields|strips.
 * Not part of the build. Names and numbers are invented.
 */
import { render } from "preact";
import { useState } from "preact/hooks";
import "../theme.css";
import { speak } from "../words";
import * as parts from "./index";
import { Strips } from "./galleryStrips";
import type { Marked, RoomPlan, Spot } from "./index";
import { PencilMark } from "./PencilMark";

const FT = 304.8;
const ft = (feet: number): number => Math.round(feet * FT);
const bath: RoomPlan = {
  l: ft(9),
  w: ft(7),
  h: ft(8),
  walls: {
    A: { sight: "window", openings: [{ kind: "window", along: ft(3), up: ft(3.7), w: ft(3), h: ft(3) }], things: [] },
    B: { sight: "mirror", openings: [], things: [{ name: "mirror", along: ft(1.6), up: ft(3.3), w: ft(3.1), h: ft(3.1) }] },
    C: { sight: "door", openings: [{ kind: "door", along: ft(0.9), up: 0, w: ft(2.5), h: ft(6.7) }], things: [] },
    D: { sight: "tub", openings: [], things: [{ name: "tub", along: 0, up: 0, w: ft(4), h: ft(2.6) }] },
  },
};
const hall: RoomPlan = {
  l: ft(28),
  w: ft(4),
  h: ft(8),
  walls: {
    A: { sight: "marriage wall", openings: [{ kind: "open", along: ft(20), up: 0, w: ft(6), h: ft(7) }], things: [] },
    B: { sight: "end", openings: [], things: [] },
    C: { sight: "doors", openings: [{ kind: "door", along: ft(4), up: 0, w: ft(2.6), h: ft(6.7) }], things: [] },
    D: { sight: "hitch end", openings: [], things: [] },
  },
};
const at = (number: number, state: Marked["state"], surface: Marked["surface"], along: number, up: number): Marked => ({
  id: `i${number}`,
  number,
  state,
  surface,
  spot: { along: ft(along), up: ft(up) },
});
const marks: Marked[] = [
  at(17, "open", "A", 1.4, 3.4),
  at(3, "closed", "A", 7.2, 4.7),
  at(14, "open", "B", 0.8, 5.6),
  at(9, "sent_back", "B", 5.3, 1.8),
  at(6, "closed", "B", 6.1, 6.8),
  at(22, "open", "B", 0.8, 2.5),
  at(23, "open", "B", 2.6, 1.6),
  at(12, "cleared", "C", 7, 5),
  at(11, "cleared", "D", 4.2, 5.6),
  at(5, "closed", "D", 1.6, 6.6),
  at(21, "open", "ceiling", 5.4, 2.4),
  at(31, "void", "C", 5.4, 2),
];
const sent = <parts.SentLine unsent={2} photosUnsent={1} sentAt="8:20 am" />;
const line = (
  <>
    <span class="serial">2416-A</span> · bay 9 · pickup tomorrow 7 am
  </>
);
const none = (): void => undefined;

function Room({ room, title, shown }: { room: RoomPlan; title: string; shown: Marked[] }) {
  const [faced, setFaced] = useState("");
  return (
    <parts.Page
      breadth="broad"
      head={<parts.HeadBand title={title} line={line} />}
      sent={sent}
      slabs={<parts.Slabs main={{ label: "Write up", onPress: none }} beside={{ label: "Recheck 2", onPress: none }} />}
    >
      <div class="side-by-side">
      <div>
      <parts.UnfoldedRoom room={room} marks={shown} title={title} onFace={setFaced} />
      <parts.StateCounts counts={parts.countOf(shown)} />
      <p class="second">{faced}</p>
      </div>
      <parts.SurfaceList surfaces={[...parts.LETTERS.map((surface) => ({ surface, sight: room.walls[surface]?.sight })), { surface: "ceiling" as const }, { surface: "floor" as const }]} marks={shown} onFace={setFaced} />
      </div>
    </parts.Page>
  );
}

const kinds = ["Nick", "Joint flashing", "Screw pop", "Sanding scratch", "Missed paint", "Run", "Tape blister", "Gouge", "Hole", "Stain", "Caulk gap"].map((label) => ({ key: label, label }));

function Wall({ room, surface, title }: { room: RoomPlan; surface: parts.Letter; title: string }) {
  const face = parts.faceOf(room, surface);
  const [taps, setTaps] = useState<Marked[]>([at(24, "open", surface, 4.5, 7.2)]);
  const [kind, setKind] = useState<string | null>(null);
  const [light, setLight] = useState<"normal" | "raking">("raking");
  if (!face) return null;
  const last = taps[taps.length - 1];
  const move = (spot: Spot): void => setTaps(taps.map((tap) => (tap === last ? { ...tap, spot } : tap)));
  return (
    <parts.Page
      head={<parts.HeadBand over={<>Bath 2 · <span class="serial">2416-A</span></>} overHref="#" title={title} />}
      sent={sent}
      slabs={<parts.Slabs main={{ label: `Save ${taps.length} nicks`, onPress: none, why: taps.length ? null : "Tap a spot first." }} beside={{ label: "Take back last one", onPress: () => setTaps(taps.slice(0, -1)) }} />}
    >
      <parts.KindPicker kinds={kinds} last={["Screw pop"]} chosen={kind} onChoose={setKind} />
      <parts.FacedWall face={face} marks={[...(room === bath ? marks : []), ...taps]} lit={last?.id} onSpot={(spot) => setTaps([...taps, { id: `n${taps.length}`, number: 25 + taps.length, state: "open", surface, spot }])} onMove={move} />
      {last?.spot && <parts.SpotArrows face={face} spot={last.spot} lead="Tap each nick." onMove={move} />}
      <parts.Choice label="How seen" labelHeard options={[{ key: "normal", label: "Normal" }, { key: "raking", label: "Raking light" }]} value={light} onChange={setLight} />
    </parts.Page>
  );
}

function Words() {
  const [taps, setTaps] = useState<Marked[]>([{ id: "a", number: 14, state: "cleared", surface: "A", words: { across: "left", height: "eye" } }]);
  return (
    <parts.Page head={<parts.HeadBand title="Wall A" line={line} />} sent={<parts.SentLine unsent={0} photosUnsent={0} sentAt="8:20 am" problem="Not signed in any more. Everything is safe on this phone. Sign in to send it." action={{ label: "Sign in", onPress: none }} />}>
      <parts.WordsSpot marks={taps} lit={taps.at(-1)?.id} onSpot={(words) => setTaps([...taps, { id: `${taps.length}`, number: 20 + taps.length, state: "open", surface: "A", words }])} onNoSpot={none} />
    </parts.Page>
  );
}

function Work() {
  const [picked, setPicked] = useState<number[]>([14, 22]);
  const check = (n: number) => (on: boolean) => setPicked(on ? [...picked, n] : picked.filter((one) => one !== n));
  const face = parts.faceOf(bath, "B");
  return (
    <parts.Page
      head={<parts.HeadBand title="Crew 2, to fix" line="11 items in 3 modules, soonest pickup first" side={<a href="#">L. Medrano</a>} />}
      sent={<parts.SentLine unsent={0} photosUnsent={0} sentAt="8:20 am" />}
      slabs={<parts.Slabs main={{ label: `Clear ${picked.join(", ")}`, onPress: none }} beside={{ label: "Photo of wall B after", onPress: none }} />}
    >
      <h2>
        <span class="serial">2416-A</span> <span class="second">bay 9 · leaves</span> tomorrow 7 am
      </h2>
      <section class="wall-group">
        <h2>Bath 2, wall B, mirror wall</h2>
        {face && <parts.FacedWall face={face} marks={marks} maxHeight={220} />}
        <parts.ItemRow state="sent_back" number={9} title="Joint flashing" sentBack="still shows under light" href="#" checked={picked.includes(9)} onCheck={check(9)} />
        <parts.ItemRow state="open" number={14} title="Nick" next="paint" line="filled, sanded, primed" checked={picked.includes(14)} onCheck={check(14)} />
        <parts.ItemRow state="open" number={22} title="2 nicks" next="paint" line="22 and 23, filled, sanded, primed" checked={picked.includes(22)} onCheck={check(22)} />
        <parts.ItemRow state="open" number={21} title="Run" blocked="Not dry: sand from 10 am likely" onCheck={check(21)} />
      </section>
    </parts.Page>
  );
}

function Gate() {
  return (
    <parts.Page
      head={<parts.HeadBand title={<><span class="serial">2416-A</span> to staging</>} line="bay 9 · truck tomorrow 7 am · no driver named yet" />}
      sent={<parts.SentLine unsent={0} photosUnsent={0} sentAt="8:20 am" reading />}
      slabs={<parts.Slabs main={{ label: "Share the 5 holds", onPress: none }} beside={{ label: "Release", onPress: none, why: "5 holds stop it." }} />}
    >
      <h2>5 holds</h2>
      <h3 class="second">Crew 2 fixes</h3>
      <div>
        <parts.MarkRow state="open" title="Bath 2: 5 items open" line="9 was sent back. Ceiling run waits to dry" href="#" />
        <parts.MarkRow state="cleared" title="Bath 2: 11 and 12 cleared, not rechecked" line="cleared 6:55 am by L. Medrano" />
        <parts.MarkRow state="sheet" title="Cleaning sheet: changed, sign again" line="Hall was painted again after it was signed" />
        <parts.MarkRow state="only_here" title="A photo is still on D. Whitlock’s phone" line="not heard from since 7:31 am" />
        <parts.MarkRow state="two_values" title="Bath 2: crew of 14 not decided" line="crew 2 or crew 3" />
        <parts.MarkRow state="aside" title="An entry set aside concerns it" line="late, after it had left" />
        <parts.MarkRow state="waiting" title="Signed, waits for the office" />
      </div>
      {(["open", "sent_back", "cleared", "closed", "void", "only_here"] as const).map((state) => (
        <p key={state} style={{ display: "flex", flexWrap: "wrap", gap: "20px" }}>
          <parts.StateWord state={state} size={16} /> <parts.StateWord state={state} recheck size={28} /> <PencilMark state={state} size={64} />
        </p>
      ))}
    </parts.Page>
  );
}

function Fields() {
  const [text, setText] = useState("9 ft 6 in");
  return (
    <parts.Page head={<parts.HeadBand title="Rakelight" line="Sign in" />} sent={<parts.SentLine unsent={0} photosUnsent={0} sentAt={null} />} slabs={<parts.Slabs main={{ label: "Sign in", onPress: none, why: "Write your passcode first." }} />}>
      <parts.Pick label="Who are you" value="" options={[{ key: "a", label: "D. Whitlock" }]} onChange={none} />
      <parts.Passcode label="Passcode" value={text} onInput={setText} error="That passcode is not right. Try again." />
      <parts.Field label="Length" value={text} onInput={setText} hint={String(parts.parseLength(text))} />
      <parts.Field label="Why" value="" onInput={none} lines={3} />
      <parts.Choice label="Screen" options={[{ key: "phone", label: "As the phone" }, { key: "day", label: "Day" }, { key: "evening", label: "Evening" }]} value={parts.setting.value} onChange={parts.chooseSetting} />
      <parts.Confirm question="Void item 14? It stays in the history." yes="Void 14" onYes={none} onNo={none} why="Say why first." />
    </parts.Page>
  );
}

const asked = new URLSearchParams(location.search);
if (asked.get("lang") === "es") speak("es");
if (asked.get("lang") === "en") speak("en");
const pages: Record<string, () => preact.JSX.Element | null> = {
  room: () => <Room room={bath} title="Bath 2" shown={marks} />,
  hall: () => <Room room={hall} title="Hall" shown={[at(1, "open", "A", 3, 4), at(2, "open", "D", 3, 4), at(4, "cleared", "C", 25, 4)]} />,
  many: () => <Room room={bath} title="Bath 2" shown={Array.from({ length: 14 }, (_, n) => at(40 + n, n % 3 ? "open" : "closed", "B", 1 + (n % 5), 2 + Math.floor(n / 5) * 0.8))} />,
  face: () => <Wall room={bath} surface="B" title="Wall B, mirror wall" />,
  long: () => <Wall room={hall} surface="A" title="Wall A, marriage wall" />,
  words: Words,
  work: Work,
  gate: Gate,
  fields: Fields,
  strips: Strips,
};
const Shown = pages[asked.get("show") ?? "room"] ?? (() => null);
const root = document.getElementById("app");
if (root) render(<Shown />, root);
