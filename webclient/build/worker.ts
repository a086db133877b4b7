import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { build, type Plugin } from "vite";

/**
 * Builds the service worker after the page, as one classic script at the fixed address /sw.js, and tells it what the
 * page is made of. A build of its own, because it may share no chunk with the page: not every browser lets a service
 * worker import.
 */
export function serviceWorker(entry: string, out: string): Plugin {
  return {
    name: "rakelight-service-worker",
    apply: "build",
    async closeBundle() {
      if (!existsSync(entry)) return;
      await build({
        configFile: false,
        publicDir: false,
        logLevel: "warn",
        define: { __SHELL__: JSON.stringify(shell(out)) },
        build: {
          outDir: out,
          emptyOutDir: false,
          target: "es2022",
          rolldownOptions: { input: entry, output: { format: "iife", entryFileNames: "sw.js" } },
        },
      });
    },
  };
}

/** Every built file but the worker itself; the version is a hash of names and bytes. */
function shell(out: string): { version: string; files: string[] } {
  const names = readdirSync(out, { recursive: true, withFileTypes: true })
    .filter((file) => file.isFile() && file.name !== "sw.js" && !file.name.endsWith(".map"))
    .map((file) => join(file.parentPath, file.name).slice(out.length).replaceAll("\\", "/"))
    .sort();
  const hash = createHash("sha256");
  for (const name of names) hash.update(name).update(readFileSync(join(out, name)));
  return {
    version: hash.digest("hex").slice(0, 16),
    files: names.map((name) => (name === "/index.html" ? "/" : name)),
  };
}
