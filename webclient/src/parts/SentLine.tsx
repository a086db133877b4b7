import { t, tn } from "../words";
import { PencilMark } from "./PencilMark";
import "./marks.css";
import "./page.css";

export interface SentLineProps {
  /** Entries and photos that are only on this phone. */
  unsent: number;
  photosUnsent: number;
  /** When everything was last sent, as people say it (*8:20 am*); null when never. */
  sentAt: string | null;
  /** Read-only screens say *as the office had it at …* instead. */
  reading?: boolean | undefined;
  /** A whole sentence when something stands in the way: what happened, what is safe, what to do. */
  problem?: string | null | undefined;
  /** One thing to do about it, as words: *Sign in again*, *Save them to a file*. */
  action?: { label: string; onPress: () => void } | undefined;
}

function onlyHere(unsent: number, photosUnsent: number): string {
  const what: string[] = [];
  if (unsent > 0) what.push(tn("frame.entries", unsent));
  if (photosUnsent > 0) what.push(tn("frame.photos", photosUnsent));
  return t("frame.only_here", { what: what.join(", ") });
}

/** What has been sent and what is only on this phone. Never hidden, on any screen. */
export function SentLine({ unsent, photosUnsent, sentAt, reading, problem, action }: SentLineProps) {
  const waiting = unsent > 0 || photosUnsent > 0;
  const calm = sentAt === null ? t("frame.sent_nothing_yet") : t(reading ? "frame.as_office" : "frame.sent_all", { time: sentAt });
  return (
    <div class="sent-line">
      <div class="sent-words" role="status">
        <p>
          {(waiting || sentAt !== null) && <PencilMark state={waiting ? "only_here" : "sent"} size={waiting ? 22 : 18} />}
          <span>{waiting ? onlyHere(unsent, photosUnsent) : calm}</span>
        </p>
        {problem && <p class="sent-problem">{problem}</p>}
      </div>
      {action && (
        <button type="button" class="key" onClick={action.onPress}>
          {action.label}
        </button>
      )}
    </div>
  );
}
