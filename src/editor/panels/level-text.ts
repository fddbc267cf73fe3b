import { thirdsText } from '../../core/exposure/thirds.ts';

/** A lamp's level as it is dialled and as it is spoken: `50 %, −1 stop`. */
export function levelText(level: number): string {
  if (level === 1) return '100 %';
  return `${percentText(level)}, ${stopsText(level)}`;
}

export function percentText(level: number): string {
  return `${Number((level * 100).toPrecision(3))} %`;
}

/** Stops under full, to the nearest third. */
export function stopsText(level: number): string {
  if (level === 1) return 'full';
  const text = thirdsText(Math.log2(level));
  return `${text} ${text === '\u22121' ? 'stop' : 'stops'}`;
}
