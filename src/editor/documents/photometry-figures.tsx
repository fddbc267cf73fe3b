import type { ReactNode } from 'react';
import { thirdsText } from '../../core/exposure/thirds.ts';
import type { PlaneAngles } from '../../core/photometry/beam-angle.ts';
import { photometryUncertainty_stops } from '../../core/photometry/lamp-photometry.ts';
import { significant } from '../../paperwork/exposure-sheet.ts';
import { useEditor } from '../store/use-editor.ts';
import { illuminanceAway } from './illuminance-away.ts';
import type { PhotometrySummary } from './photometry-summary.ts';

/** Peaks that lie off the axis are worth naming from this share of them on. */
const OFF_AXIS_SHARE = 0.98;

/** What the file says in figures, each with its unit and how it is counted. */
export function PhotometryFigures({ summary }: { readonly summary: PhotometrySummary }) {
  const unit = useEditor((state) => state.unit);
  const lengths = useEditor((state) => state.lengths);
  const { flux_lm, rated_lm, peak_cd, axis_cd, beam, field } = summary;
  const offAxis = axis_cd < OFF_AXIS_SHARE * peak_cd;

  return (
    <div>
      <dl className="photometry-figures">
        <Row name="Format">
          {summary.format}
          {summary.edition && ` ${summary.edition}`}, type {summary.goniometry}
        </Row>
        {summary.luminaire && (
          <Row name="Lamp">
            <bdi>{summary.luminaire}</bdi>
          </Row>
        )}
        {summary.maker && (
          <Row name="Maker">
            <bdi>{summary.maker}</bdi>
          </Row>
        )}
        <Row name="Total light">
          {significant(flux_lm)} lm
          {rated_lm !== null && `, ${significant((100 * flux_lm) / rated_lm)} % of what its lamps give`}
        </Row>
        <Row name="Peak">
          {significant(peak_cd)} cd
          {offAxis ? `, off the axis; on it ${axis_cd > 0 ? significant(axis_cd) : 0} cd` : ''}
        </Row>
        {axis_cd > 0 && <Row name="On the axis">{illuminanceAway(axis_cd, unit, lengths)}</Row>}
        <Row name="Beam, 50 %">{anglesText(beam)}</Row>
        <Row name="Field, 10 %">{anglesText(field)}</Row>
        {summary.inputPower_W !== null && <Row name="Draws">{significant(summary.inputPower_W)} W</Row>}
      </dl>
      <p className="quiet">
        ±{thirdsText(photometryUncertainty_stops('file')).replace(/^\+0?/, '')} stop, as for any published
        table. Angles are full angles at half and a tenth of the plane's maximum. In clear air, without
        filters.
      </p>
      {summary.burnsByAttitude && (
        <p className="note">How bright it burns depends on how it hangs; that is counted.</p>
      )}
      {summary.warnings.map((warning) => (
        <p key={warning} className="note">
          <bdi>{warning}</bdi>
        </p>
      ))}
    </div>
  );
}

function Row({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

/** One figure where both planes agree to a degree. */
function anglesText({ c0_deg, c90_deg }: PlaneAngles): string {
  const [one, other] = [degrees(c0_deg), degrees(c90_deg)];
  return one === other ? one : `${one} in C 0, ${other} in C 90`;
}

function degrees(angle_deg: number): string {
  return `${angle_deg < 10 ? angle_deg.toFixed(1) : Math.round(angle_deg)}°`;
}
