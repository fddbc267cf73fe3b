import { firstSteps } from '../../scene/building/first-steps.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { useEditorStore } from '../store/use-editor.ts';
import { putInPlace, recipeNamed } from './put-in-place.ts';

/** What a new scene still lacks, in order, each with why; nothing once it can be read. */
export function FirstSteps({ document }: { readonly document: SceneDocument }) {
  const store = useEditorStore();
  const steps = firstSteps(document);
  if (steps.length === 0) return null;
  const put = (id: string) => {
    const recipe = recipeNamed(store, id);
    if (recipe) putInPlace(store, recipe);
  };
  return (
    <ol className="first-steps" aria-label="First steps">
      {steps.map(({ recipe, what, why }, i) => (
        <li key={recipe}>
          <button type="button" className={i === 0 ? 'next-step' : undefined} onClick={() => put(recipe)}>
            {what}
          </button>
          <span className="quiet">{why}</span>
        </li>
      ))}
    </ol>
  );
}
