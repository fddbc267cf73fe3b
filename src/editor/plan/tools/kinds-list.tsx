import { Popover } from 'radix-ui';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { KIND_WORDS, planThings, THING_KINDS } from '../arrange/plan-things.ts';
import { toggled } from '../plan-state.ts';
import { usePlan, usePlanStore } from '../use-plan.ts';

/** What stands in the scene, by kind: each can be hidden on the drawing, or kept from being moved. */
export function KindsList() {
  const unusual = usePlan(
    ({ hidden, locked, hiddenKinds, lockedKinds }) =>
      hidden.size + locked.size + hiddenKinds.size + lockedKinds.size > 0,
  );
  return (
    <Popover.Root>
      <Popover.Trigger className="plan-tool" data-marked={unusual}>
        Kinds
      </Popover.Trigger>
      <Popover.Portal>
        <Popover.Content className="plan-popover" align="end" sideOffset={6} collisionPadding={8}>
          <KindsTable />
        </Popover.Content>
      </Popover.Portal>
    </Popover.Root>
  );
}

/** By itself, so that what is not open is not worked out with every edit. */
function KindsTable() {
  const plan = usePlanStore();
  const document = useEditor(documentShown);
  const hidden = usePlan((state) => state.hidden);
  const locked = usePlan((state) => state.locked);
  const hiddenKinds = usePlan((state) => state.hiddenKinds);
  const lockedKinds = usePlan((state) => state.lockedKinds);
  const things = document ? planThings(document) : [];
  const present = THING_KINDS.filter((kind) => things.some((thing) => thing.kind === kind));
  const single = things.filter(({ id }) => hidden.has(id) || locked.has(id));
  return (
    <table className="plan-kinds">
      <thead>
        <tr>
          <th scope="col">Kind</th>
          <th scope="col">Drawn</th>
          <th scope="col">Locked</th>
        </tr>
      </thead>
      <tbody>
        {present.map((kind) => (
          <KindRow
            key={kind}
            name={`${KIND_WORDS[kind].many} (${things.filter((thing) => thing.kind === kind).length})`}
            drawn={!hiddenKinds.has(kind)}
            locked={lockedKinds.has(kind)}
            onDrawn={() => plan.setState({ hiddenKinds: toggled(hiddenKinds, kind) })}
            onLocked={() => plan.setState({ lockedKinds: toggled(lockedKinds, kind) })}
          />
        ))}
        {single.map(({ id, name }) => (
          <KindRow
            key={id}
            name={name}
            drawn={!hidden.has(id)}
            locked={locked.has(id)}
            onDrawn={() => plan.setState({ hidden: toggled(hidden, id) })}
            onLocked={() => plan.setState({ locked: toggled(locked, id) })}
          />
        ))}
      </tbody>
    </table>
  );
}

function KindRow(props: {
  readonly name: string;
  readonly drawn: boolean;
  readonly locked: boolean;
  readonly onDrawn: () => void;
  readonly onLocked: () => void;
}) {
  const { name, drawn, locked, onDrawn, onLocked } = props;
  return (
    <tr>
      <th scope="row">
        <bdi>{name}</bdi>
      </th>
      <td>
        <button
          type="button"
          role="switch"
          className="switch plan-sign-button"
          aria-checked={drawn}
          aria-label={`${name} drawn`}
          onClick={onDrawn}
        >
          <EyeSign open={drawn} />
        </button>
      </td>
      <td>
        <button
          type="button"
          role="switch"
          className="switch plan-sign-button"
          aria-checked={locked}
          aria-label={`${name} locked`}
          onClick={onLocked}
        >
          <LockSign shut={locked} />
        </button>
      </td>
    </tr>
  );
}

function EyeSign({ open }: { readonly open: boolean }) {
  return (
    <svg viewBox="0 0 24 24" width={24} height={24} aria-hidden="true">
      <path d="M2 12C6 5 18 5 22 12C18 19 6 19 2 12Z" />
      <circle cx={12} cy={12} r={3} />
      {!open && <path d="M4 20L20 4" />}
    </svg>
  );
}

function LockSign({ shut }: { readonly shut: boolean }) {
  return (
    <svg viewBox="0 0 24 24" width={24} height={24} aria-hidden="true">
      <rect x={5} y={11} width={14} height={10} rx={2} />
      <path d={shut ? 'M8 11V8A4 4 0 0 1 16 8V11' : 'M8 11V7A4 4 0 0 1 15.6 5.4'} />
    </svg>
  );
}
