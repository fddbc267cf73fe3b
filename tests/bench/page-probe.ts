/** What the bench asks of the page, from inside it. */
export interface Probe {
  /** When each part of the first picture was there, milliseconds since the visit began. */
  readonly first: Record<string, number>;
  /** From the last event of the expected kind until a needle said something else; null until then. */
  answered: number | null;
  expect(event: 'pointermove' | 'keydown'): void;
  countFrames(): void;
  framesCounted(): { readonly perSecond: number; readonly longest_ms: number };
}

declare global {
  interface Window {
    probe: Probe;
  }
}

/** Run in the page before its own code. */
export function startProbe(): void {
  let since: number | null = null;
  let frames: number[] = [];
  const first: Record<string, number> = {};
  const probe: Probe = {
    first,
    answered: null,
    expect(event) {
      probe.answered = null;
      since = null;
      window.addEventListener(event, ({ timeStamp }) => (since = timeStamp), { capture: true, once: true });
    },
    countFrames() {
      frames = [];
      const count = (now: number) => {
        frames.push(now);
        requestAnimationFrame(count);
      };
      requestAnimationFrame(count);
    },
    framesCounted() {
      const gaps = frames.slice(1).map((now, i) => now - frames[i]!);
      return {
        perSecond: (1000 * gaps.length) / (frames.at(-1)! - frames[0]!),
        longest_ms: Math.max(...gaps),
      };
    },
  };
  window.probe = probe;

  const note = (part: string, there: boolean) => {
    if (there) first[part] ??= performance.now();
  };
  const isDrawn = (canvas: Element) =>
    canvas instanceof HTMLCanvasElement && !canvas.hidden && canvas.width !== 300;
  new MutationObserver((changes) => {
    if (first.needles === undefined || first.frame === undefined) {
      note('plan', document.querySelector('.plan-svg .plan-plate') !== null);
      note('needles', document.querySelector('.needle') !== null);
      note('frame', [...document.querySelectorAll('.frame-picture canvas + canvas')].some(isDrawn));
    }
    if (since === null || probe.answered !== null) return;
    const says = changes.some(
      ({ target, attributeName }) =>
        attributeName === 'aria-label' && target instanceof Element && target.classList.contains('needle'),
    );
    if (says) probe.answered = performance.now() - since;
  }).observe(document, { subtree: true, childList: true, attributes: true });
}
