import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../../src/scene/meter/meter-scene.ts';
import { correctionsFrom } from '../../../src/scene/readings/corrections.ts';
import { nextReading } from '../../../src/scene/readings/next-reading.ts';
import { planCovariance } from '../../../src/scene/readings/plan-trust.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { backlightScene, NO_FILES } from '../../stories/support/backlight.ts';

function asked(scene: SceneDocument) {
  const model = compileScene(scene, NO_FILES);
  const corrections = correctionsFrom(scene, NO_FILES);
  const { marks } = meterScene(scene, model, { corrections });
  const planned = planCovariance(model.lamps);
  return nextReading(scene, model, marks, corrections ?? { planned, covariance: planned });
}

describe('which reading would tell most', () => {
  it('of one lamp in clear air: that lamp, and then the mark is as good as the meter', () => {
    const next = asked(backlightScene());
    expect(next).toMatchObject({ lamp: 'back' });
    expect(next!.now_stops).toBeCloseTo(2 / 3, 6);
    // derived: 1/√(1/(⅔)² + 1/0.1²) = 0.0989.
    expect(next!.then_stops).toBeCloseTo(0.0989, 3);
  });

  it('is of the lamp that the marks hang on most', () => {
    const [back] = backlightScene().lamps!;
    const heads = { ...backlightScene().heads!, small: { ...backlightScene().heads!.big! } };
    const faint = { ...back!, id: 'faint', head: 'small', level: 0.05 };
    expect(asked(backlightScene({ heads, lamps: [faint, back!] }))).toMatchObject({ lamp: 'back' });
  });

  it('says nothing where there is nothing more to gain, or nothing lit', () => {
    const readings = Array.from({ length: 4 }, (_, i) => ({
      id: `r${i}`,
      mark: 'figure',
      lamps: ['back'],
      illuminance_lx: 224,
    }));
    expect(asked(backlightScene({ readings }))).toBeNull();
    expect(asked(backlightScene({ lamps: [{ ...backlightScene().lamps![0]!, on: false }] }))).toBeNull();
  });
});
