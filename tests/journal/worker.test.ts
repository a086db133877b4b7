import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { answerTo, concerns, dropOthers, fill } from "../../webclient/src/worker/cache";

const kept = new Map<string, Map<string, Response>>();
const files = ["/", "/assets/a1.js"];

beforeEach(() => {
  kept.clear();
  vi.stubGlobal("Request", class extends Request {
    constructor(path: string | URL | Request, init?: RequestInit) {
      super(typeof path === "string" ? new URL(path, "https://yard.example") : path, init);
    }
  });
  vi.stubGlobal("caches", {
    open: async (name: string) => {
      const cache = kept.get(name) ?? new Map<string, Response>();
      kept.set(name, cache);
      return {
        put: async (path: string, answer: Response) => void cache.set(path, answer),
        match: async (path: string) => cache.get(path)?.clone(),
      };
    },
    keys: async () => [...kept.keys()],
    delete: async (name: string) => kept.delete(name),
  });
});
afterEach(() => vi.unstubAllGlobals());

function server(answers: Record<string, [string, string]>): void {
  vi.stubGlobal("fetch", async (request: Request) => {
    const [media, body] = answers[new URL(request.url).pathname] ?? ["text/html", "<p>404</p>"];
    return new Response(body, { headers: { "Content-Type": media } });
  });
}

describe("the service worker's files", () => {
  it("are kept whole, and any page address is answered with the one page", async () => {
    server({ "/": ["text/html", "page"], "/assets/a1.js": ["text/javascript", "code"] });
    await fill("1", files);
    const deep = { url: "https://yard.example/modules/7", mode: "navigate" } as Request;
    expect(await (await answerTo(deep, "1"))?.text()).toBe("page");
    expect(await (await answerTo(new Request("/assets/a1.js"), "1"))?.text()).toBe("code");
    expect(await answerTo(new Request("/assets/other.js"), "1")).toBeUndefined();
  });

  it("are not kept at all when a captive portal answers for one of them", async () => {
    server({ "/": ["text/html", "page"] });
    await expect(fill("1", files)).rejects.toThrow("/assets/a1.js");
    expect(kept.size).toBe(0);
  });

  it("of older builds go, and nothing else does", async () => {
    server({ "/": ["text/html", "page"], "/assets/a1.js": ["text/javascript", "code"] });
    await fill("1", files);
    await fill("2", files);
    kept.set("somebody else's", new Map());
    await dropOthers("2");
    expect([...kept.keys()].sort()).toEqual(["rakelight-shell-2", "somebody else's"]);
  });

  it("never concern /api, other sites, or anything but reading", () => {
    const here = "https://yard.example";
    const concern = (path: string, init?: RequestInit): boolean => concerns(new Request(path, init), here);
    expect(concern("/modules/7")).toBe(true);
    expect(concern("/api/health")).toBe(false);
    expect(concern("/api/modules/7/packet.pdf")).toBe(false);
    expect(concern("/", { method: "POST" })).toBe(false);
    expect(concern("https://other.example/a.js")).toBe(false);
  });
});
