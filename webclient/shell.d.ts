/** What the service worker keeps so that the app opens with no signal; written in by the build (build/worker.ts). */
declare const __SHELL__: {
  /** Changes whenever one of the files does. */
  readonly version: string;
  /** Addresses from the root, "/" for the page itself. */
  readonly files: readonly string[];
};
