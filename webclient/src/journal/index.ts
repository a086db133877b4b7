/** The phone's memory: write entries, read parts, sync. */

export { draft } from "./drafts";
export { drawnFrom, linesOf, type Drawn, type Thing } from "./drawn";
export { expectedNumber } from "./expected";
export { exportUnsent, saveUnsent } from "./export";
export { drawn } from "./open";
export { all, partNow, partsOf, settledAt } from "./parts";
export { askRelease } from "./release";
export { openJournal } from "./start";
export { state } from "./state";
export { syncNow } from "./sync";
export { NotWritten, write, type Draft, type Options } from "./write";
