import { type RefObject, useLayoutEffect, useState } from 'react';

/** Width and height of an element's inside, px, as it is laid out; 0 before it is. */
export function useSize(ref: RefObject<HTMLElement | null>): {
  readonly width_px: number;
  readonly height_px: number;
} {
  const [size, setSize] = useState({ width_px: 0, height_px: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const measure = () => {
      const { clientWidth: width_px, clientHeight: height_px } = element;
      setSize((before) =>
        before.width_px === width_px && before.height_px === height_px ? before : { width_px, height_px },
      );
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return size;
}
