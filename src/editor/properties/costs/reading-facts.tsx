import { stopsAbove } from '../../../core/exposure/stops.ts';
import { thirdsText } from '../../../core/exposure/thirds.ts';
import { zeroOf } from '../../../core/exposure/zero.ts';
import { calibrationOf, exposureOf } from '../../../scene/camera/scene-camera.ts';
import type { Reading } from '../../../scene/schema/mark.ts';
import { cameraShown, documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import type { FactsProps } from '../field.ts';
import { useThing } from '../use-thing.ts';
import { Fact, Facts } from './facts.tsx';
import { stopsWord } from './stops-word.ts';

/** A reading of the night against the camera's zero. */
export function ReadingFacts({ id }: FactsProps) {
  const reading = useThing<Reading>(id);
  const document = useEditor(documentShown);
  const camera = useEditor(cameraShown);
  if (!reading || !document || !camera) return null;
  const mark = document.marks?.find((one) => one.id === reading.mark);
  const receptor = reading.receptor ?? mark?.receptor ?? 'dome';
  const zero = zeroOf(exposureOf(camera), calibrationOf(document));
  const stops = stopsAbove(reading.illuminance_lx, receptor === 'dome' ? zero.dome_lx : zero.flat_lx);
  return (
    <Facts>
      <Fact
        name="That is"
        note={`with the ${receptor === 'dome' ? 'dome' : 'flat cell'}, at this camera’s exposure`}
      >
        {stopsWord(thirdsText(stops))}
      </Fact>
    </Facts>
  );
}
