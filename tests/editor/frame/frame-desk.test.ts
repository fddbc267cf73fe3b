import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { newFrameDesk } from '../../../src/editor/frame/frame-desk.ts';
import { changesSince } from '../../../src/editor/worker/document-changes.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';

const document = openScene(readFileSync(new URL('../../../scenes/test-room.json', import.meta.url), 'utf8'))
  .document!;
const asked = { setup: undefined, camera: undefined, drawn: true } as const;

async function look(desk: ReturnType<typeof newFrameDesk>, now: SceneDocument, before: SceneDocument | null) {
  const answer = await desk.look({ ...asked, changes: changesSince(before, now) });
  if (!answer?.scene) throw new Error(JSON.stringify(answer?.problems));
  return answer;
}

describe('the frame desk', () => {
  it('sends again only what an edit has changed, and of a level nothing but the gain', async () => {
    const desk = newFrameDesk();
    const first = await look(desk, document, null);
    expect(Object.values(first.scene!.textures).every((texels) => texels !== null)).toBe(true);
    const [lamp] = document.lamps!;
    const dimmed = { ...document, lamps: [{ ...lamp!, level: 0.25 }, ...document.lamps!.slice(1)] };
    const second = await look(desk, dimmed, document);
    expect(Object.values(second.scene!.textures).every((texels) => texels === null)).toBe(true);
    // derived: a lamp's light is proportional to its level
    const share = second.scene!.gains[0]![0] / first.scene!.gains[0]![0];
    expect(share).toBeCloseTo(0.25 / (lamp!.level ?? 1), 12);
    expect(second.scene!.uniforms).toEqual(first.scene!.uniforms);
  });

  it('says why a scene cannot be seen', async () => {
    const { cameras, ...blind } = document;
    const answer = await newFrameDesk().look({
      ...asked,
      changes: changesSince(null, blind as SceneDocument),
    });
    expect(answer).toMatchObject({ camera: null, scene: null });
    expect(answer!.problems[0]!.found).toContain('no camera');
  });

  it('reads the spot meter and draws without graphics, of the scene it was asked about', async () => {
    const desk = newFrameDesk();
    expect(await desk.spot(0.5, 0.5, 0.5)).toBeNull();
    const { camera } = await look(desk, document, null);
    const spot = (await desk.spot(0.5, 0.5, 0.3))!;
    expect(spot.luminance_cd_m2).toBeGreaterThan(0);
    expect(spot.stops).toBeCloseTo(Math.log2(spot.luminance_cd_m2 / camera!.zero_cd_m2), 10);
    const drawn: number[][] = [];
    await desk.draw(16, 10, 8, ({ width_px, height_px, samples, rgb, quietRgb }) => {
      drawn.push([width_px, height_px, samples]);
      expect(rgb).toHaveLength(3 * width_px * height_px);
      expect(quietRgb).toHaveLength(rgb.length);
    });
    // Coarse ones first, for something to look at; then the frame itself.
    expect(drawn).toEqual([
      [2, 2, 4],
      [4, 3, 4],
      [8, 5, 4],
      [16, 10, 4],
      [16, 10, 8],
    ]);
  });
});
