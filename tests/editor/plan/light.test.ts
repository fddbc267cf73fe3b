import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { isoLines } from '../../../src/editor/plan/light/iso-lines.ts';
import { isCurrent, keepLight } from '../../../src/editor/plan/light/keep-light.ts';
import { newLightDesk } from '../../../src/editor/plan/light/light-desk.ts';
import { type LightLattice, lightLattice } from '../../../src/editor/plan/light/light-lattice.ts';
import { beginGesture, edit, endGesture } from '../../../src/editor/store/edits.ts';
import { changesSince } from '../../../src/editor/worker/document-changes.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../../src/scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { smallScene } from '../../support/scenes.ts';
import { drawnScene } from './support/drawn-scene.ts';

const NO_FILES = { photometry: new Map(), meshes: new Map() };

/** One lamp 4 m over the datum, straight down, nothing about it. */
function downlight(): SceneDocument {
  const scene = smallScene();
  return {
    ...scene,
    solids: [],
    lamps: [{ id: 'key', head: 'plain', position_m: [0, 4, 0], aim_m: [0, 0, 0] }],
    marks: [{ id: 'below', position_m: [1, 1.51, 0.5], facing: [0, 1, 0], receptor: 'flat' }],
  };
}

function latticeOf(
  scene: SceneDocument,
  height_m: number,
  places: number,
  muted: string[] = [],
): LightLattice {
  const model = compileScene(scene, NO_FILES);
  const plane = {
    low_m: [-2, -2],
    high_m: [2, 2],
    height_m,
    hold: 'up',
    muted: new Set(muted),
    places,
  } as const;
  const work = lightLattice(scene, model, scene.cameras![0]!, plane);
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}

describe('light on the plan', () => {
  it('is what a meter reads there', () => {
    const scene = downlight();
    const { lattice, illuminance_lx, zero_lx } = latticeOf(scene, 1.5, 9);
    expect([lattice.columns, lattice.rows]).toEqual([9, 9]);
    const read = meterScene(scene, compileScene(scene, NO_FILES), { light: 'direct' }).marks[0]!;
    // Column 6, row 5 of places half a metre apart from −2 on is x 1, z ½.
    expect(Math.abs(Math.log2(illuminance_lx[5 * 9 + 6]! / read.illuminance_lx))).toBeLessThan(0.1);
    // Derived: C·N²/(t·S) with C 250, f/4, 1/50 s, ISO 800.
    expect(zero_lx).toBeCloseTo(250, 9);
  });

  it('under a lamp is its candela over the distance squared', () => {
    const { illuminance_lx } = latticeOf(downlight(), 0, 9);
    // Derived: 2000 cd over (3.99 m)²; the face of 5 cm is a point from there.
    expect(illuminance_lx[4 * 9 + 4]!).toBeCloseTo(2000 / 3.99 ** 2, 0);
  });

  it('leaves muted lamps out', () => {
    expect(Math.max(...latticeOf(downlight(), 0, 5, ['key']).illuminance_lx)).toBe(0);
  });

  it('comes with what the inputs may be off: two thirds of a stop for a stated beam', () => {
    expect(latticeOf(downlight(), 0, 5).uncertainty_stops).toBeCloseTo(2 / 3, 2);
  });
});

describe('lines of equal light', () => {
  /** Log₂ of the light falls by one for every metre from the middle; the zero is half a stop under the middle's. */
  function cone(): LightLattice {
    const lattice = { low_m: 0, low: [-4, -4], high: [4, 4], columns: 81, rows: 81 } as const;
    const illuminance_lx = new Float64Array(81 * 81);
    for (let row = 0; row < 81; row++)
      for (let column = 0; column < 81; column++)
        illuminance_lx[row * 81 + column] = 100 * 2 ** -Math.hypot(column / 10 - 4, row / 10 - 4);
    return { lattice, illuminance_lx, zero_lx: 100 / Math.SQRT2, uncertainty_stops: 0.5 };
  }

  it('of whole stops are where the light is so strong', () => {
    const lines = isoLines(cone(), 'stops', 'lx');
    // Derived: −n stops lies n + ½ m from the middle; only the corners of the lattice are further off than 4 m.
    expect(lines.map(({ text }) => text)).toEqual(['−5', '−4', '−3', '−2', '−1', '0']);
    for (const { stops, lines: pieces } of lines)
      for (const piece of pieces)
        for (const [x, z] of piece) expect(Math.hypot(x, z)).toBeCloseTo(0.5 - stops, 1);
    expect(lines.find(({ stops }) => stops === 0)!.lines).toHaveLength(1);
  });

  it('do not run along the edge of what was looked at', () => {
    const corner = isoLines(cone(), 'stops', 'lx').find(({ stops }) => stops === -4)!;
    expect(corner.lines).toHaveLength(4);
  });

  it('of light are 1, 2, 5, 10 … of the unit on the page', () => {
    expect(isoLines(cone(), 'light', 'lx').map(({ text }) => text)).toEqual([
      '2 lx',
      '5 lx',
      '10 lx',
      '20 lx',
      '50 lx',
    ]);
    expect(isoLines(cone(), 'light', 'fc').at(-1)!.text).toBe('5 fc');
  });

  it('are none in the dark', () => {
    const dark = { ...cone(), illuminance_lx: new Float64Array(81 * 81) };
    expect(isoLines(dark, 'stops', 'lx')).toEqual([]);
  });
});

