import { entryNamed, LIBRARY } from '../../scene/library/library.ts';
import { filterHex, materialHex } from '../properties/costs/swatch-colour.ts';
import { Swatch } from '../properties/fields/swatch.tsx';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { entryOf } from './entry-of.ts';

/** The colour of a material, or of white light through a filter; nothing for other things. */
export function RecipeSwatch({ id }: { readonly id: string }) {
  const hex = useEditor((state) => {
    const entry = entryOf(id);
    const document = documentShown(state);
    if (entry?.dictionary === 'materials') {
      const material = entryNamed(document?.materials, LIBRARY.materials, entry.name);
      return material ? materialHex(material) : null;
    }
    if (entry?.dictionary === 'filters') {
      const filter = entryNamed(document?.filters, LIBRARY.filters, entry.name);
      return filter ? filterHex(filter) : null;
    }
    return null;
  });
  return hex === null ? null : <Swatch hex={hex} />;
}
