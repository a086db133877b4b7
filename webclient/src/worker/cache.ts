/** What the worker keeps: the files of one build, whole or not at all. Nothing of /api, nothing that was redirected. */

const PREFIX = "rakelight-shell-";

export const nameOf = (version: string): string => PREFIX + version;

/** Fetches every file of the build past the browser's own cache. Throws, and keeps nothing, when one fails. */
export async function fill(version: string, files: readonly string[]): Promise<void> {
  const answers = await Promise.all(files.map(fetchWhole));
  const cache = await caches.open(nameOf(version));
  await Promise.all(files.map((file, at) => put(cache, file, answers[at])));
}

async function fetchWhole(file: string): Promise<Response> {
  const answer = await fetch(new Request(file, { cache: "reload", redirect: "error", credentials: "omit" }));
  const page = (answer.headers.get("Content-Type") ?? "").includes("text/html");
  // A captive portal says 200 to anything, with a page.
  if (answer.status !== 200 || page !== (file === "/")) throw new Error(`not ours: ${file}`);
  return answer;
}

async function put(cache: Cache, file: string, answer: Response | undefined): Promise<void> {
  if (answer) await cache.put(file, answer);
}

/** Drops the files of all other builds. */
export async function dropOthers(version: string): Promise<void> {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== nameOf(version));
  await Promise.all(names.map((name) => caches.delete(name)));
}

/** The kept file for a request, or undefined when this is not ours to answer. Any page address is the one page. */
export async function answerTo(request: Request, version: string): Promise<Response | undefined> {
  const { pathname } = new URL(request.url);
  const cache = await caches.open(nameOf(version));
  return cache.match(request.mode === "navigate" ? "/" : pathname, { ignoreVary: true });
}

/** Whether the worker has a say in a request at all. */
export function concerns(request: Request, origin: string): boolean {
  const url = new URL(request.url);
  return request.method === "GET" && url.origin === origin && !url.pathname.startsWith("/api/");
}
