import { ToggleGroup } from 'radix-ui';
import { headingOf_deg, levelToward } from '../../scene/building/directions.ts';
import { withItsMarks } from '../../scene/building/figure-marks.ts';
import { entryNamed, LIBRARY } from '../../scene/library/library.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { type Figure, POSES } from '../../scene/schema/figure.ts';
import { materialHex } from '../properties/costs/swatch-colour.ts';
import { DeskProvider, useNewDesk } from '../properties/desk.tsx';
import { FieldList } from '../properties/fields/field-list.tsx';
import { FIGURE } from '../properties/kinds/people-and-marks.ts';
import { choose } from '../store/choose.ts';
import { edit } from '../store/edits.ts';
import { cameraShown, documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { ChooseOne } from './choose-one.tsx';
import { figureChosen } from './chosen-of.ts';
import { putInPlace, recipeNamed } from './put-in-place.ts';
import { Silhouette } from './silhouette.tsx';

const POSE_WORDS: Readonly<Record<(typeof POSES)[number], string>> = {
  standing: 'Standing',
  sitting: 'Sitting',
  leaning: 'Leaning',
  walking: 'Walking',
};
const NO_FIGURES: readonly Figure[] = [];

/** How a figure stands, where it looks and what it wears. */
export function FigureEditor() {
  const figure = useEditor(figureChosen);
  const figures = useEditor((state) => documentShown(state)?.figures ?? NO_FIGURES);
  if (!figure)
    return (
      <ChooseOne
        word="figure"
        things={figures}
        first="figure:standing"
        why="It comes with a mark on its face, where the meter is held."
      />
    );
  return <OneFigure key={figure.id} figure={figure} />;
}

function OneFigure({ figure }: { readonly figure: Figure }) {
  const store = useEditorStore();
  const { id, name, pose = 'standing' } = figure;
  const document = useEditor(documentShown);
  if (!document) return null;
  const change = (patch: Partial<Figure>) => edit(store, { do: 'change', id, patch });

  return (
    <div className="figure-editor">
      <h3>
        <bdi>{name ?? id}</bdi>
      </h3>
      <ToggleGroup.Root
        type="single"
        className="poses"
        aria-label="Pose"
        value={pose}
        onValueChange={(value) => value !== '' && change({ pose: value as Figure['pose'] })}
      >
        {POSES.map((one) => (
          <ToggleGroup.Item key={one} value={one}>
            <Silhouette pose={one} {...(one === pose ? { colours: coloursOf(document, figure) } : {})} />
            {POSE_WORDS[one]}
          </ToggleGroup.Item>
        ))}
      </ToggleGroup.Root>
      <p className="quiet">
        Drawn in its own materials as the frame draws them in neutral light at the camera’s zero.
      </p>
      <Facing figure={figure} />
      <Fields id={id} />
      <Marks document={document} figure={figure} />
    </div>
  );
}

const WORN = { skin: 'skin-mid', upper: 'wool-grey', lower: 'wool-dark' } as const;

function coloursOf(document: SceneDocument, figure: Figure) {
  const hex = (part: keyof typeof WORN) => {
    const material = entryNamed(document.materials, LIBRARY.materials, figure[part] ?? WORN[part]);
    return material ? materialHex(material) : 'currentColor';
  };
  return { skin: hex('skin'), upper: hex('upper'), lower: hex('lower') };
}

/** Turns that words say better than degrees. */
function Facing({ figure }: { readonly figure: Figure }) {
  const store = useEditorStore();
  const camera = useEditor(cameraShown);
  if (!camera) return null;
  const toCamera_deg = headingOf_deg(levelToward(figure.position_m, camera.position_m));
  const turns = [
    ['To camera', 0],
    ['¾ left', 45],
    ['¾ right', -45],
    ['Away', 180],
    ['Left', 90],
    ['Right', -90],
  ] as const;
  return (
    <fieldset className="facing">
      <legend className="quiet">Turn it, as the camera sees it</legend>
      {turns.map(([words, by_deg]) => (
        <button
          key={words}
          type="button"
          onClick={() =>
            edit(
              store,
              { do: 'change', id: figure.id, patch: { heading_deg: (toCamera_deg - by_deg + 360) % 360 } },
              `Turn ${figure.name ?? figure.id}`,
            )
          }
        >
          {words}
        </button>
      ))}
    </fieldset>
  );
}

const [{ fields }, wardrobe] = FIGURE.sections as [(typeof FIGURE.sections)[0], (typeof FIGURE.sections)[0]];
const BODY = fields.filter(({ path }) => path[0] === 'heading_deg' || path[0] === 'height_m');

/** The same fields as among its properties. */
function Fields({ id }: { readonly id: string }) {
  const ids = useEditor((state) =>
    state.chosen.length === 1 && state.chosen[0] === id ? state.chosen : null,
  );
  const desk = useNewDesk(ids ?? [id], 'figures');
  return (
    <DeskProvider value={desk}>
      {desk.refused && (
        <p className="note" role="status">
          {desk.refused}
        </p>
      )}
      <div className="properties">
        <FieldList fields={BODY} />
        <FieldList fields={wardrobe.fields} />
      </div>
    </DeskProvider>
  );
}

function Marks({ document, figure }: { readonly document: SceneDocument; readonly figure: Figure }) {
  const store = useEditorStore();
  const [, ...ids] = withItsMarks(document, figure.id);
  const add = (recipeId: string) => {
    const recipe = recipeNamed(store, recipeId);
    if (recipe && putInPlace(store, recipe)) choose(store, [figure.id]);
  };
  const marks = ids.map((id) => document.marks?.find((mark) => mark.id === id)?.name ?? id);
  return (
    <div className="its-marks">
      <p>
        {marks.length === 0 ? (
          <span className="quiet">No mark stands at it: nothing is read here.</span>
        ) : (
          <>
            <span className="quiet">Its marks, which move with it: </span>
            {marks.map((mark, i) => (
              <span key={ids[i]}>
                {i > 0 && '; '}
                <bdi>{mark}</bdi>
              </span>
            ))}
          </>
        )}
      </p>
      <div className="its-marks-buttons">
        <button type="button" onClick={() => add('mark:face')}>
          Add a face mark
        </button>
        <button type="button" onClick={() => add('mark:rim')}>
          Add a rim mark
        </button>
      </div>
    </div>
  );
}
