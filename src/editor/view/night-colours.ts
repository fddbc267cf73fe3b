import { Color } from 'three';
import type { Surface } from '../../core/light-model/light-model.ts';

/** The colours of the working view, all of the page's night scheme; lamps alone show the colour of their light. */
export const NIGHT = {
  air: '#0e0806',
  edge: '#8a6248',
  pane: '#d8b48f',
  quiet: '#a9836a',
  word: '#f6e6d8',
  accent: '#ffab40',
  limit: '#c98a5a',
} as const;

/** The view is a drawing, not the picture: reflectances only set bodies apart, in warm tones. */
export function bodyColour({ reflectance }: Surface): Color {
  const [r, g, b] = reflectance.map((part) => 0.02 + 0.3 * part ** 0.7) as [number, number, number];
  const grey = (r + g + b) / 3;
  const muted = (part: number) => 0.45 * part + 0.55 * grey;
  return new Color().setRGB(muted(r), muted(g) * 0.84, muted(b) * 0.68);
}
