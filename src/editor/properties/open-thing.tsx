import { useOpenThing } from './trail.tsx';

interface OpenThingProps {
  /** By what it is chosen. */
  readonly id: string;
  readonly name: string;
}

/** Goes to the properties of a thing that another one names. */
export function OpenThing({ id, name }: OpenThingProps) {
  const open = useOpenThing();
  return (
    <button type="button" className="open-thing" aria-label={`Open ${name}`} onClick={() => open(id)}>
      <span aria-hidden="true">›</span>
    </button>
  );
}
