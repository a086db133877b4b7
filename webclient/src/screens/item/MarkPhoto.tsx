import { useEffect, useState } from "preact/hooks";
import { write } from "../../journal";
import { pictureOf } from "../../photos";
import { value, type Marked, type PhotoPart } from "../../rules";
import { t } from "../../words";
import { MarkUp, Photo, told, useKept, useSaving } from "../common";

export interface ItemPhotoProps {
  photo: PhotoPart;
  numberOf: (item: string) => number | null;
  /** The person may mark it. */
  may: boolean;
}

/** A photo of an item, with a key that opens it for marking. */
export function ItemPhoto({ photo, numberOf, may }: ItemPhotoProps) {
  const [open, setOpen] = useState(false);
  return (
    <div class="block">
      {open ? <Marking photo={photo} numberOf={numberOf} onDone={() => setOpen(false)} /> : <Photo photo={photo} numberOf={numberOf} />}
      {may && (
        <button type="button" class="key" aria-expanded={open} onClick={() => setOpen(!open)}>
          {t(open ? "frame.never_mind" : "writeup.mark_photo")}
        </button>
      )}
    </div>
  );
}

function Marking({ photo, numberOf, onDone }: Omit<ItemPhotoProps, "may"> & { onDone: () => void }) {
  const slot = `marks ${photo.id}`;
  const half = useKept<Marked | null>(slot, null);
  const { problem, saving } = useSaving();
  const [address, setAddress] = useState("");
  useEffect(() => void pictureOf(photo.sha256, "screen").then(setAddress), [photo.sha256]);
  const settled = value(photo.heads, "marked") ?? { items: [], marks: [] };
  const marked = half.value ?? settled;
  const save = (): Promise<boolean> =>
    saving(async () => {
      await write([{ kind: "photo.marked", module: photo.module, about: photo.id, body: marked }], [], { draft: slot });
      half.drop();
      told.value = t("writeup.marks_saved");
      onDone();
    });
  return (
    <>
      {problem && <p class="late" role="alert">{problem}</p>}
      <MarkUp address={address} alt={t(`writeup.${photo.shows}`)} px={photo.px} marked={marked} numberOf={numberOf} onMarks={(marks) => void half.keep({ ...marked, marks })} />
      <button type="button" class="key key-full" disabled={!half.value} onClick={() => void save()}>{t("writeup.marks_save")}</button>
    </>
  );
}
