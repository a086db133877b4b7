import type { Line } from "../../rules";
import { known, say, t } from "../../words";
import { nameOf, when } from "../common";

/** What happened, in order, with what had no effect and why. */
export function History({ lines }: { lines: readonly Line[] }) {
  return (
    <section class="block">
      <h2>{t("yard.history")}</h2>
      <ol class="history">
        {lines.map((line, index) => (
          <li key={index}>
            <b>{say(known(`kinds.${line.kind}`) ? `kinds.${line.kind}` : "kinds.unknown")}</b> {t("writeup.by_at", { name: nameOf(line.by), time: when(line.time) })}
            <Extra line={line} />
          </li>
        ))}
      </ol>
    </section>
  );
}

function Extra({ line }: { line: Line }) {
  const body = (line.body ?? {}) as Record<string, unknown>;
  const words: string[] = [];
  if (typeof body["reason"] === "string") words.push(known(`reasons.${body["reason"]}`) ? say(`reasons.${body["reason"]}`) : body["reason"]);
  if (typeof body["text"] === "string" && body["text"]) words.push(body["text"]);
  if (typeof body["defect"] === "string") words.push(say(`defects.${body["defect"]}`));
  if (typeof body["wish"] === "string") words.push(body["wish"]);
  if (Array.isArray(body["steps"])) words.push(body["steps"].map((step) => say(`steps.${String(step)}`)).join(", "));
  if (Array.isArray(body["done_by"])) words.push(t("writeup.done_by", { names: body["done_by"].map((person) => nameOf(String(person))).join(", ") }));
  if (line.ended) words.push(t("writeup.ended", { what: line.ended.map((what) => say(`writeup.ended.${what}`)).join(", ") }));
  if (line.let_in) words.push(t("writeup.let_in"));
  return (
    <>
      {words.length > 0 && <p class="second">{words.join(". ")}</p>}
      {line.no && <p class="late">{t("writeup.no_effect", { reason: say(`reasons.${line.no}`) })}</p>}
    </>
  );
}
