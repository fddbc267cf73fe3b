import { NIGHT } from './night-colours.ts';
import { ScreenSprite, useDrawing } from './screen-sprite.tsx';

const FONT = '13px system-ui, sans-serif';
const LONGEST = 26;

interface NameSignProps {
  readonly text: string;
  readonly position: [number, number, number];
  /** In pixels from the point that it names: right, up. */
  readonly offset_px: readonly [number, number];
  readonly bright?: boolean;
}

/** A name as text on the picture; never markup, and cut where it would cover too much. */
export function NameSign({ text, position, offset_px, bright }: NameSignProps) {
  const shown = text.length > LONGEST ? `${text.slice(0, LONGEST - 1)}…` : text;
  const width_px = measured(shown) + 12;
  const height_px = 20;
  const map = useDrawing(`${shown} ${bright}`, width_px, height_px, (pen) => {
    pen.fillStyle = 'rgba(18, 11, 8, 0.78)';
    pen.beginPath();
    pen.roundRect(0, 0, width_px, height_px, 4);
    pen.fill();
    pen.font = FONT;
    pen.fillStyle = bright ? NIGHT.accent : NIGHT.word;
    pen.textBaseline = 'middle';
    pen.fillText(shown, 6, height_px / 2 + 0.5);
  });
  const [right, up] = offset_px;
  return (
    <ScreenSprite
      position={position}
      width_px={width_px}
      height_px={height_px}
      centre={[right < 0 ? 1 - right / width_px : -right / width_px, 0.5 - up / height_px]}
      map={map}
      renderOrder={bright ? 13 : 12}
    />
  );
}

let ruler: CanvasRenderingContext2D | null | undefined;

function measured(text: string): number {
  ruler ??= document.createElement('canvas').getContext('2d');
  if (!ruler) return 8 * text.length;
  ruler.font = FONT;
  return Math.ceil(ruler.measureText(text).width);
}
