import { useEffect, useRef } from 'react';
import type { Look } from '../frame/frame-state.ts';
import { pictureOf } from '../frame/frame-without-graphics.ts';
import { useFrame } from '../frame/use-frame.ts';
import type { SmallFrame } from './small-frame-desk.ts';

interface SmallPictureProps {
  readonly frame: SmallFrame | null | undefined;
  /** Why there is no frame, or what is wrong with it; empty when it is what it should be. */
  readonly state: string;
}

/** A small frame at the camera's exposure, in the look of the large one. */
export function SmallPicture({ frame, state }: SmallPictureProps) {
  const ref = useRef<HTMLCanvasElement>(null);
  const look = useFrame((frameState) => frameState.look);
  useEffect(() => {
    const pen = ref.current?.getContext('2d');
    if (pen && frame) pen.putImageData(imageOf(frame, look), 0, 0);
  }, [frame, look]);
  return (
    <span className={state === '' ? 'small-picture' : 'small-picture old'}>
      {frame && <canvas ref={ref} width={frame.width_px} height={frame.height_px} />}
      {state !== '' && (
        <span className="small-picture-state" aria-hidden="true">
          {state}
        </span>
      )}
    </span>
  );
}

export function imageOf(frame: SmallFrame, look: Look): ImageData {
  const { width_px, height_px, camera } = frame;
  const { rgb } = pictureOf(frame, camera, look);
  const image = new ImageData(width_px, height_px);
  for (let i = 0; i < width_px * height_px; i++) {
    image.data.set(rgb.subarray(3 * i, 3 * i + 3), 4 * i);
    image.data[4 * i + 3] = 255;
  }
  return image;
}
