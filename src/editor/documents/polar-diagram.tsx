import { significant } from '../../paperwork/exposure-sheet.ts';
import type { PhotometrySummary } from './photometry-summary.ts';
import { ringsFor } from './polar-rings.ts';

const RADIUS = 130;
const MARGIN = 26;
const SPOKES_deg = [30, 60, 90, 120, 150];
/** Between two spokes, clear of narrow beams. */
const CANDELA_deg = 45;
/** Light that makes no difference to the picture does not open the upper half. */
const UNSEEN_SHARE = 0.01;

/**
 * Candela round the lamp in its two planes: the axis points down, as photometric sheets have it; C 0 and C 90 lie to the
 * right. The upper half is drawn only where light goes there.
 */
export function PolarDiagram({ summary }: { readonly summary: PhotometrySummary }) {
  const { peak_cd, sections } = summary;
  const rings = ringsFor(peak_cd);
  const outer_cd = rings.at(-1)!;
  const scale = RADIUS / outer_cd;
  const whole = shinesBack(sections.c0_cd, peak_cd) || shinesBack(sections.c90_cd, peak_cd);
  const top = whole ? RADIUS : 0;
  const width = 2 * (RADIUS + MARGIN);
  const height = top + RADIUS + 2 * MARGIN;
  const reach_deg = whole ? 180 : 90;
  const sameInBoth = sections.c0_cd.every((cd, i) => Math.abs(cd - sections.c90_cd[i]!) < 1e-3 * peak_cd);

  return (
    <figure className="polar">
      <svg
        viewBox={`${-width / 2} ${-top - MARGIN} ${width} ${height}`}
        role="img"
        aria-label="Polar diagram"
      >
        {rings.map((cd) => (
          <g key={cd}>
            <path className="polar-ring" d={arc(cd * scale, reach_deg)} />
            <text className="polar-candela" {...end('', CANDELA_deg, cd * scale)}>
              {significant(cd)}
            </text>
          </g>
        ))}
        <line className="polar-axis" x1={0} y1={-top} x2={0} y2={RADIUS} />
        {SPOKES_deg.filter((angle) => angle <= reach_deg).flatMap((angle) =>
          [angle, -angle].map((signed) => (
            <g key={signed}>
              <line className="polar-spoke" x1={0} y1={0} {...end('2', signed, RADIUS)} />
              <text className="polar-angle" {...end('', signed, RADIUS + 14)}>
                {angle}°
              </text>
            </g>
          )),
        )}
        <text className="polar-angle" x={0} y={RADIUS + 16}>
          0°
        </text>
        {!sameInBoth && <path className="polar-c90" d={curve(sections.c90_cd, scale)} />}
        <path className="polar-c0" d={curve(sections.c0_cd, scale)} />
      </svg>
      <figcaption>
        <Legend
          className="polar-c0"
          words={sameInBoth ? 'both planes, C 0 and C 90' : 'C 0 right – C 180 left'}
        />
        {!sameInBoth && <Legend className="polar-c90" words="C 90 right – C 270 left" />}
        <span className="quiet">Rings in candela; 0° is the axis.</span>
      </figcaption>
    </figure>
  );
}

function Legend({ className, words }: { readonly className: string; readonly words: string }) {
  return (
    <span className="polar-legend">
      <svg viewBox="0 0 30 8" aria-hidden="true">
        <path className={className} d="M1 4H29" />
      </svg>
      {words}
    </span>
  );
}

/** Whether light worth drawing leaves more than 90° off the axis. */
function shinesBack(section_cd: Float64Array, peak_cd: number): boolean {
  const quarter = (section_cd.length - 1) / 4;
  return section_cd.some((cd, i) => (i < quarter || i > 3 * quarter) && cd > UNSEEN_SHARE * peak_cd);
}

function placeAt(angle_deg: number, radius: number): readonly [x: number, y: number] {
  const angle = (angle_deg * Math.PI) / 180;
  return [Math.sin(angle) * radius, Math.cos(angle) * radius];
}

function end(suffix: '' | '2', angle_deg: number, radius: number) {
  const [x, y] = placeAt(angle_deg, radius);
  return suffix === '2' ? { x2: x, y2: y } : { x, y: y + 4 };
}

/** From the axis to both sides as far as `reach_deg`. */
function arc(radius: number, reach_deg: number): string {
  const to = (angle: number) => placeAt(angle, radius).map(short).join(' ');
  return `M${to(-reach_deg)} A${radius} ${radius} 0 0 0 ${to(0)} A${radius} ${radius} 0 0 0 ${to(reach_deg)}`;
}

function curve(section_cd: Float64Array, scale: number): string {
  const steps = section_cd.length - 1;
  const points = Array.from(section_cd, (cd, i) => placeAt((i / steps) * 360 - 180, cd * scale));
  return `M${points.map((point) => point.map(short).join(' ')).join('L')}Z`;
}

function short(value: number): string {
  return value.toFixed(1);
}
