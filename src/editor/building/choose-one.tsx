import { choose } from '../store/choose.ts';
import { useEditorStore } from '../store/use-editor.ts';
import { putInPlace, recipeNamed } from './put-in-place.ts';

interface ChooseOneProps {
  /** What is wanted: "figure", "vehicle". */
  readonly word: string;
  readonly things: readonly { readonly id: string; readonly name?: string | undefined }[];
  /** The recipe that adds the first. */
  readonly first: string;
  readonly why: string;
}

/** In place of an editor while nothing is chosen that it edits: those that there are, or the first one to add. */
export function ChooseOne({ word, things, first, why }: ChooseOneProps) {
  const store = useEditorStore();
  const add = () => {
    const recipe = recipeNamed(store, first);
    if (recipe) putInPlace(store, recipe);
  };
  if (things.length === 0)
    return (
      <div className="choose-one">
        <p className="quiet">
          This scene has no {word} yet. {why}
        </p>
        <button type="button" onClick={add}>
          Add a {word}
        </button>
      </div>
    );
  return (
    <div className="choose-one">
      <p className="quiet">Choose the {word} to work on:</p>
      {things.map(({ id, name }) => (
        <button key={id} type="button" onClick={() => choose(store, [id])}>
          <bdi>{name ?? id}</bdi>
        </button>
      ))}
    </div>
  );
}
