import { useEffect, useState } from "preact/hooks";
import { newId } from "../../clock";
import type { Marked } from "../../parts";
import { NoPhoto, take } from "../../photos";
import { say, t, tn } from "../../words";
import { MarkUp, numbers } from "../common";
import { spread, type Half, type KeptPhoto } from "./WriteUp";

export interface HalfPhotosProps {
  half: Half;
  marks: readonly Marked[];
  surface: string;
  /** Handed what to do with the photos that stand then: one being made smaller must undo nothing that came meanwhile. */
  onPhotos: (next: (photos: KeptPhoto[]) => KeptPhoto[]) => Promise<void>;
  /** Keeps what is half written before the camera opens: some phones reload the page meanwhile. */
  keepFirst: () => Promise<void>;
}

/** Photos of the wall: from the camera or from the phone; a tap on one says where the next item is on it. */
export function HalfPhotos({ half, marks, surface, onPhotos, keepFirst }: HalfPhotosProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const add = async (input: HTMLInputElement): Promise<void> => {
    const file = input.files?.[0];
    if (!file) return;
    setBusy(true);
    try {
      const taken = await take(file);
      await onPhotos((photos) => [...photos, { ...taken, id: newId(), at: {}, marks: [] }]);
      setProblem(null);
    } catch (error) {
      if (!(error instanceof NoPhoto)) throw error;
      setProblem(say(error.key));
    } finally {
      input.value = "";
      setBusy(false);
    }
  };
  return (
    <section class="block">
      <div class="key-row">
        <PhotoKey label={t(half.photos.length > 0 ? "writeup.photo_again" : "writeup.photo")} camera onOpen={keepFirst} onFile={add} />
        <PhotoKey label={t("writeup.file")} onOpen={keepFirst} onFile={add} />
      </div>
      {busy && <p role="status">{t("writeup.photo_busy")}</p>}
      {problem && <p class="late" role="alert">{problem}</p>}
      {half.photos.length > 0 && marks.length > 0 && (
        <p class="second">{tn("writeup.photo_marked", half.photos.length, { numbers: numbers(marks.map((mark) => Number(mark.number))) })}</p>
      )}
      {half.photos.map((photo) => (
        <OnePhoto key={photo.id} photo={photo} marks={marks} alt={t("writeup.photo_alt", { surface })} onChange={(part) => void onPhotos((photos) => photos.map((one) => (one.id === photo.id ? { ...one, ...part } : one)))} onRemove={() => void onPhotos((photos) => photos.filter((one) => one.id !== photo.id))} />
      ))}
    </section>
  );
}

/** A file input that looks and works as a key; the camera's hides the gallery on some phones, so both are offered. */
export function PhotoKey({ label, camera, onOpen, onFile }: { label: string; camera?: boolean; onOpen?: () => Promise<void>; onFile: (input: HTMLInputElement) => Promise<unknown> }) {
  return (
    <label class="key ring-when-focused">
      {label}
      <input class="heard" type="file" accept="image/*" {...(camera ? { capture: "environment" as const } : {})} onClick={() => void onOpen?.()} onChange={(event) => void onFile(event.currentTarget)} />
    </label>
  );
}

function OnePhoto({ photo, marks, alt, onChange, onRemove }: { photo: KeptPhoto; marks: readonly Marked[]; alt: string; onChange: (part: Partial<KeptPhoto>) => void; onRemove: () => void }) {
  const [address, setAddress] = useState("");
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([photo.bytes], { type: photo.media }));
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [photo.sha256]);
  const place = (at: [number, number]): void => {
    const waiting = marks.find((mark) => !photo.at[mark.id]) ?? marks.at(-1);
    if (waiting) onChange({ at: { ...photo.at, [waiting.id]: at } });
  };
  const items = marks.map((mark, index): [string, number, number] => [mark.id, ...(photo.at[mark.id] ?? spread(photo.px, index, marks.length))]);
  const numberOf = (item: string): number => Number(marks.find((mark) => mark.id === item)?.number ?? 0);
  return (
    <div class="block">
      <MarkUp address={address} alt={alt} px={photo.px} marked={{ items, marks: photo.marks ?? [] }} numberOf={numberOf} onItem={place} onMarks={(next) => onChange({ marks: next })} />
      <button type="button" class="key" onClick={onRemove}>{t("writeup.remove_photo")}</button>
    </div>
  );
}