describe('the desk', () => {
  const about = (scene: SceneDocument) => ({
    changes: changesSince(null, scene),
    beside: new Map(),
    setup: undefined,
    camera: undefined,
  });
  const question = (scene: SceneDocument) => ({
    ...about(scene),
    low_m: [-2, -2] as const,
    high_m: [2, 2] as const,
    height_m: 0,
    hold: 'camera' as const,
    muted: [],
  });

  it('gives a first sight of the light before the last word', async () => {
    const seen: (LightLattice | null)[] = [];
    const answer = await newLightDesk().light(question(downlight()), (_, soFar) => seen.push(soFar));
    expect(answer!.found!.lattice.columns).toBe(64);
    expect(seen.find((one) => one !== null)!.lattice.columns).toBe(20);
  });

  it('leaves off when another question comes', async () => {
    const desk = newLightDesk();
    const first = desk.light(question(downlight()), () => {});
    const second = desk.light(question(downlight()), () => {});
    expect(await first).toBeNull();
    expect((await second)!.found).not.toBeNull();
  });

  it('says in words why there is no answer', async () => {
    const dark = { ...downlight(), cameras: [] };
    expect(await newLightDesk().light(question(dark), () => {})).toMatchObject({ found: null });
    const off = { ...downlight(), lamps: [{ ...downlight().lamps![0]!, on: false }] };
    const answer = await newLightDesk().clear({ ...about(off), lamp: 'key' }, () => {});
    expect(answer).toMatchObject({ found: null });
    expect(answer && 'why' in answer && answer.why).toContain('a lamp that is off');
  });
});

describe('keeping the light on the plan', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  function kept() {
    const drawn = drawnScene(downlight());
    drawn.editor.setState({ lamp: 'key' });
    const asked: string[] = [];
    const found = { zero_lx: 250 } as LightLattice;
    const desk = {
      light: vi.fn(async () => {
        asked.push('light');
        return { found };
      }),
      clear: vi.fn(async () => {
        asked.push('clear');
        return { found: null, why: 'no' };
      }),
      leaveOff: vi.fn(),
      close: vi.fn(),
    };
    const stop = keepLight(drawn.editor, drawn.plan, () => desk);
    return { ...drawn, asked, desk, stop };
  }

  it('asks when it is wanted and things have come to rest, once', async () => {
    const { plan, editor, asked, stop } = kept();
    await vi.advanceTimersByTimeAsync(1000);
    expect(asked).toEqual([]);
    plan.setState({ contoursShown: true });
    await vi.advanceTimersByTimeAsync(1000);
    expect(asked).toEqual(['light']);
    expect(plan.getState().contours).toMatchObject({ progress: null, answer: { found: { zero_lx: 250 } } });
    expect(isCurrent('contours', editor.getState(), plan.getState())).toBe(true);
    plan.setState({ guides: [] });
    await vi.advanceTimersByTimeAsync(1000);
    expect(asked).toEqual(['light']);
    stop();
  });

  it('is stale while something moves and asked anew when it rests', async () => {
    const { plan, editor, asked, stop } = kept();
    plan.setState({ contoursShown: true });
    await vi.advanceTimersByTimeAsync(1000);
    beginGesture(editor, 'drag');
    edit(editor, { do: 'change', id: 'key', patch: { position_m: [1, 4, 0] } });
    await vi.advanceTimersByTimeAsync(1000);
    expect(asked).toEqual(['light']);
    expect(isCurrent('contours', editor.getState(), plan.getState())).toBe(false);
    endGesture(editor);
    await vi.advanceTimersByTimeAsync(1000);
    expect(asked).toEqual(['light', 'light']);
    stop();
  });

  it('forgets what is no longer wanted, and closes its desk', async () => {
    const { plan, desk, stop } = kept();
    plan.setState({ contoursShown: true, clearShown: true });
    await vi.advanceTimersByTimeAsync(1000);
    expect(plan.getState().clear.answer).toMatchObject({ why: 'no' });
    plan.setState({ contoursShown: false, clearShown: false });
    expect(plan.getState().contours.answer).toBeNull();
    expect(plan.getState().clear.answer).toBeNull();
    stop();
    expect(desk.close).toHaveBeenCalled();
  });

  it('says what stopped it, and does not ask in circles', async () => {
    const { plan, desk, stop } = kept();
    desk.light.mockRejectedValue(new Error('out of memory'));
    plan.setState({ contoursShown: true });
    await vi.advanceTimersByTimeAsync(5000);
    expect(plan.getState().contours.failure).toBe('out of memory');
    expect(desk.light).toHaveBeenCalledTimes(1);
    stop();
  });
});
