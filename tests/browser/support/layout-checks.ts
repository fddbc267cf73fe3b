/*
 * Run in the page, each by itself: what a function needs stands in it. All give words for what is wrong, an empty list where
 * nothing is.
 */

/** Words of controls and heads that are cut: wider than where they stand, without dots and the whole in a title. */
export function clippedTexts(): string[] {
  const wanted =
    'button, label, legend, h1, h2, h3, th, summary, [role=tab], .quiet, .field-label, bdi, dt, dd';
  return [...document.querySelectorAll<HTMLElement>(wanted)].flatMap((element) => {
    const style = getComputedStyle(element);
    if (!element.checkVisibility() || style.display === 'inline' || element.closest('svg, .out-of-sight'))
      return [];
    // Out of sight by its own style, for ears alone.
    if (element.clientWidth <= 1 || element.scrollWidth <= element.clientWidth + 1) return [];
    if (/auto|scroll/.test(style.overflowX)) return [];
    if (style.textOverflow === 'ellipsis' && element.closest('[title]')) return [];
    const words = element.textContent?.trim().slice(0, 40);
    return [
      `${element.tagName} .${element.className} "${words}": ${element.scrollWidth} in ${element.clientWidth}`,
    ];
  });
}

/** Pairs of controls that lie over each other where both can be seen. Things on the drawings are meant to. */
export function overlappingControls(): string[] {
  const wanted = 'button, select, textarea, input, a[href], [role=tab], [role=slider], [role=switch]';
  const seen = [...document.querySelectorAll<HTMLElement>(wanted)].flatMap((element) => {
    if (
      !element.checkVisibility({ opacityProperty: true }) ||
      element.closest('svg, .rule-body, .frame-picture')
    )
      return [];
    const box = element.getBoundingClientRect();
    let [left, top, right, bottom] = [box.left, box.top, box.right, box.bottom];
    for (let around = element.parentElement; around; around = around.parentElement) {
      if (getComputedStyle(around).overflow === 'visible') continue;
      const edge = around.getBoundingClientRect();
      left = Math.max(left, edge.left);
      top = Math.max(top, edge.top);
      right = Math.min(right, edge.right);
      bottom = Math.min(bottom, edge.bottom);
    }
    return right - left > 2 && bottom - top > 2 ? [{ element, left, top, right, bottom }] : [];
  });
  const name = (element: HTMLElement) =>
    `${element.tagName} "${(element.getAttribute('aria-label') ?? element.textContent ?? '').trim().slice(0, 30)}"`;
  return seen.flatMap((one, i) =>
    seen.slice(i + 1).flatMap((other) => {
      if (one.element.contains(other.element) || other.element.contains(one.element)) return [];
      const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
      const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
      // Buttons of a group share an edge.
      return across > 1.5 && down > 1.5 ? [`${name(one.element)} and ${name(other.element)}`] : [];
    }),
  );
}

/** Controls of these parts that are cut by an edge: all of them are to be in sight at once. */
export function controlsOutOfSight(parts: string): string[] {
  return [...document.querySelectorAll<HTMLElement>(parts)].flatMap((part) =>
    [...part.querySelectorAll<HTMLElement>('button, select, [role=tab]')].flatMap((element) => {
      if (!element.checkVisibility()) return [];
      const box = element.getBoundingClientRect();
      for (let around = element.parentElement; around; around = around.parentElement) {
        if (around !== document.documentElement && getComputedStyle(around).overflow === 'visible') continue;
        const edge = around.getBoundingClientRect();
        const inside =
          box.left >= edge.left - 1 &&
          box.right <= edge.right + 1 &&
          box.top >= edge.top - 1 &&
          box.bottom <= edge.bottom + 1;
        if (!inside) return [`"${element.textContent?.trim().slice(0, 30)}" in .${part.className}`];
      }
      return [];
    }),
  );
}
