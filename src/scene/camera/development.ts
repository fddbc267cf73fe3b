import type { Development } from '../../core/picture/develop.ts';
import { conversionOf } from '../monochrome/monochrome.ts';
import type { Camera } from '../schema/camera.ts';
import { DEFAULT_WHITE_BALANCE_K } from './scene-camera.ts';

/** How a camera's light is developed: by its white balance, in grey where it is set to monochrome. */
export function developmentOf({ whiteBalance_K, monochrome }: Camera): Development {
  return {
    whiteBalance_K: whiteBalance_K ?? DEFAULT_WHITE_BALANCE_K,
    monochrome: monochrome && conversionOf(monochrome),
  };
}
