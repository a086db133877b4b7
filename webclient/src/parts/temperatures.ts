/** Temperatures as people on a US site say them; inside they are whole tenths of a degree Celsius. */
import { fahrenheit, whole } from "../rules";

/** `70 °F`. */
export function degrees(tenths: number): string {
  return `${whole(fahrenheit(tenths) / 10)}\u00a0°F`;
}

/** `70 °F (21 °C)`. */
export function degreesBoth(tenths: number): string {
  return `${degrees(tenths)} (${whole(tenths / 10)}\u00a0°C)`;
}
