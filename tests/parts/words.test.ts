import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, it } from "vitest";
import { clockTime, sameDay, sayTime } from "../../webclient/src/parts/times";
import { known, language, say, speak, t, tn } from "../../webclient/src/words";

const here = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

afterEach(() => speak("en"));

describe("sentences", () => {
  it("are filled, counted and changed with the language", () => {
    expect(tn("frame.entries", 1)).toBe("1 entry");
    expect(tn("frame.entries", 2)).toBe("2 entries");
    expect(t("frame.only_here", { what: "2 entries" })).toBe("Only on this phone: 2 entries");
    speak("es");
    expect(language.value).toBe("es");
    expect(t("frame.state_open")).toBe("Por arreglar");
  });

  it("show an unknown key rather than nothing", () => {
    expect(known("frame.no_such_key")).toBe(false);
    expect(say("frame.no_such_key")).toBe("frame.no_such_key");
  });

  it("are named by keys that the compiler knows, in every topic", () => {
    const typed = readFileSync(here("webclient/src/words-keys.ts"), "utf8");
    expect(topics.filter((name) => !typed.includes(`& typeof ${name.replace(".json", "")}`) && !typed.includes(`= typeof ${name.replace(".json", "")}`))).toEqual([]);
    // @ts-expect-error a slip in a key does not compile, also where screens of the office name it
    expect(t("manager.no_such_key")).toBe("manager.no_such_key");
  });

  const topics = readdirSync(here("server/words")).filter((name) => name.endsWith(".json"));
  it.each(topics)("%s has both languages, with the same holes, under its own name", (name) => {
    const table = JSON.parse(readFileSync(here(`server/words/${name}`), "utf8")) as Record<string, Record<string, string>>;
    const holes = (text: string): string[] => [...new Set(text.match(/\{\w+\}/g) ?? [])].sort();
    for (const [key, said] of Object.entries(table)) {
      expect(key.split(".")[0], key).toBe(name.replace(".json", ""));
      expect(Object.keys(said).sort(), key).toEqual(["en", "es"]);
      expect(said["en"]?.trim() && said["es"]?.trim(), key).toBeTruthy();
      expect(holes(said["es"] ?? ""), key).toEqual(holes(said["en"] ?? ""));
    }
  });

  it("exist for every key that a screen names", () => {
    const missing: string[] = [];
    const source = here("webclient/src");
    for (const name of readdirSync(source, { recursive: true, encoding: "utf8" })) {
      if (!/\.tsx?$/.test(name) || name.includes("gallery")) continue;
      const text = readFileSync(join(source, name), "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "");
      for (const [, call, key] of text.matchAll(/\b(tn|t|say|sayCount)\(\s*"([a-z_]+\.[a-z0-9_.]+)"/g)) {
        const counted = call === "tn" || call === "sayCount";
        if (counted ? !(known(`${key}_one`) && known(`${key}_other`)) : !known(key ?? "")) missing.push(`${name}: ${key}`);
      }
    }
    expect(missing).toEqual([]);
  });
});

describe("times", () => {
  const zone = "America/Boise";
  const now = "2026-12-02T15:20:14Z";
  it.each([
    ["2026-12-02T15:20:14Z", "8:20 am"],
    ["2026-12-02T14:00:00Z", "7 am"],
    ["2026-12-02T01:30:00Z", "yesterday 6:30 pm"],
    ["2026-12-03T14:00:00Z", "tomorrow 7 am"],
    ["2026-12-07T19:40:00Z", "Mon, Dec 7, 12:40 pm"],
  ])("%s is said as %s in the yard's zone", (instant, said) => {
    expect(sayTime(instant, now, zone, "en")).toBe(said);
  });

  it("knows one day of the yard from the next, whatever the day elsewhere", () => {
    expect(sameDay("2026-12-02T23:30:00Z", "2026-12-03T06:59:00Z", zone)).toBe(true);
    expect(sameDay("2026-12-03T06:59:00Z", "2026-12-03T07:00:00Z", zone)).toBe(false);
  });

  it("keeps its day over a change of the clocks", () => {
    expect(sayTime("2026-11-01T12:00:00Z", "2026-10-31T18:00:00Z", zone, "en")).toBe("tomorrow 5 am");
    expect(clockTime("2026-12-02T15:20:14Z", zone, "es")).toBe("8:20 a. m.");
  });
});
