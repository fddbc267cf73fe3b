import { exposureValue } from '../../../core/exposure/exposure-value.ts';
import { zeroOf } from '../../../core/exposure/zero.ts';
import { circleOfConfusion_mm, hyperfocal_m, sharpRange } from '../../../core/optics/depth-of-field.ts';
import { coverage_m, croppedSensor_mm, fieldOfView } from '../../../core/optics/field-of-view.ts';
import { angleOfShutter_deg, FULL_TURN_deg } from '../../../core/optics/shutter-angle.ts';
import { readingText } from '../../../paperwork/exposure-sheet.ts';
import { aspectOf, calibrationOf, exposureOf, lensOf } from '../../../scene/camera/scene-camera.ts';
import type { Camera } from '../../../scene/schema/camera.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { useTaste } from '../desk.tsx';
import type { FactsProps } from '../field.ts';
import { useThing } from '../use-thing.ts';
import { aboutLength } from './about-length.ts';
import { Fact, Facts } from './facts.tsx';

/** Common frame rates. */
const RATES_fps = [24, 25, 30] as const;

/** The light that a camera calls correct. */
export function CameraExposureFacts({ id }: FactsProps) {
  const camera = useThing<Camera>(id);
  const document = useEditor(documentShown);
  const { unit } = useTaste();
  if (!camera || !document) return null;
  const calibration = calibrationOf(document);
  const zero = zeroOf(exposureOf(camera), calibration);
  const ev100 = exposureValue(camera.fNumber, camera.shutter_s) - Math.log2(camera.iso / 100);
  const rates = RATES_fps.filter((rate) => angleOfShutter_deg(camera.shutter_s, rate) <= FULL_TURN_deg + 0.5);
  return (
    <Facts>
      <Fact
        name="Zero, incident"
        note={`C ${calibration.flat} flat, ${calibration.dome} dome; the meter reads 0`}
      >
        {readingText(zero.flat_lx, unit)} {unit} flat, {readingText(zero.dome_lx, unit)} {unit} dome
      </Fact>
      <Fact name="Zero, spot" note={`K ${calibration.reflected}; middle grey`}>
        {Number(zero.luminance_cd_m2.toPrecision(3))} cd/m²
      </Fact>
      <Fact name="EV at ISO 100">{ev100.toFixed(1)}</Fact>
      {rates.length > 0 && (
        <Fact name="Shutter angle">
          {rates
            .map((rate) => `${Math.round(angleOfShutter_deg(camera.shutter_s, rate))}° at ${rate}`)
            .join(', ')}{' '}
          pictures a second
        </Fact>
      )}
    </Facts>
  );
}

/** What a lens takes in and what it draws sharp. */
export function CameraLensFacts({ id }: FactsProps) {
  const camera = useThing<Camera>(id);
  const { lengths } = useTaste();
  if (!camera) return null;
  const { focal_mm, fNumber, sensor_mm } = camera;
  const aspect = aspectOf(camera);
  const frame_mm = croppedSensor_mm(sensor_mm, aspect);
  const view = fieldOfView(sensor_mm, aspect, focal_mm);
  const { focus_m } = lensOf(camera);
  const circle_mm = circleOfConfusion_mm(frame_mm);
  const setting = { focal_mm, fNumber, circle_mm };
  const tooNear = focus_m <= focal_mm / 1000;
  const range = tooNear ? null : sharpRange(setting, focus_m);
  const length = (length_m: number) => aboutLength(length_m, lengths);
  return (
    <Facts>
      <Fact name="Sees" note={`${view.diagonal_deg.toFixed(0)}° across the corners`}>
        {view.horizontal_deg.toFixed(1)}° wide, {view.vertical_deg.toFixed(1)}° high
      </Fact>
      <Fact name="Frame at focus">
        {length(coverage_m(frame_mm[0], focal_mm, focus_m))} ×{' '}
        {length(coverage_m(frame_mm[1], focal_mm, focus_m))} at {length(focus_m)}
      </Fact>
      <Fact name="Sharp" note={`blur under ${(circle_mm * 1000).toFixed(0)} µm: the frame’s diagonal/1500`}>
        {range === null
          ? 'nothing: the focus is nearer than the focal length'
          : `${length(range.near_m)} to ${Number.isFinite(range.far_m) ? length(range.far_m) : 'infinity'}`}
      </Fact>
      <Fact name="Hyperfocal">{length(hyperfocal_m(setting))}</Fact>
    </Facts>
  );
}
