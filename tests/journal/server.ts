/** A server of a few lines: judges, folds with the real rules, answers in pages, and fails when told to. */
import { canonical, canonicalText, CURRENT, FORM, fold, PHONE_FIELDS, partKey, sha256, Workspace } from "../../webclient/src/rules";
import type { Entry, Part, PhoneEntry } from "../../webclient/src/rules";
import { uuid } from "./ids";

type Call = {
  device: string;
  epoch: string;
  cursor: number;
  chain: string | null;
  last_n: number;
  open: string[];
  sent_at: string;
  aside: string[];
  form: number;
  entries: PhoneEntry[];
};
/** `after`: how many entries stood in the journal when it was set aside. */
type Aside = { reason: string; after: number; entry: PhoneEntry };
type Fault = (answer: () => Promise<Response>) => Response | Promise<Response>;

/** As server/journal/judge.py has it. */
const USE_NO_NUMBER = ["used_number", "broken_sequence", "wrong_device", "release_offered"];

export const MODULE = uuid(7);
export const INSPECTOR = uuid(1);
export const CREW = uuid(2);

export function json(body: unknown, status = 200): Response {
  const media = status < 400 ? "application/json" : "application/problem+json";
  return new Response(JSON.stringify(body), { status, headers: { "Content-Type": media } });
}

export class FakeServer {
  epoch = "e1";
  form = FORM;
  page = 2000;
  now = Date.parse("2026-12-02T14:00:00Z");
  entries: Entry[] = [];
  aside = new Map<string, Aside>();
  /** Why what was let in had been set aside, by id. */
  letIn = new Map<string, string>();
  photos = new Map<string, Uint8Array>();
  refuse = new Map<string, string>();
  calls: Call[] = [];
  faults: Fault[] = [];
  photoFaults: Fault[] = [];
  devices = 0;
  readonly keys = new Set<string>();
  #parts = new Map<string, Part>();
  #lines = [{ after: -1, name: "e1" }];

  constructor() {
    this.say("person.named", null, INSPECTOR, { name: "Ines", roles: ["inspector"] });
    this.say("person.named", null, CREW, { name: "Cruz", roles: ["crew_lead"] });
    this.say("module.added", MODULE, MODULE, { serial: "S-1", home: "H-1" });
  }

  /** An entry of the server's own device. */
  say(kind: string, module: string | null, about: string, body: object): void {
    const n = this.entries.filter(({ device }) => device === "server").length + 1;
    const fields = { id: uuid(900 + n), device: "server", n, prev: null, epoch: this.epoch, seen: this.entries.length };
    this.take({ ...fields, at: "2026-12-01T10:00:00Z", by: "server", module, about, kind, body, rules: CURRENT } as unknown as PhoneEntry);
  }

  take(fields: PhoneEntry): number {
    const seq = this.entries.length + 1;
    const entry = { ...fields, seq, time: "2026-12-02T14:00:00Z", let_in: 0, seen_to: fields.seen } as Entry;
    this.entries.push(entry);
    this.#fold([entry]);
    return seq;
  }

  /** A manager lets in what was set aside. */
  admit(id: string): void {
    const found = this.aside.get(id);
    if (!found) throw new Error(`${id} was not set aside`);
    this.aside.delete(id);
    this.letIn.set(id, found.reason);
    this.take(found.entry);
  }

  /** An older backup comes back: as a new epoch, or, while nobody has confirmed it, in the old one. */
  restore(cut: number, epoch: string): void {
    this.#lines.push({ after: cut, name: epoch === this.epoch ? `${epoch} again` : epoch });
    this.epoch = epoch;
    this.entries = this.entries.slice(0, cut);
    for (const [id, { after }] of this.aside) if (after >= cut) this.aside.delete(id);
    for (const id of this.letIn.keys()) if (!this.entries.some((entry) => entry.id === id)) this.letIn.delete(id);
    this.#parts = new Map();
    this.#fold(this.entries);
  }

  part<T extends Part>(kind: string, id: string): T | undefined {
    return this.#parts.get(partKey(kind, id)) as T | undefined;
  }

  #fold(entries: Entry[]): void {
    const work = new Workspace((kind, id) => this.#parts.get(partKey(kind, id)));
    fold(work, entries);
    for (const [key, part] of work.changed) this.#parts.set(key, part);
  }

  readonly fetch = async (path: string | URL | Request, init: RequestInit = {}): Promise<Response> => {
    const address = String(path);
    if (address === "/api/sync") return this.#faulty(this.faults, async () => json(await this.#sync(await unpack(init))));
    if (address.startsWith("/api/photos/")) return this.#faulty(this.photoFaults, () => this.#photo(address, init));
    if (address === "/api/sign-in") return this.#signIn(JSON.parse(String(init.body)));
    if (address === "/api/sign-out") return json({ signed_out: true });
    return json({ type: "urn:x:not_found", status: 404 }, 404);
  };

