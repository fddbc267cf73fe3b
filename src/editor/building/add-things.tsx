import { ToggleGroup } from 'radix-ui';
import { useState } from 'react';
import { placeWords } from '../../scene/building/in-view.ts';
import type { Recipe } from '../../scene/building/recipe.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { CatalogueList } from './catalogue-list.tsx';
import { FirstSteps } from './first-steps.tsx';
import { HandNotice } from './hand-notice.tsx';
import { LastAdded } from './last-added.tsx';
import { startPlacing } from './placing.ts';
import { putInPlace } from './put-in-place.ts';
import { surroundingsShown } from './surroundings-shown.ts';
import { useResting } from './use-resting.ts';

type Manner = 'in place' | 'on plan';

/** The catalogue, and how things are put from it: ready in a sensible place, or where the plan is pressed. */
export function AddThings() {
  const store = useEditorStore();
  const [manner, setManner] = useState<Manner>('in place');
  const [lacking, setLacking] = useState<string | null>(null);
  const refusedEdit = useEditor((state) => state.refusedEdit);
  const surroundings = useResting(surroundingsShown);
  if (!surroundings) return null;

  const put = (recipe: Recipe) => {
    const why = recipe.lacking(surroundings);
    setLacking(why && `${recipe.name}: ${why}.`);
    if (why) return;
    if (manner === 'on plan' && recipe.points.length > 0) startPlacing(store, recipe);
    else putInPlace(store, recipe);
  };
  const { before, name } = placeWords(surroundings);

  return (
    <div className="add-things">
      <FirstSteps document={surroundings.document} />
      <HandNotice />
      <LastAdded />
      <div className="manner">
        <ToggleGroup.Root
          type="single"
          className="manner-choice"
          aria-label="Where new things go"
          value={manner}
          onValueChange={(value) => value !== '' && setManner(value as Manner)}
        >
          <ToggleGroup.Item value="in place">Ready placed</ToggleGroup.Item>
          <ToggleGroup.Item value="on plan">Where I press</ToggleGroup.Item>
        </ToggleGroup.Root>
        <p className="quiet manner-words">
          {manner === 'in place' ? (
            <>
              New things go {before} <bdi>{name}</bdi>, lamps where their job wants them.
            </>
          ) : (
            'Choose a thing, then press the plan where it is to stand. Dragging it there does the same.'
          )}
        </p>
      </div>
      <div role="status">
        {(lacking ?? refusedEdit) && <p className="note">{lacking ?? `Not changed: ${refusedEdit}`}</p>}
      </div>
      <CatalogueList surroundings={surroundings} onPut={put} />
    </div>
  );
}
