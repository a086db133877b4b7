/** Whether the browser would not keep more: the phone is full, or what it lends to this site is. */
export const isFull = (error: unknown): boolean => error instanceof DOMException && error.name === "QuotaExceededError";
