import { CameraExposureFacts, CameraLensFacts } from '../costs/camera-facts.tsx';
import type { KindTable } from '../field.ts';
import { MonochromeField } from '../fields/monochrome-field.tsx';
import { SensorField } from '../fields/sensor-field.tsx';
import { figure, kelvin, length, NAME, POSITION, ROLL } from './shared-fields.ts';

export const CAMERA: KindTable = {
  kind: 'cameras',
  word: 'Camera',
  sections: [
    {
      title: 'Exposure',
      Facts: CameraExposureFacts,
      fields: [
        figure('fNumber', 'Stop', 'fNumber', 0.1, {
          slide: { from: 1, to: 32, ratio: true },
          help: 'f-number. A T-stop belongs under lens loss.',
        }),
        figure('shutter_s', 'Shutter', 'shutter', 0.001, {
          slide: { from: 1 / 2000, to: 2, ratio: true },
          help: 'Time that each picture is open: 1/50, or 180° at 25 pictures a second.',
        }),
        figure('iso', 'ISO', 'number', 100, { slide: { from: 50, to: 25_600, ratio: true } }),
        figure('nd_stops', 'ND', 'stops', 1 / 3, {
          absent: '0',
          help: 'Neutral density before or in the lens.',
        }),
        figure('loss_stops', 'Lens loss', 'stops', 0.1, {
          absent: '0',
          help: 'What the glass keeps: T-number over f-number, in stops.',
        }),
        kelvin('whiteBalance_K', 'White balance', { absent: '5600' }),
      ],
    },
    {
      title: 'Lens',
      Facts: CameraLensFacts,
      fields: [
        figure('focal_mm', 'Focal length', 'millimetre', 1, { slide: { from: 12, to: 200, ratio: true } }),
        length('focus_m', 'Focus', {
          absent: 'where it looks',
          help: 'Distance along the axis. Left out, it is on the point that the camera looks at.',
        }),
        {
          as: 'special',
          path: ['sensor_mm'],
          label: 'Sensor',
          covers: [[]],
          Component: SensorField,
          help: 'Width and height of the part that makes the picture.',
        },
        figure('aspect', 'Aspect', 'number', 0.01, {
          absent: 'the sensor’s',
          help: 'Width over height of the picture; 1.7778 is 16:9. The sensor is cropped to it.',
        }),
      ],
    },
    {
      title: 'Place',
      fields: [
        POSITION,
        { ...POSITION, path: ['look_m'], label: 'Looks at', help: 'The point in the middle of its frame.' },
        ROLL,
      ],
    },
    {
      title: 'Monochrome',
      folded: true,
      fields: [
        {
          as: 'special',
          path: ['monochrome'],
          label: 'Monochrome',
          covers: [[]],
          Component: MonochromeField,
          help: 'How colours become greys: by weights, a contrast filter, or hue by hue. One of the three.',
        },
      ],
    },
    { title: 'Name', folded: true, fields: [NAME] },
  ],
};
