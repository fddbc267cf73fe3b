import { readFileSync } from 'node:fs';
import { aimThrough, newCameraRay } from '../../src/core/camera/thin-lens.ts';
import { zeroOf } from '../../src/core/exposure/zero.ts';
import { readSpot } from '../../src/core/frame/spot-reading.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { balanceScene } from '../../src/scene/balance/balance-scene.ts';
import { parseWants } from '../../src/scene/balance/wants.ts';
import { calibrationOf, chosenCamera, exposureOf, lensOf } from '../../src/scene/camera/scene-camera.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { openScene } from '../../src/scene/file/open-scene.ts';
import type { SceneFiles } from '../../src/scene/files/scene-files.ts';
import { clearRegionOf } from '../../src/scene/mirror/clear-region.ts';
import { curesOf } from '../../src/scene/mirror/cures/cures.ts';
import { findSceneGlints } from '../../src/scene/mirror/find-scene-glints.ts';
import { powerScene } from '../../src/scene/power/power-scene.ts';
import { correctionsFrom } from '../../src/scene/readings/corrections.ts';
import { readSeparation } from '../../src/scene/separation/read-separation.ts';
import { ms, type Row, timed } from './report.ts';

const NO_FILES: SceneFiles = { photometry: new Map(), meshes: new Map() };

/** What the demo's other questions cost, compiled scene in hand. */
export function benchAnswers(): Row[] {
  const text = readFileSync(new URL('../../scenes/night-quay.json', import.meta.url), 'utf8');
  const document = openScene(text).document!;
  const model = compileScene(document, NO_FILES);
  const camera = chosenCamera(document);
  const { luminance_cd_m2 } = zeroOf(exposureOf(camera), calibrationOf(document));
  const spot = (u: number, v: number) => {
    const ray = newCameraRay();
    aimThrough(lensOf(camera), u, v, 0, 0, ray);
    const options = { zero_cd_m2: luminance_cd_m2, error_stops: 0.05 };
    return () => readSpot(newTracer(model), camera.position_m, [ray.dx, ray.dy, ray.dz], options);
  };
  const seen = { document, model, camera };
  return [
    row('spot on Ada, ±0.05 stop', spot(0.715, 0.55)),
    row('spot on the boat’s side', spot(0.05, 0.75)),
    row('spot into a lit window, dirty glass', spot(0.05, 0.6)),
    row('spot into haze beside the backlight', spot(0.8, 0.3)),
    row('glints, without cures', () => findSceneGlints(document, model)),
    row('cures of the glints in frame', () => curesOf(seen)),
    row('clear region of the rim lamp, 12 × 12 m', () => clearRegionOf(seen, { lamp: 'rim' })),
    row('separation of both figures, ±0.1 stop', () => readSeparation(document, model)),
    row('corrections by one reading', () => correctionsFrom(document, NO_FILES)),
    row('levels for two wants', () =>
      balanceScene(document, {
        wants: parseWants('ada-face:key=-0.5,ben-face=-1', document),
        compile: (changed) => compileScene(changed, NO_FILES),
      }),
    ),
    row('power', () => powerScene(document)),
  ];
}

function row(what: string, answer: () => unknown): Row {
  const { median_ms, worst_ms } = timed(3, answer);
  return { what, median: ms(median_ms), worst: ms(worst_ms) };
}
