import { documentShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { subjectsIn } from './desk.tsx';

/** What is chosen by an id, as the setup that is shown has it. */
export function useThing<T extends object>(id: string): T | undefined {
  return useEditor((state) => {
    const document = documentShown(state);
    return document && (subjectsIn(document, [id])[0]?.thing as T | undefined);
  });
}
