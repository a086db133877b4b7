import { useState } from "preact/hooks";
import { Choice, Field } from "../../parts";
import type { Marked, PhotoMark } from "../../rules";
import { t } from "../../words";
import { markAt, NUDGES, nudged, onPhoto, type Place, type Tool } from "./marking";
import { PhotoMarks } from "./Photo";

export interface MarkUpProps {
  /** Of the picture, for an image element. */
  address: string;
  alt: string;
  px: Place;
  marked: Marked;
  numberOf: (item: string) => number | null;
  onMarks: (marks: PhotoMark[]) => void;
  /** A tap that says where an item is; without it only marks are put on the photo. */
  onItem?: ((at: Place) => void) | undefined;
}

/** A photo to mark with arrow, ring and a line of words: a tap puts one there, one key takes the last one back. */
export function MarkUp({ address, alt, px, marked, numberOf, onMarks, onItem }: MarkUpProps) {
  const [tool, setTool] = useState<Tool>(onItem ? "items" : "ring");
  const [words, setWords] = useState("");
  const [missing, setMissing] = useState(false);
  const { marks } = marked;
  const put = (at: Place): void => {
    const lacking = tool === "text" && !words.trim();
    setMissing(lacking);
    if (tool === "items") onItem?.(onPhoto(at, px));
    else if (!lacking) onMarks([...marks, markAt(tool, at, px, words.trim())]);
  };
  const nudge = (event: KeyboardEvent): void => {
    const [by, last] = [NUDGES[event.key], marks.at(-1)];
    if (!by || !last || tool === "items") return;
    event.preventDefault();
    onMarks([...marks.slice(0, -1), nudged(last, by, px)]);
  };
  return (
    <div class="block">
      <Tools tool={tool} withItems={onItem !== undefined} onTool={setTool} />
      {tool === "text" && <Field label={t("writeup.mark_words")} value={words} onInput={setWords} error={missing && !words.trim() ? t("writeup.mark_words_first") : null} />}
      <Picture {...{ address, px, marked, numberOf, onPut: put, onKey: nudge }} label={`${alt}. ${t(tool === "items" ? "writeup.on_photo" : "writeup.mark_tap")}`} />
      {marks.length > 0 && <button type="button" class="key" onClick={() => onMarks(marks.slice(0, -1))}>{t("writeup.undo_mark")}</button>}
    </div>
  );
}

function Tools({ tool, withItems, onTool }: { tool: Tool; withItems: boolean; onTool: (tool: Tool) => void }) {
  const numbers = withItems ? [{ key: "items" as const, label: t("writeup.numbers") }] : [];
  const marks = (["ring", "arrow", "text"] as const).map((key) => ({ key, label: t(`writeup.${key}`) }));
  return <Choice<Tool> label={t("writeup.mark_with")} options={[...numbers, ...marks]} value={tool} onChange={onTool} />;
}

interface PictureProps extends Pick<MarkUpProps, "address" | "px" | "marked" | "numberOf"> {
  label: string;
  onPut: (at: Place) => void;
  onKey: (event: KeyboardEvent) => void;
}

/** The photo under one button: Enter marks its middle, arrow keys move the last mark. */
function Picture({ address, px, marked, numberOf, label, onPut, onKey }: PictureProps) {
  const [w, h] = px;
  const tap = (event: MouseEvent & { currentTarget: Element }): void => {
    const box = event.currentTarget.getBoundingClientRect();
    if (event.detail === 0) onPut([w / 2, h / 2]);
    else onPut([((event.clientX - box.left) / box.width) * w, ((event.clientY - box.top) / box.height) * h]);
  };
  return (
    <span class="photo-frame">
      <img src={address} alt="" width={w} height={h} />
      <PhotoMarks px={px} marked={marked} numberOf={numberOf} />
      <button type="button" class="photo-press" aria-label={label} onClick={tap} onKeyDown={onKey} />
    </span>
  );
}
