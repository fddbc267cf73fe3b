import { stopsAbove } from '../../../core/exposure/stops.ts';
import { thirdsText } from '../../../core/exposure/thirds.ts';
import { luminanceOfRgb } from '../../../core/picture/linear-rgb.ts';
import { dielectricReflectance } from '../../../core/surfaces/fresnel.ts';
import { calibrationOf } from '../../../scene/camera/scene-camera.ts';
import type { Material } from '../../../scene/schema/material.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import type { FactsProps } from '../field.ts';
import { Swatch } from '../fields/swatch.tsx';
import { useThing } from '../use-thing.ts';
import { Fact, Facts } from './facts.tsx';
import { stopsWord } from './stops-word.ts';
import { baseReflectance, materialHex } from './swatch-colour.ts';

const RAKING_cos = Math.cos((75 * Math.PI) / 180);

/** How light a material is, and what a spot meter reads off it where the incident meter reads zero. */
export function MaterialFacts({ id }: FactsProps) {
  const material = useThing<Material>(id);
  const document = useEditor(documentShown);
  if (!material || !document || (material.reflectance === undefined && material.metal === undefined))
    return null;
  const reflectance = luminanceOfRgb(baseReflectance(material));
  const { flat, reflected } = calibrationOf(document);
  const stops = stopsAbove((reflectance * flat) / Math.PI, reflected);
  const { coatIor, metal } = material;
  return (
    <Facts>
      <Fact name="Looks" note="in neutral light that meters correct">
        <Swatch hex={materialHex(material)} /> {(reflectance * 100).toFixed(reflectance < 0.1 ? 1 : 0)} %
      </Fact>
      {metal === undefined ? (
        <Fact
          name="Reads"
          note={`base alone, where a flat cell square to it reads 0 (C ${flat}, K ${reflected})`}
        >
          {stopsWord(thirdsText(stops))}
        </Fact>
      ) : (
        <Fact name="Reads">whatever it mirrors</Fact>
      )}
      {coatIor !== undefined && (
        <Fact name="Gloss mirrors" note="of light straight on, and raking at 75°">
          {(100 * dielectricReflectance(1, coatIor)).toFixed(1)} %,{' '}
          {(100 * dielectricReflectance(RAKING_cos, coatIor)).toFixed(0)} %
        </Fact>
      )}
    </Facts>
  );
}
