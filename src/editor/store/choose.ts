import type { EditorStore } from './editor-store.ts';

/** Chooses these things and no others. The last lamp and the last mark among them stay lit when something else is chosen. */
export function choose(store: EditorStore, ids: readonly string[]): void {
  const { scene } = store.getState();
  const lastOf = (things: readonly { id: string }[] | undefined) =>
    ids.findLast((id) => things?.some((thing) => thing.id === id));
  const lamp = lastOf(scene?.document.lamps);
  const mark = lastOf(scene?.document.marks);
  store.setState({
    chosen: ids,
    ...(lamp === undefined ? {} : { lamp }),
    ...(mark === undefined ? {} : { mark }),
    refusedEdit: null,
  });
}

/** Adds one to what is chosen, as the last, or takes it out again. */
export function chooseToo(store: EditorStore, id: string): void {
  const { chosen } = store.getState();
  choose(store, chosen.includes(id) ? chosen.filter((one) => one !== id) : [...chosen, id]);
}
