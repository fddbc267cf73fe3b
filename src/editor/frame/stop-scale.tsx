import { FALSE_COLOUR_SCALE } from '../../core/picture/false-colour.ts';

/** The bar beside a frame in false colour: one step a stop, each with its label. */
export function StopScale() {
  return (
    <ol className="stop-scale" aria-label="False colour, stops from middle grey">
      {[...FALSE_COLOUR_SCALE].reverse().map(({ label, rgb }) => (
        <li key={label}>
          <span style={{ background: `rgb(${rgb.join(' ')})` }} aria-hidden="true" />
          {label}
        </li>
      ))}
    </ol>
  );
}
