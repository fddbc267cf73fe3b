import type { ComponentType } from 'react';
import type { Path } from '../../scene/problems/problem.ts';
import type { Referent } from '../../scene/references/reference-fields.ts';
import type { QuantityName } from '../figures/quantity.ts';
import type { SubjectKind } from './subject.ts';

interface Common {
  /** Below the thing, or below the entry of the list or the group that the field stands in. */
  readonly path: Path;
  readonly label: string;
  readonly help?: string;
}

/** From where to where a slider goes; what is typed may go as far as the schema lets it. */
export interface Slide {
  readonly from: number;
  readonly to: number;
  /** Even steps of the ratio instead of the difference. */
  readonly ratio?: boolean;
}

/** Along which axis of the scene a slider goes as far as things stand. */
export type Reach = { readonly reach: 0 | 1 | 2 };

export interface FigureField extends Common {
  readonly as: 'figure';
  readonly quantity: QuantityName;
  /** What an arrow key adds. */
  readonly step: number;
  readonly slide?: Slide | Reach;
  /** What holds where the field is empty, in words. */
  readonly absent?: string;
  /** The same figure said in another way, beside it. */
  readonly beside?: (value: number) => string;
}

export interface VectorField extends Common {
  readonly as: 'vector';
  readonly quantity: QuantityName;
  readonly step: number;
  readonly parts: readonly string[];
  /** What it is before anybody has said so, where it may be left out. */
  readonly start?: readonly number[];
  /** What holds where it is left out and cannot be put here, in words. */
  readonly absent?: string;
}

export interface ChoiceField extends Common {
  readonly as: 'choice';
  /** What the values are called, in the order in which they are offered; the schema says which there are. */
  readonly words: Readonly<Record<string, string>>;
  readonly absent?: string;
}

export interface TextField extends Common {
  readonly as: 'text' | 'notes';
  readonly absent?: string;
}

export interface SwitchField extends Common {
  readonly as: 'switch';
  /** What holds where the field is left out. */
  readonly absent: boolean;
}

/** The name of another thing. */
export interface ReferenceField extends Common {
  readonly as: 'reference';
  readonly to: Referent;
  /** What holds without one, in words, where it may be left out. */
  readonly absent?: string;
}

/** Names of other things in an order that may matter. */
export interface ReferencesField extends Common {
  readonly as: 'references';
  readonly to: Referent;
  readonly add: string;
  readonly repeats?: boolean;
}

/** Fields that come and go together. */
export interface GroupField extends Common {
  readonly as: 'group';
  /** What it holds when it is switched on; without it the group is always there. */
  readonly start?: object;
  readonly fields: readonly Field[];
}

export interface Variant {
  readonly words: string;
  /** What it holds when it is chosen, without the field that names it; what both variants have is kept. */
  readonly start: object | ((old: unknown) => object);
  /** How it comes about, where choosing it would lack something: it is named and cannot be chosen. */
  readonly comesBy?: string;
  readonly fields: readonly Field[];
}

/** One of several sets of fields, named by one of them. */
export interface VariantField extends Common {
  readonly as: 'variant';
  readonly by: string;
  readonly variants: Readonly<Record<string, Variant>>;
}

export interface ListField extends Common {
  readonly as: 'list';
  /** What one entry is called. */
  readonly one: string;
  /** A new entry after the last one, if any; left out where none can be added by hand. */
  readonly next?: (last: unknown) => unknown;
  readonly fields: readonly Field[];
}

/** Two lists of numbers that belong together, row by row. */
export interface TableField extends Common {
  readonly as: 'table';
  readonly columns: readonly [TableColumn, TableColumn];
}
export interface TableColumn {
  readonly path: Path;
  readonly label: string;
}

/** A field with a way of its own. `covers` are the fields of the document that it shows, with all below them. */
export interface SpecialField extends Common {
  readonly as: 'special';
  readonly covers: readonly Path[];
  readonly Component: ComponentType<SpecialProps>;
}
export interface SpecialProps {
  readonly field: SpecialField;
  /** Where `field` stands below the thing. */
  readonly at: Path;
}

export type Field =
  | FigureField
  | VectorField
  | ChoiceField
  | TextField
  | SwitchField
  | ReferenceField
  | ReferencesField
  | GroupField
  | VariantField
  | ListField
  | TableField
  | SpecialField;

/** What follows from a thing's fields, shown among them; `id` is what it is chosen by. */
export interface FactsProps {
  readonly id: string;
}

export interface Section {
  readonly title: string;
  readonly fields: readonly Field[];
  readonly Facts?: ComponentType<FactsProps>;
  /** What follows is what is asked first: it stands above the fields instead of below them. */
  readonly factsFirst?: boolean;
  /** Folded away until it is wanted. */
  readonly folded?: boolean;
}

/** All that can be set of one kind of thing. */
export interface KindTable {
  readonly kind: SubjectKind;
  /** "Lamp", as a heading says it. */
  readonly word: string;
  readonly sections: readonly Section[];
}

/** Every field of the document that a table's fields reach: paths below the thing, `*` for every entry of a list. */
export function pathsOf(fields: readonly Field[], under: readonly string[] = []): string[][] {
  const at = (path: Path) => [...under, ...path.map(String)];
  return fields.flatMap((field): string[][] => {
    switch (field.as) {
      case 'group':
        return pathsOf(field.fields, at(field.path));
      case 'variant':
        return [
          at([...field.path, field.by]),
          ...Object.values(field.variants).flatMap(({ fields }) => pathsOf(fields, at(field.path))),
        ];
      case 'list':
        return pathsOf(field.fields, at([...field.path, '*']));
      case 'table':
        return field.columns.map((column) => at([...field.path, ...column.path]));
      case 'vector':
        return field.parts.map((_, index) => at([...field.path, index]));
      case 'special':
        return field.covers.map((path) => at([...field.path, ...path]));
      default:
        return [at(field.path)];
    }
  });
}
