import { frameFromPlane } from '../../core/separation/image-plane.ts';
import type { ReadSeparation } from '../../scene/separation/read-separation.ts';
import { sightOf } from '../../scene/separation/read-separation.ts';
import { samplesOf } from '../../scene/separation/separation-report.ts';

/** The outline of a figure as the frame shows it, in pieces, each with how it stands out. */
export interface FigureOutline {
  readonly figure: string;
  readonly name: string;
  readonly pieces: readonly OutlinePiece[];
}

export interface OutlinePiece {
  /** Places in the frame, 0..1 from the left and from the top, the figure on the right as they run. */
  readonly line: readonly (readonly [number, number])[];
  /** The figure over what is behind it. */
  readonly stops: number;
  readonly part: string;
}

/** Only what is seen of each outline has pieces. The stops are those of the report's samples. */
export function figureOutlines(read: ReadSeparation): FigureOutline[] {
  const { document, camera, lens, monochrome } = read;
  const sight = sightOf(document, camera, monochrome);
  return read.figures.map((figure) => {
    const samples = samplesOf(figure, sight);
    const inOrder = figure.stretches.flatMap((stretch) => stretch.cells);
    return {
      figure: figure.figure.id,
      name: figure.figure.name ?? figure.figure.id,
      pieces: inOrder.map((cell, k) => ({
        line: figure.readings[cell]!.cell.line.map((point) => {
          const { u, v } = frameFromPlane(lens, point);
          return [u, v] as const;
        }),
        stops: samples[k]!.stops,
        part: samples[k]!.part,
      })),
    };
  });
}
