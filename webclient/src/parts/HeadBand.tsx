import type { ComponentChildren } from "preact";
import "./page.css";

export interface HeadBandProps {
  /** Where you are, in the trade's words: *Bath 2*, *Wall B, mirror wall*. */
  title: ComponentChildren;
  /** The line under it: module, bay, pickup. */
  line?: ComponentChildren;
  /** The small line above the title; a link back where `overHref` is given. */
  over?: ComponentChildren;
  overHref?: string | undefined;
  /** Instead of going there, where this is another face of the same address. */
  onOver?: (() => void) | undefined;
  /** Words at the right, such as who is signed in. */
  side?: ComponentChildren;
}

/** The dark band at the head of every screen, with the low warm beam along its foot. */
export function HeadBand({ title, line, over, overHref, onOver, side }: HeadBandProps) {
  const back = (event: MouseEvent): void => {
    if (!onOver || event.metaKey || event.ctrlKey || event.shiftKey) return;
    event.preventDefault();
    onOver();
  };
  return (
    <header class="head-band">
      <div class="head-words">
        {over !== undefined &&
          (overHref === undefined ? (
            <p class="head-over">{over}</p>
          ) : (
            <a class="head-over head-back" href={overHref} onClick={back}>
              <span aria-hidden="true">←</span> {over}
            </a>
          ))}
        <h1 tabIndex={-1}>{title}</h1>
        {line !== undefined && <p class="head-line">{line}</p>}
      </div>
      {side !== undefined && <div class="head-side">{side}</div>}
    </header>
  );
}

export interface PageProps {
  head: ComponentChildren;
  sent: ComponentChildren;
  slabs?: ComponentChildren;
  children: ComponentChildren;
  /** One column by default; *broad* has room for a drawing beside its list. */
  breadth?: "column" | "broad" | undefined;
}

/** A whole screen: the head and the line of what was sent stay in view, pressing happens at the bottom. */
export function Page({ head, sent, slabs, children, breadth = "column" }: PageProps) {
  return (
    <div class={`page page-${breadth}`}>
      <div class="page-head">
        {head}
        <div class="page-sent">{sent}</div>
      </div>
      <main class="page-main">{children}</main>
      {slabs}
    </div>
  );
}
