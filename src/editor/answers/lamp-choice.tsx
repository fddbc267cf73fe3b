import { LampBadge } from '../figures/lamp-badge.tsx';
import { lampSign } from '../figures/lamp-colour.ts';
import { choose } from '../store/choose.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';

/** A lamp's sign and name; pressed, it is the lamp that is chosen everywhere. */
export function LampChoice({ id, name }: { readonly id: string; readonly name: string }) {
  const store = useEditorStore();
  const lamps = useEditor((state) => state.scene?.document.lamps);
  const chosen = useEditor((state) => state.chosen.at(-1) === id);
  const sign = lampSign({ lamps }, id);
  return (
    <button type="button" className="lamp-choice" aria-pressed={chosen} onClick={() => choose(store, [id])}>
      <LampBadge sign={sign} size_px={24} />
      <bdi>{name}</bdi>
    </button>
  );
}
