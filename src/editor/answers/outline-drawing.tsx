import { signed } from '../../paperwork/signed-text.ts';
import type { StretchReport } from '../../scene/separation/separation-report.ts';
import { cameraShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import type { OutlinePiece } from '../worker/answer-outlines.ts';
import { MARGINAL_stops } from './edge-list.tsx';

const MARGIN = 0.015;
const DEFAULT_ASPECT = 1.5;

interface OutlineDrawingProps {
  readonly name: string;
  readonly pieces: readonly OutlinePiece[];
  readonly worst: StretchReport;
}

/** A figure's outline as the frame shows it: plain where it stands out, thick and broken where it does not. */
export function OutlineDrawing({ name, pieces, worst }: OutlineDrawingProps) {
  const aspect = useEditor((state) => {
    const camera = cameraShown(state);
    return camera?.aspect ?? (camera ? camera.sensor_mm[0] / camera.sensor_mm[1] : DEFAULT_ASPECT);
  });
  const places = pieces.flatMap(({ line }) => line);
  if (places.length === 0) return null;
  const us = places.map(([u]) => u * aspect);
  const vs = places.map(([, v]) => v);
  const [left, top] = [Math.min(...us) - MARGIN, Math.min(...vs) - MARGIN];
  const width = Math.max(...us) - left + MARGIN;
  const height = Math.max(...vs) - top + MARGIN;
  const path = (some: readonly OutlinePiece[]) =>
    some
      .map(({ line }) => `M${line.map(([u, v]) => `${(u * aspect).toFixed(4)} ${v.toFixed(4)}`).join('L')}`)
      .join('');
  const weak = (piece: OutlinePiece) => Math.abs(piece.stops) < MARGINAL_stops;
  const [u, v] = worst.pixel;
  return (
    <figure className="outline-drawing">
      <svg
        viewBox={`${left} ${top} ${width} ${height}`}
        role="img"
        aria-label={`Outline of ${name}: weakest at the ${worst.part}, ${signed(worst.stops, 1)} stops`}
      >
        <path className="outline-strong" d={path(pieces.filter((piece) => !weak(piece)))} />
        <path className="outline-weak" d={path(pieces.filter(weak))} />
        <circle className="outline-worst" cx={u * aspect} cy={v} r={0.03 * height} />
      </svg>
      <figcaption className="quiet">Broken: under 1 stop. Ring: weakest.</figcaption>
    </figure>
  );
}
