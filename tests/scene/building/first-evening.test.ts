import { describe, expect, it } from 'vitest';
import { catalogue } from '../../../src/scene/building/catalogue.ts';
import { firstSteps } from '../../../src/scene/building/first-steps.ts';
import { makeCameraOn } from '../../../src/scene/building/make-camera.ts';
import type { Made } from '../../../src/scene/building/recipe.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { saveScene } from '../../../src/scene/file/save-scene.ts';
import { meterScene } from '../../../src/scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { EMPTY, seen, withMade } from './support.ts';

const FILES = { photometry: new Map(), meshes: new Map() };

/** Adds by recipes alone, choosing what was made last, as the panel does. */
function evening() {
  let document: SceneDocument = EMPTY;
  let chosen: readonly string[] = [];
  const put = (made: Made) => {
    document = withMade(document, made);
    if (made.chosen.length > 0) chosen = made.chosen;
  };
  const add = (id: string) => {
    const recipe = catalogue(document).find((one) => one.id === id)!;
    expect(recipe.lacking(seen(document, chosen))).toBeNull();
    put(recipe.make(seen(document, chosen)));
  };
  return {
    add,
    put,
    document: () => document,
    chosen: () => chosen,
  };
}

describe('the small scene of a first evening, built from nothing', () => {
  const { add, put, document, chosen } = evening();
  const lacks: string[][] = [];
  const note = () => lacks.push(firstSteps(document()).map(({ recipe }) => recipe));

  note();
  add('solid:wet-ground');
  note();
  add('figure:with-rim');
  note();
  put(makeCameraOn(seen(document(), chosen()), 'figure-1', 'three-quarter left', 6)!);
  note();
  add('solid:boat');
  add('supply:generator');
  add('lamp:back');
  note();
  add('lamp:key');
  add('haze:light');
  const built = document();

  it('is told what is missing, in order, until it can be read', () => {
    expect(lacks).toEqual([
      ['solid:ground', 'camera', 'figure:standing', 'lamp:back'],
      ['camera', 'figure:standing', 'lamp:back'],
      ['camera', 'lamp:back'],
      ['lamp:back'],
      [],
    ]);
  });

  it('has what was put into it, each thing fit to be used', () => {
    expect(built.solids!.map(({ id }) => id)).toEqual(['wet-ground', 'boat']);
    expect(built.figures!.map(({ id }) => id)).toEqual(['figure-1']);
    expect(built.marks!.map(({ id }) => id)).toEqual(['figure-1-face', 'figure-1-rim']);
    expect(built.cameras!.map(({ id }) => id)).toEqual(['a']);
    expect(built.haze).toEqual({ visibility_m: 1200 });
    for (const lamp of built.lamps!) {
      expect(lamp.supply).toBe('generator');
      expect(lamp.stand).toBeDefined();
      expect(lamp.aim_m).toEqual(built.marks![0]!.position_m);
    }
  });

  it('comes back the same from its file', () => {
    expect(openScene(saveScene(built)).document).toEqual(built);
  });

  it('is read by the meter: the key at about the zero, the backlight on the rim and not on the face’s front', () => {
    const model = compileScene(built, FILES);
    const report = meterScene(built, model, { light: 'direct' });
    const [face, rim] = report.marks;
    const key = face!.lamps.find(({ id }) => id === 'key')!;
    const back = rim!.lamps.find(({ id }) => id === 'backlight')!;
    expect(key.visible).toBe(1);
    expect(back.visible).toBe(1);
    expect(rim!.stops).toBeGreaterThan(0);

    // Derived: a dome toward the camera sees a source at β by (1 + cos β)/2 of what it gives head-on, and the key is meant to
    // give the zero head-on: 8 % are for its level's step of 5 %, its breadth of 1.2 m and the haze between.
    const { zero } = report.exposure;
    const share = (1 + Math.cos((key.incidence_deg * Math.PI) / 180)) / 2;
    expect(key.direct_lx / (zero.dome_lx * share)).toBeGreaterThan(0.92);
    expect(key.direct_lx / (zero.dome_lx * share)).toBeLessThan(1.08);
  });
});
