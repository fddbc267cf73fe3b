import { calibrationOf } from '../../../scene/camera/scene-camera.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { Fact, Facts } from './facts.tsx';

/** What the constants make of each other. */
export function CalibrationFacts() {
  const document = useEditor(documentShown);
  if (!document) return null;
  const { flat, dome, reflected } = calibrationOf(document);
  return (
    <Facts>
      <Fact name="Middle grey" note="what a spot meter and a flat cell agree on: π·K/C">
        {((100 * Math.PI * reflected) / flat).toFixed(1)} %
      </Fact>
      <Fact name="Dome over flat" note="for the same reading, log₂ of C dome over C flat">
        +{Math.log2(dome / flat).toFixed(2)} stop
      </Fact>
    </Facts>
  );
}