  async #faulty(faults: Fault[], answer: () => Promise<Response>): Promise<Response> {
    const fault = faults.shift();
    return fault ? fault(answer) : answer();
  }

  #signIn({ name, passcode, device, device_key = "" }: { name: string; passcode: string; device?: string; device_key?: string }): Response {
    this.keys.add(device_key);
    const id = name === "Ines" ? INSPECTOR : CREW;
    if (passcode !== `${name}-pass`) return json({ type: "urn:x:wrong_passcode", status: 401 }, 401);
    const roles = name === "Ines" ? ["inspector"] : ["crew_lead"];
    if (!device) this.devices += 1;
    return json({ person: { id, name, roles, crew: null }, yard: "y1", epoch: this.epoch, device: device ?? `phone${this.devices}` });
  }

  async #photo(address: string, init: RequestInit): Promise<Response> {
    if (init.method !== "PUT") {
      const [, , , hash = ""] = address.split("/");
      const bytes = this.photos.get(hash);
      return bytes ? new Response(bytes.slice(), { headers: { "Content-Type": "image/jpeg" } }) : json({ type: "urn:x:not_found" }, 404);
    }
    const bytes = new Uint8Array(init.body as ArrayBuffer);
    const hash = await sha256(bytes);
    if (!this.entries.some(({ body }) => "sha256" in body && body.sha256 === hash)) return json({ type: "urn:x:not_wanted" }, 409);
    this.photos.set(hash, bytes);
    return json({ sha256: hash });
  }

  async #sync(call: Call): Promise<object> {
    this.calls.push(call);
    const chainAt = (seq: number): string => `${this.#lines.findLast(({ after }) => after < seq)?.name}-${seq}`;
    const known = call.cursor === 0 || (call.cursor <= this.entries.length && call.chain === chainAt(call.cursor));
    // What a phone offers from a past that this journal does not have would come out of order: it offers it again.
    const offered = known && call.epoch === this.epoch ? call.entries : [];
    const verdicts = [];
    for (const entry of offered) verdicts.push(await this.#judge(entry, call));
    const from = known ? call.cursor : 0;
    const given = call.form === this.form ? this.#parts : new Map<string, Part>();
    const changed = [...given.values()].filter(({ seq }) => seq > from).sort((a, b) => a.seq - b.seq);
    const last = changed[this.page - 1]?.seq ?? Infinity;
    const parts = changed.filter(({ seq }) => seq <= last);
    const more = parts.length < changed.length;
    const cursor = more ? last : call.form === this.form ? this.entries.length : from;
    const n = this.#last(call.device)?.n ?? 0;
    const now = new Date(this.now).toISOString();
    // As the real one keeps them: fields sorted, whatever order the rules made them in.
    const stored = parts.map((part) => JSON.parse(canonicalText(part)) as Part);
    return { rakelight: 1, epoch: this.epoch, verdicts, parts: stored, gone: [], cursor, chain: chainAt(cursor), n, from, more, now, rules: 1, form: this.form };
  }

  async #judge(entry: PhoneEntry, { device: caller, aside }: Call): Promise<object> {
    expectFields(entry);
    const hash = await sha256(canonical(entry));
    const known = this.entries.find(({ id }) => id === entry.id);
    const let_in = this.letIn.get(entry.id);
    if (known) return { id: entry.id, sha256: hash, seq: known.seq, ...(let_in ? { let_in } : {}) };
    const before = aside.includes(entry.id) ? "set_aside_before" : undefined;
    const reason = this.aside.get(entry.id)?.reason ?? this.#reason(entry, caller) ?? before;
    if (!reason) return { id: entry.id, sha256: hash, seq: this.take(entry) };
    if (!this.aside.has(entry.id)) this.aside.set(entry.id, { reason, after: this.entries.length, entry });
    return { id: entry.id, sha256: hash, set_aside: reason };
  }

  #reason({ device, n, prev, kind }: PhoneEntry, caller: string): string | undefined {
    if (device !== caller) return kind === "release.given" ? "release_offered" : "wrong_device";
    const last = this.#last(device);
    if (n <= (last?.n ?? 0)) return "used_number";
    if (n !== (last?.n ?? 0) + 1 || prev !== (last?.id ?? null)) return "broken_sequence";
    return this.refuse.get(kind);
  }

  /** The last entry that used a number of this enrolment's count. */
  #last(device: string): PhoneEntry | undefined {
    const numbered = [...this.aside.values()].filter(({ reason }) => !USE_NO_NUMBER.includes(reason)).map(({ entry }) => entry);
    const counted = this.entries.filter(({ id }) => !USE_NO_NUMBER.includes(this.letIn.get(id) ?? ""));
    return [...counted, ...numbered].filter((entry) => entry.device === device).sort((a, b) => a.n - b.n).at(-1);
  }
}

function expectFields(entry: PhoneEntry): void {
  const keys = Object.keys(entry).sort().join();
  if (keys !== [...PHONE_FIELDS].sort().join()) throw new Error(`fields: ${keys}`);
}

async function unpack(init: RequestInit): Promise<Call> {
  const gzip = new Headers(init.headers).get("Content-Encoding") === "gzip";
  const body = new Blob([init.body as Uint8Array<ArrayBuffer>]);
  const plain = gzip ? body.stream().pipeThrough(new DecompressionStream("gzip")) : body.stream();
  return (await new Response(plain).json()) as Call;
}

/** Faults of the road and of what stands in it. */
export const lostReply: Fault = async (answer) => {
  await answer();
  throw new TypeError("fetch failed");
};
export const lostCall: Fault = () => {
  throw new TypeError("fetch failed");
};
export const portal: Fault = () => new Response("<html>Welcome</html>", { headers: { "Content-Type": "text/html" } });
export const status =
  (code: number, headers: Record<string, string> = {}): Fault =>
  () =>
    new Response(JSON.stringify({ type: "urn:x:some", status: code }), {
      status: code,
      headers: { "Content-Type": "application/problem+json", ...headers },
    });
export const changed =
  (change: (body: Record<string, unknown>) => Record<string, unknown>): Fault =>
  async (answer) =>
    json(change((await (await answer()).json()) as Record<string, unknown>));
export const cutShort: Fault = async (answer) =>
  new Response((await (await answer()).text()).slice(0, 40), { headers: { "Content-Type": "application/json" } });
