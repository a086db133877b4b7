import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { preloadFonts } from "./build/fonts.ts";
import { serviceWorker } from "./build/worker.ts";

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const out = at("../server/static");

export default defineConfig({
  root: at("."),
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  plugins: [preloadFonts(), serviceWorker(at("src/worker/sw.ts"), out)],
  build: {
    outDir: out,
    emptyOutDir: true,
    target: "es2022",
    // A picture or font inside a style sheet would be loaded again with every change of it.
    assetsInlineLimit: 0,
  },
  server: {
    // The rules' tables and the words lie beside the server that shares them.
    fs: { allow: [at("..")] },
    proxy: { "/api": "http://127.0.0.1:8000" },
  },
  test: {
    // Both languages' tests of one room lie in one folder.
    dir: at("../tests"),
    include: ["**/*.test.ts", "**/*.test.tsx"],
    passWithNoTests: true,
    // On the page they come with the screens that say them.
    setupFiles: [at("src/words-rest.ts")],
  },
});
