import type { Referent } from '../../scene/references/reference-fields.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { type NamedThing, thingsNamed } from './named-things.ts';

const NOTHING: readonly NamedThing[] = [];

/** What may be named in the scene that is shown; drawn anew only when that changes, not with every edit. */
export function useThingsNamed(to: Referent): readonly NamedThing[] {
  return useEditor((state) => {
    const document = documentShown(state);
    return document ? thingsNamed(document, to) : NOTHING;
  });
}
