import { Slider } from 'radix-ui';
import { useFrame, useFrameStore } from './use-frame.ts';

/** A frame that was kept, from the left up to where the handle stands; the frame as it is now from there on. */
export function Wipe() {
  const frame = useFrameStore();
  const reference = useFrame((state) => state.reference);
  const wipe = useFrame((state) => state.wipe);
  if (!reference) return null;
  return (
    <>
      <img
        className="frame-reference"
        src={reference.url}
        alt={`Kept frame, ${reference.words}`}
        style={{ clipPath: `inset(0 ${100 - 100 * wipe}% 0 0)` }}
      />
      <Slider.Root
        className="frame-wipe"
        min={0}
        max={1}
        step={0.01}
        value={[wipe]}
        onValueChange={([next]) => next !== undefined && frame.setState({ wipe: next })}
      >
        <Slider.Track className="frame-wipe-track" />
        <Slider.Thumb className="frame-wipe-handle" aria-label="Where the kept frame ends, from the left" />
      </Slider.Root>
    </>
  );
}
