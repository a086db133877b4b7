/** Time and chance: the only place in the client that reads either. Mirrors server/clock.py. */

export type Device = { millis(): number; bytes(count: number): Uint8Array<ArrayBuffer> };

const machine: Device = {
  millis: () => Date.now(),
  bytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
};

let device: Device = machine;
let error = 0;
let lastId = 0;

/** Tests hand in their own clock and chance; nothing gives the machine's back. */
export function setDevice(other?: Device): void {
  device = other ?? machine;
  error = 0;
  lastId = 0;
}

/** How far the server's clock is ahead of this phone's, in milliseconds, as last measured. */
export function setClockError(millis: number): void {
  error = millis;
}

export function clockError(): number {
  return error;
}

/** What this phone's own clock says, in milliseconds since 1970. */
export function deviceMillis(): number {
  return device.millis();
}

/** Now as the server would reckon it: the phone's clock corrected by the error last measured. */
export function now(): Date {
  return new Date(device.millis() + error);
}

/** An instant as UTC in whole seconds: 2026-12-02T14:20:14Z. */
export function stamp(instant: Date): string {
  return `${instant.toISOString().slice(0, 19)}Z`;
}

/** The reckoned now, as parts write instants. */
export function nowStamp(): string {
  return stamp(now());
}

/** The phone's own time with its local offset (2026-12-02T08:20:14-06:00), uncorrected: `at` keeps what the phone said. */
export function localTime(): string {
  const moment = new Date(device.millis());
  const offset = -moment.getTimezoneOffset();
  const shifted = new Date(moment.getTime() + offset * 60_000).toISOString().slice(0, 19);
  const size = Math.abs(offset);
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${shifted}${offset < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** The instant that an RFC 3339 text names, in milliseconds; NaN when it names none. */
export function readInstant(text: string): number {
  return new Date(text).getTime();
}

/** A UUIDv7 (RFC 9562), never older than the one before. */
export function newId(): string {
  lastId = Math.max(device.millis(), lastId + 1);
  const bytes = device.bytes(16);
  for (let at = 0, rest = lastId; at < 6; at += 1) {
    bytes[5 - at] = rest % 256;
    rest = Math.floor(rest / 256);
  }
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** Random bytes, for salts. */
export function randomBytes(count: number): Uint8Array<ArrayBuffer> {
  return device.bytes(count);
}

/** A number from 0 up to 1, for jitter. */
export function random(): number {
  return (device.bytes(1)[0] ?? 0) / 256;
}
