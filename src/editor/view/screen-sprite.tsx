import { type ThreeElements, useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { CanvasTexture, LinearFilter, MathUtils, SRGBColorSpace, type Texture, Vector2 } from 'three';
import { FIELD_OF_VIEW_deg } from './poses.ts';

type SpriteProps = Omit<ThreeElements['sprite'], 'scale' | 'children' | 'center'> & {
  /** On the screen, whatever the distance. */
  readonly width_px: number;
  readonly height_px: number;
  /** Which point of it stands at its position, 0 to 1 from the lower left. */
  readonly centre?: readonly [number, number];
  readonly map?: Texture;
  readonly colour?: string;
  readonly invisible?: boolean;
};

/** A flat sign that keeps its size on the screen and is never hidden by bodies. */
export function ScreenSprite({ width_px, height_px, centre, map, colour, invisible, ...rest }: SpriteProps) {
  const height = useThree((three) => three.size.height);
  const metresAPixel = (2 * Math.tan(MathUtils.degToRad(FIELD_OF_VIEW_deg) / 2)) / height;
  const [cx, cy] = centre ?? [0.5, 0.5];
  const pivot = useMemo(() => new Vector2(cx, cy), [cx, cy]);
  return (
    <sprite
      scale={[width_px * metresAPixel, height_px * metresAPixel, 1]}
      center={pivot}
      renderOrder={10}
      {...rest}
    >
      <spriteMaterial
        {...(map ? { map } : {})}
        color={colour ?? '#ffffff'}
        sizeAttenuation={false}
        depthTest={false}
        depthWrite={false}
        transparent
        visible={!invisible}
      />
    </sprite>
  );
}

/** A texture drawn once per `key` by canvas calls, at twice the size so that it stays sharp. */
export function useDrawing(
  key: string,
  width_px: number,
  height_px: number,
  draw: (pen: CanvasRenderingContext2D) => void,
): Texture {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for what is drawn
  const texture = useMemo(() => {
    const canvas = document.createElement('canvas');
    canvas.width = Math.ceil(width_px) * SHARPNESS;
    canvas.height = Math.ceil(height_px) * SHARPNESS;
    const pen = canvas.getContext('2d');
    if (pen) {
      pen.scale(SHARPNESS, SHARPNESS);
      draw(pen);
    }
    const drawn = new CanvasTexture(canvas);
    drawn.colorSpace = SRGBColorSpace;
    drawn.generateMipmaps = false;
    drawn.minFilter = LinearFilter;
    return drawn;
  }, [key, width_px, height_px]);
  useEffect(() => () => texture.dispose(), [texture]);
  return texture;
}

const SHARPNESS = 2;
