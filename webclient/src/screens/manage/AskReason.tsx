import { useState } from "preact/hooks";
import { Confirm, Field } from "../../parts";
import { t } from "../../words";

interface AskReasonProps {
  question: string;
  label: string;
  yes: string;
  onYes: (reason: string) => void;
  onNo: () => void;
}

/** A question that wants its reason in writing before it is answered. */
export function AskReason({ question, label, yes, onYes, onNo }: AskReasonProps) {
  const [reason, setReason] = useState("");
  return (
    <Confirm question={question} yes={yes} onYes={() => onYes(reason.trim())} onNo={onNo} why={reason.trim() ? null : t("manager.why_first")}>
      <Field label={label} value={reason} onInput={setReason} lines={2} />
    </Confirm>
  );
}
