/** Rows of cells, the head first; so many columns are words and stand to the left. */
export interface SheetTable {
  readonly leftColumns: number;
  readonly rows: readonly (readonly string[])[];
}

/** A sheet of tables and sentences, ready to print. */
export interface TablesSheet {
  readonly title: string;
  readonly heading: string;
  readonly tables: readonly SheetTable[];
  /** What is to be known or done, a sentence each. */
  readonly findings: readonly string[];
  /** Conventions and limits, a sentence each. */
  readonly footer: readonly string[];
}

/** What things are called, by id. */
export interface Names {
  readonly mark: (id: string) => string;
  readonly lamp: (id: string) => string;
  readonly filter: (id: string) => string;
}
