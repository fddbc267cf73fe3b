import { makeOwn } from '../../scene/building/own-entry.ts';
import type { Recipe, Surroundings } from '../../scene/building/recipe.ts';
import { useEditorStore } from '../store/use-editor.ts';
import { entryOf } from './entry-of.ts';
import { takeUp } from './take-up.ts';

interface OwnCopyProps {
  readonly recipe: Recipe | undefined;
  readonly surroundings: Surroundings;
}

/**
 * Makes an own copy of the head, filter, material or pane that is lit in the list; what is chosen and uses it uses the copy.
 */
export function OwnCopy({ recipe, surroundings }: OwnCopyProps) {
  const store = useEditorStore();
  const entry = recipe && entryOf(recipe.id);
  const { document, chosen } = surroundings;
  return (
    <div className="own-copy">
      <button
        type="button"
        disabled={!entry}
        onClick={() => entry && takeUp(store, makeOwn(document, entry.dictionary, entry.name, chosen))}
      >
        Make my own
      </button>
      <span className="quiet">
        {entry ? (
          <>
            A copy of <bdi>{recipe!.name}</bdi> to change at will.
          </>
        ) : (
          'Of a head, filter, material or pane.'
        )}
      </span>
    </div>
  );
}
