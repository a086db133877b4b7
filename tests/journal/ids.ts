/** A UUIDv7 that can be read. */
export const uuid = (count: number): string => `01900000-0000-7000-8000-${String(count).padStart(12, "0")}`;
