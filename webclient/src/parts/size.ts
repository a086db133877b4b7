import { useLayoutEffect, useRef, useState } from "preact/hooks";

/** The width that a drawing may take, followed as the screen turns. Put `ref` on the element that holds it. */
export function useWidth(first: number) {
  const ref = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(first);
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return undefined;
    const measure = (): void => {
      const style = getComputedStyle(element);
      const inside = element.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
      if (inside > 0) setWidth(inside);
    };
    measure();
    if (typeof ResizeObserver === "undefined") return undefined;
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return { ref, width };
}

/** A share of the screen's height, for drawings that leave room for what is pressed. */
export function shareOfHeight(share: number, least: number): number {
  return Math.max(least, Math.round((typeof innerHeight === "undefined" ? 844 : innerHeight) * share));
}
