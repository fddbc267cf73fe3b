import { DropdownMenu } from 'radix-ui';

/** One of several, in a menu. */
export function MenuChoice({
  name,
  value,
  of,
  onChange,
}: {
  /** Stands over them; left out where the names say enough. */
  readonly name?: string;
  readonly value: string;
  readonly of: readonly (readonly [value: string, name: string])[];
  readonly onChange: (value: string) => void;
}) {
  return (
    <DropdownMenu.RadioGroup value={value} onValueChange={onChange}>
      {name !== undefined && <DropdownMenu.Label className="menu-label">{name}</DropdownMenu.Label>}
      {of.map(([each, words]) => (
        <DropdownMenu.RadioItem key={each} value={each} className="menu-item">
          <DropdownMenu.ItemIndicator className="menu-tick">✓</DropdownMenu.ItemIndicator>
          {words}
        </DropdownMenu.RadioItem>
      ))}
    </DropdownMenu.RadioGroup>
  );
}
