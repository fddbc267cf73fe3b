import type { Page } from 'playwright-core';
import { settled } from './open-page.ts';

export interface Place {
  readonly x: number;
  readonly y: number;
}

/** Fingers on the screen: all that are down are named, in the order in which they came down. */
export interface Fingers {
  down(...places: readonly Place[]): Promise<void>;
  move(...places: readonly Place[]): Promise<void>;
  up(): Promise<void>;
}

/** The browser's own touches, as a screen reports them. */
export async function fingersOn(page: Page): Promise<Fingers> {
  const session = await page.context().newCDPSession(page);
  const send = async (type: 'touchStart' | 'touchMove' | 'touchEnd', places: readonly Place[]) => {
    const touchPoints = places.map(({ x, y }, id) => ({ x, y, id }));
    await session.send('Input.dispatchTouchEvent', { type, touchPoints });
    await settled(page);
  };
  return {
    down: (...places) => send('touchStart', places),
    move: (...places) => send('touchMove', places),
    up: () => send('touchEnd', []),
  };
}

/** From some places to others, in so many steps as a hand makes. */
export async function dragFingers(
  fingers: Fingers,
  from: readonly Place[],
  to: readonly Place[],
  steps = 5,
): Promise<void> {
  await fingers.down(...from);
  for (let step = 1; step <= steps; step++) {
    const part = step / steps;
    await fingers.move(
      ...from.map(({ x, y }, i) => ({ x: x + part * (to[i]!.x - x), y: y + part * (to[i]!.y - y) })),
    );
  }
  await fingers.up();
}
