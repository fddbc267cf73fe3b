import { describe, expect, it } from 'vitest';
import { pictureSettings, samplingText, settingsComment } from '../../src/paperwork/picture-settings.ts';
import { edited, opened, smallScene } from '../support/scenes.ts';

const sampling = { samples: { least: 64, most: 64 }, seed: 3, filtered: false, medianError: 0.03125 };

function settings(changes: Record<string, unknown> = {}, more = {}) {
  const document = opened(edited(smallScene(), changes));
  return pictureSettings({ document, setup: null, camera: document.cameras![0]!, ...more }, sampling);
}

describe('what a picture file says of its making', () => {
  it('names scene, setup, camera, exposure and sampling', () => {
    const { Title, Setup, Camera, Exposure, MiddleGrey, Samples, ...others } = settings();
    expect([Setup, Camera, Exposure]).toEqual(['base', 'a', 'f/4, 1/50 s, ISO 800, ND 0']);
    expect(Title).not.toBe('');
    // derived: K·N²/(t·S) = 12.5·16·50/800
    expect(MiddleGrey).toBe('12.5 cd/m²');
    expect(Samples).toBe('64 a pixel, seed 3, noise left in, median error 0.0313');
    expect(others).toEqual({ Software: 'Keyfall', WhiteBalance: '5600 K' });
  });

  it('tells of a setup, of filters and losses, of grey and of lamps left out where there are any', () => {
    const changes = {
      'cameras.0.nd_stops': 1,
      'cameras.0.loss_stops': 0.5,
      'cameras.0.whiteBalance_K': 4300,
      'cameras.0.monochrome': { filter: 'red' },
    };
    expect(settings(changes, { setup: '1a', without: ['Key', 'Rim'] })).toMatchObject({
      Setup: '1a',
      Exposure: 'f/4, 1/50 s, ISO 800, ND 1, lens loss 0.5',
      WhiteBalance: '4300 K',
      Monochrome: 'red filter',
      LampsLeftOut: 'Key, Rim',
    });
  });

  it('says a range of samples where tiles differ, and no error where none is known', () => {
    const text = samplingText({
      samples: { least: 12, most: 96 },
      seed: 1,
      filtered: true,
      medianError: null,
    });
    expect(text).toBe('12 to 96 a pixel, seed 1, noise filtered');
  });

  it('is one comment, a line each, where a file has no keywords', () => {
    expect(settingsComment({ Title: 'Quay', Camera: 'a' })).toBe('Title: Quay\nCamera: a');
  });
});
