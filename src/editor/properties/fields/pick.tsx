import { Command } from 'cmdk';
import { Popover } from 'radix-ui';
import { type ReactNode, useState } from 'react';

export interface PickOption {
  readonly value: string;
  readonly name: string;
  /** What it costs or reads. */
  readonly note?: string | undefined;
  readonly swatch?: ReactNode;
}

interface PickProps {
  readonly label: string;
  /** What is shown on the button. */
  readonly shown: ReactNode;
  readonly chosen?: string | undefined;
  /** Worked out when it is opened. */
  readonly options: () => readonly PickOption[];
  readonly onPick: (value: string) => void;
}

const NO_OPTIONS: readonly PickOption[] = [];

/** One of many: a button that opens a list to search in. */
export function Pick({ label, shown, chosen, options, onPick }: PickProps) {
  const [open, setOpen] = useState(false);
  return (
    <Popover.Root open={open} onOpenChange={setOpen}>
      <Popover.Trigger className="pick" aria-label={label}>
        <span className="pick-shown">{shown}</span>
        <span aria-hidden="true" className="pick-mark">
          ▾
        </span>
      </Popover.Trigger>
      <Popover.Portal>
        <Popover.Content className="pick-list" align="end" sideOffset={4} collisionPadding={8}>
          <PickList
            label={label}
            chosen={chosen}
            options={open ? options() : NO_OPTIONS}
            onPick={(value) => {
              setOpen(false);
              onPick(value);
            }}
          />
        </Popover.Content>
      </Popover.Portal>
    </Popover.Root>
  );
}

interface PickListProps {
  readonly label: string;
  readonly chosen: string | undefined;
  readonly options: readonly PickOption[];
  readonly onPick: (value: string) => void;
}

const SEARCHED_FROM = 8;

function PickList({ label, chosen, options, onPick }: PickListProps) {
  return (
    <Command label={label} defaultValue={chosen ?? ''} loop>
      <Command.Input
        className={options.length < SEARCHED_FROM ? 'out-of-sight' : 'pick-search'}
        placeholder="Search"
      />
      <Command.List className="pick-options">
        <Command.Empty className="quiet pick-empty">Nothing of that name.</Command.Empty>
        {options.map(({ value, name, note, swatch }) => (
          <Command.Item
            key={value}
            value={value}
            keywords={[name]}
            className="pick-option"
            data-chosen={value === chosen || undefined}
            onSelect={() => onPick(value)}
          >
            {swatch}
            <bdi>{name}</bdi>
            {note && <span className="quiet pick-note">{note}</span>}
          </Command.Item>
        ))}
      </Command.List>
    </Command>
  );
}
